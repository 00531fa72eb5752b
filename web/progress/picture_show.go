package progress

import (
	"net/http"
	"slices"
	"strconv"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// classPictureView is a class's picture: everything turned to a break from the left.
type classPictureView struct {
	Frame      page.Frame
	Path, Name string
	Answer     string
	All        picture.CloudView
	// Apart says whose breaks are not in the common picture, and why; "" for
	// nobody's.
	Apart        string
	Mirrored     int // students who break from the right
	Wing         []picture.RateView
	Slots        *slotEndsTable
	Students     []studentPicture
	TriedChange  *triedChangeView
	TriedChanges []triedChangeLine
}

// studentPicture is one student of the small pictures.
type studentPicture struct {
	Path, Name, Says string
	Cloud            *picture.CloudView
}

func (p *Pages) showClassPicture(w http.ResponseWriter, r *http.Request) error {
	id, err := parseClassID(r)
	if err != nil {
		return err
	}
	user := session.MustUser(r)
	taken, err := p.store.GetClassPicture(r.Context(), user.Actor, id)
	if err != nil {
		return err
	}
	v := classPicture(taken)
	if v.TriedChange, err = p.findTriedChange(r, taken); err != nil {
		return err
	}
	v.TriedChanges = listTriedChanges(v.Path, taken, v.TriedChange, say.UnitsOf(r.Context()))
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, classPicturePage(v))
}

// classPicture draws what the class broke.
func classPicture(taken store.ClassPicture) classPictureView {
	v := classPictureView{Path: route.ClassPath(taken.Class.ID), Name: taken.Class.Name}
	kind, any := sharedKind(taken.Students)
	v.All = picture.CloudView{ID: "all", Title: "All cue balls of the class", Kind: kind}
	var n store.Tally
	slots := slotCounter{kind: kind}
	others := 0
	for _, one := range taken.Students {
		small := studentPicture{Path: route.StudentPath(one.ID), Name: one.Name, Says: "not done yet"}
		if len(one.Sets) > 0 {
			seen := turnStudent(one)
			small.Cloud = seen.drawCloud("c-"+one.ID.String(), one.Name)
			small.Says = say.OfTotal(small.Cloud.InWindow, seen.countBreaks()) + " in the window"
			v.Mirrored += seen.mirrored
			if seen.kind.SameSize(kind) {
				mergeCloud(&v.All, *small.Cloud)
				n = n.Plus(seen.tally)
				slots.addStudent(seen)
			} else {
				others++
			}
		}
		v.Students = append(v.Students, small)
	}
	if !any {
		v.Answer = "Nobody of this class has done a set yet. Their cue balls will be drawn here."
		return v
	}
	markWhereMostStop(&v.All)
	v.Wing, v.Slots = wingEndRates("class", n), slots.buildTable()
	v.Answer = "The cue ball stopped in its window in " + say.OfTotal(n.InWindow, n.Breaks) + ", and the wing ball found its corner in " + say.OfWatched(n.WingMade, n.Watched) + "."
	if others > 0 {
		v.Apart = say.Count(others, "student", "students") + " broke on tables of another size: they have their own picture below, and are not in the common one."
	}
	return v
}

// mergeCloud adds a student's places to those of all.
func mergeCloud(all *picture.CloudView, one picture.CloudView) {
	all.Places = append(all.Places, one.Places...)
	all.Scratches, all.Off, all.InWindow = all.Scratches+one.Scratches, all.Off+one.Off, all.InWindow+one.InWindow
}

// sharedKind is the kind of table of the size that most of the class broke on,
// and false when nobody did.
func sharedKind(all []store.PictureStudent) (table.Kind, bool) {
	most, kinds, students := table.NineFoot(), map[string]table.Kind{}, map[string]int{}
	for _, one := range all {
		if len(one.Sets) > 0 {
			k := one.Sets[0].Kind
			if _, known := kinds[k.Size()]; !known {
				kinds[k.Size()] = k
			}
			students[k.Size()]++
		}
	}
	best := 0
	for _, k := range slices.Backward(table.Sizes()) {
		if size := k.Size(); students[size] > best {
			best, most = students[size], kinds[size]
		}
	}
	return most, best > 0
}

// sidesWords says how the pictures were turned.
func (v classPictureView) sidesWords() string {
	switch {
	case v.Mirrored == 0:
		return "Everybody breaks from the left."
	case v.Mirrored == 1:
		return "Everything is turned to a break from the left: the breaks of one student from the right are mirrored."
	}
	return "Everything is turned to a break from the left: the breaks of " + strconv.Itoa(v.Mirrored) + " students from the right are mirrored."
}

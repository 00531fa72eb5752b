package progress_test

import (
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

func classPath(site *webtest.Site) string { return "/classes/" + site.Class.String() }

func percents(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(s, "%"), 64)
	if err != nil || !strings.HasSuffix(s, "%") {
		t.Fatalf("%q is no share", s)
	}
	return v / 100
}

// What a class page draws is what is stored: the rate, its interval, the sets.
func TestClass_DrawsWhatIsStored(t *testing.T) {
	site, _ := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 6, Sets: 14, Seed: 1, Until: time.Now()})
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, 0)
	_, all, err := site.Store.GetClassProgress(t.Context(), site.Coach, site.Class)
	if err != nil {
		t.Fatal(err)
	}
	got := site.SignInCoach(t).Get(t, classPath(site)+"/progress").RequireStatus(t, http.StatusOK).RequireCount(t, "table.standings tbody tr", 9)
	drawn := 0
	for _, one := range all {
		if one.Stint == nil {
			continue
		}
		drawn++
		bar := "tr:has(a[href$='" + one.ID.String() + "']) "
		at, low, width := percents(t, got.AttributeOf(t, bar+"[href='#row-seen']", "x")), percents(t, got.AttributeOf(t, bar+".pic-band", "x")), percents(t, got.AttributeOf(t, bar+".pic-band", "width"))
		want := evidence.JeffreysInterval(one.Stint.WingMade, one.Stint.Breaks, 0.95)
		rate := float64(one.Stint.WingMade) / float64(one.Stint.Breaks)
		if math.Abs(at-rate) > 0.0006 || math.Abs(low-want.Low) > 0.0006 || math.Abs(low+width-want.High) > 0.0012 {
			t.Errorf("%s: %d of %d is drawn at %v, its band from %v to %v, want %v", one.Name, one.Stint.WingMade, one.Stint.Breaks, at, low, low+width, want)
		}
		dots := strings.Split(strings.TrimPrefix(got.AttributeOf(t, bar+".pic-set", "d"), "M"), "M")
		if len(dots) != len(one.Recent) {
			t.Fatalf("%s: %d sets drawn of %d", one.Name, len(dots), len(one.Recent))
		}
		for i, dot := range dots {
			var x, y float64
			if _, err := fmt.Sscanf(dot, "%f %fh0", &x, &y); err != nil {
				t.Fatal(err)
			}
			share := float64(one.Recent[i].WingMade) / float64(one.Recent[i].Breaks)
			if math.Abs(y-(52-44*share)) > 0.51 || x != 20*float64(i)+10 {
				t.Errorf("%s: set %d, %d of %d, is drawn at %v", one.Name, i, one.Recent[i].WingMade, one.Recent[i].Breaks, dot)
			}
		}
	}
	// Odile's five of ten: .2235 to .7765 (Jeffreys, Brown, Cai and DasGupta 2001).
	bar := "tr:has(a[href$='" + site.Students[0].ID.String() + "']) "
	if low := got.AttributeOf(t, bar+".pic-band", "x"); low != "22.4%" || got.AttributeOf(t, bar+".pic-band", "width") != "55.3%" {
		t.Errorf("5 of 10 has a band from %s", low)
	}
	if drawn != 7 {
		t.Errorf("%d rows were looked at", drawn)
	}
}

func TestClass_SortsFiltersAndSearchesByAddress(t *testing.T) {
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 6, Sets: 14, Seed: 2, Until: time.Now()})
	coach := site.SignInCoach(t)
	path := classPath(site) + "/progress"
	got := coach.Get(t, path+"?sort=sets&order=down").RequireText(t, "th[aria-sort=descending]", "Sets")
	if first := got.TextOf(t, "tbody tr:first-child th"); !strings.HasPrefix(first, "Student ") {
		t.Errorf("the most sets are %s's", first)
	}
	if last := got.TextOf(t, "tbody tr:last-child"); !strings.Contains(last, "Not done yet") {
		t.Errorf("last stands %q", last)
	}
	coach.Get(t, path+"?show=none").RequireCount(t, "tbody tr", 3).RequireText(t, "#standings", "3 of 9 students shown")
	coach.Get(t, path+"?q=odi").RequireCount(t, "tbody tr", 1).RequireText(t, "tbody", "Odile")
	coach.Get(t, path+"?q="+url.QueryEscape(`"><script>x`)).RequireStatus(t, 200).RequireCount(t, "tbody tr", 0).RequireCount(t, "main script", 0)
	coach.Get(t, path+"?sort=nonsense&order=up&show=%00").RequireCount(t, "tbody tr", 9).RequireText(t, "th[aria-sort=ascending]", "Student")
	part := coach.SendWithHeaders(t, http.MethodGet, path+"?sort=wing", nil, map[string]string{"HX-Request": "true"})
	part.RequireStatus(t, 200).RequireCount(t, "nav", 0).RequireCount(t, "tbody tr", 9).RequireText(t, "tbody", "ordered as")

	// One set of ten of ten does not lead the list; on another table it is marked.
	lucky := store.Actor{Club: site.Coach.Club, Person: students[0].ID, Role: store.Student}
	perfect(t, site, lucky, "Table of our own", table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: 4.875})
	got = coach.Get(t, path+"?sort=wing&order=down").RequireText(t, "tbody", "Tighter table (9 ft, corners 4.25 in, sides 4.875 in), not in the class total")
	if first := got.TextOf(t, "tbody tr:first-child th"); first == students[0].Name {
		t.Error("ten of ten on tighter pockets lead the list of others")
	}
	coach.Get(t, path+"?show=other").RequireCount(t, "tbody tr", 1).RequireText(t, "tbody", students[0].Name)
}

// perfect closes a set of ten of ten on a new table.
func perfect(t *testing.T, site *webtest.Site, who store.Actor, name string, k table.Kind) {
	t.Helper()
	where, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: name, Kind: k})
	if err != nil {
		t.Fatal(err)
	}
	set, err := site.Store.StartSet(t.Context(), who, store.NewSet{Assignment: site.Assignment, Table: where.ID})
	if err != nil {
		t.Fatal(err)
	}
	for n := range 10 {
		b := drill.Break{Number: n + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 1, Y: 40}},
			Pocketed: []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}}
		if _, err := site.Store.SaveBreak(t.Context(), who, set.ID, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}); err != nil {
			t.Fatal(err)
		}
	}
	site.CloseSet(t, who, set.ID, set.Setup.Cue.X)
}

func TestClass_EmptyAndOthers(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	coach.Get(t, classPath(site)+"/progress").RequireText(t, ".answer", "Nobody of this class has done a set yet").RequireCount(t, "tbody tr", 3)
	coach.Get(t, classPath(site)+"/picture").RequireText(t, ".answer", "Nobody of this class has done a set yet")
	empty, err := site.Store.SaveClass(t.Context(), site.Coach, store.Class{Name: "<b>New</b> 🎱"})
	if err != nil {
		t.Fatal(err)
	}
	coach.Get(t, "/classes/"+empty.String()+"/progress").RequireText(t, "h1", "<b>New</b> 🎱").RequireText(t, "main", "Add students")
	for _, page := range []string{"/progress", "/picture"} {
		coach.Get(t, "/classes/"+uuid.NewString()+page).RequireStatus(t, http.StatusNotFound)
		coach.Get(t, "/classes/x"+page).RequireStatus(t, http.StatusNotFound)
	}
}

// A stranger's students and stints are not there, whatever the address says.
func TestStory_OnlyOnesOwn(t *testing.T) {
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 2, Sets: 14, Seed: 4, Until: time.Now()})
	other := storetest.AddScene(t, site.Store)
	coach := site.SignInCoach(t)
	coach.Get(t, "/students/"+other.Students[0].ID.String()).RequireStatus(t, http.StatusNotFound)
	story, err := site.Store.GetStudentProgress(t.Context(), site.Coach, students[0].ID, store.ProgressFilter{})
	if err != nil {
		t.Fatal(err)
	}
	mine := site.SignInStudent(t, students[1])
	mine.Get(t, "/my/progress?stint="+story.Stints[0].ID.String()).RequireStatus(t, http.StatusNotFound)
	mine.Get(t, "/my/progress?stint=x").RequireStatus(t, http.StatusNotFound)
	mine.Get(t, "/my/progress?before=x").RequireStatus(t, http.StatusNotFound)
	coach.Get(t, "/students/"+students[1].ID.String()+"?stint="+story.Stints[0].ID.String()).RequireStatus(t, http.StatusNotFound)
	site.SignInStudent(t, site.Students[1]).Get(t, "/my/progress").RequireText(t, ".answer", "from your first set on").RequireCount(t, "ol.story", 0)
}

// Student and coach read the same story; every stint and every change is on it,
// page after page.
func TestStory_IsWholeAndTheSameForBoth(t *testing.T) {
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 1, Sets: 60, Seed: 5, Until: time.Now()})
	coach, mine := site.SignInCoach(t), site.SignInStudent(t, students[0])
	of := "/students/" + students[0].ID.String()
	theirs := coach.Get(t, of).RequireText(t, ".answer", "600 breaks in 60 sets")
	ours := mine.Get(t, "/my/progress").RequireText(t, ".answer", "600 breaks in 60 sets").RequireText(t, "h1", "My progress")
	if a, b := theirs.TextOf(t, "ol.story h3"), ours.TextOf(t, "ol.story h3"); a != b || a == "" {
		t.Errorf("the coach reads %q, the student %q", a, b)
	}
	ours.RequireCount(t, "#control", 1)
	if says := ours.TextOf(t, "section[aria-labelledby=chart] p"); says == "" || strings.Contains(says, "They") {
		t.Errorf("the student's chart says %q", says)
	}
	stints, sets := 0, 0
	page, path := ours, ""
	for range 20 {
		stints += len(page.FindAll(t, "ol.story > li:not(.change)"))
		sets += len(page.FindAll(t, "ol.story .rows > li"))
		path = ""
		for _, n := range page.FindAll(t, "section[aria-labelledby=way] > p > a.button") {
			for _, a := range n.Attr {
				if a.Key == "href" {
					path, _, _ = strings.Cut(a.Val, "#")
				}
			}
		}
		if path == "" {
			break
		}
		page = mine.Get(t, path).RequireStatus(t, 200).RequireText(t, "section[aria-labelledby=way]", "Back to the newest")
	}
	if sets != 60 || stints < 15 {
		t.Errorf("%d sets in %d stints are told", sets, stints)
	}
}

// The picture of any stint holds its own cue balls.
func TestStory_DrawsAnyStint(t *testing.T) {
	site, students := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 1, Sets: 14, Seed: 6, Until: time.Now()})
	mine := site.SignInStudent(t, students[0])
	story, err := site.Store.GetStudentProgress(t.Context(), site.Coach, students[0].ID, store.ProgressFilter{})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range story.Stints {
		shown, err := site.Store.GetStudentProgress(t.Context(), site.Coach, students[0].ID, store.ProgressFilter{Show: x.ID})
		if err != nil {
			t.Fatal(err)
		}
		page := mine.Get(t, "/my/progress?stint="+x.ID.String())
		drawn := strings.Count(page.AttributeOf(t, "#cloud .pic-dots", "d"), "M")
		stopped := 0
		for _, b := range shown.Shown.Breaks {
			if b.Cue.How == drill.Stopped {
				stopped++
				if p := b.Cue.Place; !strings.Contains(page.AttributeOf(t, "#cloud .pic-dots", "d"), fmt.Sprintf("M%v %vh0", tenth(p.X), tenth(-p.Y))) {
					t.Errorf("a cue ball at %s is not drawn", p)
				}
			}
		}
		if drawn != stopped || stopped == 0 {
			t.Errorf("%d cue balls drawn, %d stopped", drawn, stopped)
		}
		if want := fmt.Sprintf("%d of %d", x.WingMade, x.Breaks); page.TextOf(t, ".ends .pic-rate:first-child .pic-count") != want {
			t.Errorf("the wing ball is drawn as %q, want %s", page.TextOf(t, ".ends .pic-rate:first-child .pic-count"), want)
		}
	}
}

// tenth writes inches as a picture does: tenths of an inch.
func tenth(v table.Inches) float64 { return math.Round(float64(v)*100)/10 + 0 }

// A card is issued once, with the counts it rests on, and the student has it.
func TestCards_AreIssuedOnce(t *testing.T) {
	site := webtest.New(t)
	student := site.StudentActor(0)
	set := site.RecordBreaks(t, student, 10)
	site.CloseSet(t, student, set, site.Drill.Setup.Cue.X)
	coach := site.SignInCoach(t)
	path := "/students/" + site.Students[0].ID.String() + "/cards"
	card := uuid.NewString()
	form := url.Values{"card": {card}, "set": {set.String()}}
	for range 2 {
		coach.Post(t, path, form).RequireStatus(t, 200).RequireText(t, "[role=status]", "Break card issued")
	}
	form.Set("card", uuid.NewString())
	coach.Post(t, path, form).RequireStatus(t, 200)
	mine := site.SignInStudent(t, site.Students[0]).Get(t, "/my/progress").RequireCount(t, ".cards-own > li", 1)
	mine.RequireText(t, ".cards-own", "North 2", "Wing ball in its corner 5 of 10, cue ball in the window 10 of 10", "(18 in) left of the middle")
	coach.Post(t, path, url.Values{"card": {card}, "set": {set.String()}, "undo": {"yes"}}).RequireText(t, "[role=status]", "withdrawn")
	coach.Get(t, "/students/"+site.Students[0].ID.String()).RequireCount(t, ".cards-own > li", 0)
	wrong := url.Values{"card": {uuid.NewString()}, "set": {set.String()}}
	coach.Post(t, "/students/"+site.Students[1].ID.String()+"/cards", wrong).RequireStatus(t, http.StatusNotFound)
	open := site.StartSet(t, student)
	coach.Post(t, path, url.Values{"card": {uuid.NewString()}, "set": {open.ID.String()}}).RequireStatus(t, http.StatusNotFound)
}

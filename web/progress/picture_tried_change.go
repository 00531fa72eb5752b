package progress

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// triedChangeView is a change with what was broken before and since, side by side.
type triedChangeView struct {
	ID, Student, StudentPath, Reason, Change, State, Mark string
	Wing, Window                                          *picture.PairView
	Before, After                                         *picture.CloudView
}

// triedChangeLine is a change to choose.
type triedChangeLine struct {
	Path, Words string
	Here        bool
}

// findTriedChange returns the change that the address asks for, else the class's latest;
// nil when there is none.
func (p *Pages) findTriedChange(r *http.Request, taken store.ClassPicture) (*triedChangeView, error) {
	var id store.PrescriptionID
	if asked := r.URL.Query().Get("change"); asked != "" {
		var err error
		if id, err = store.ParseID[store.PrescriptionID](asked); err != nil {
			return nil, err
		}
	} else if len(taken.Tried) > 0 {
		id = latestFinishedChange(taken.Tried).ID
	} else {
		return nil, nil
	}
	t, err := p.store.GetTriedChange(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return nil, err
	}
	return newTriedChangeView(t, say.UnitsOf(r.Context())), nil
}

// latestFinishedChange is the latest change that was tried to the end, else the latest.
func latestFinishedChange(tried []store.TriedChange) store.TriedChange {
	for _, t := range tried {
		if t.State != store.InTrial {
			return t
		}
	}
	return tried[0]
}

func newTriedChangeView(t store.TriedChangeStints, u say.Units) *triedChangeView {
	one := t.Prescription
	v := &triedChangeView{
		ID: one.ID.String(), Student: t.StudentName, StudentPath: route.StudentPath(one.Student), Reason: component.WhyWords(one.Change(), "the coach", u),
		Change: say.Capitalize(component.ArrowWords(one.Before, one.After, one.Kind, u)),
	}
	v.State, v.Mark = prescriptionStateWords(one)
	if t.Before != nil {
		c := drawTurnedCloud("before", "Before", *t.Before)
		v.Before = &c
	}
	if t.After != nil {
		c := drawTurnedCloud("after", "Since", *t.After)
		v.After = &c
	}
	if t.Before != nil && t.After != nil {
		b, a := t.Before.Tally, t.After.Tally
		v.Wing = newRatePair("pair-wing", "Wing ball in its corner", b.WingMade, b.Watched, a.WingMade, a.Watched)
		v.Window = newRatePair("pair-window", "Cue ball in the window", b.InWindow, b.Breaks, a.InWindow, a.Breaks)
	}
	return v
}

func newRatePair(id, title string, before, ofBefore, after, ofAfter int) *picture.PairView {
	return &picture.PairView{ID: id, Title: title, Before: newRate(id+"-before", title+" before", before, ofBefore), After: newRate(id+"-after", title+" since", after, ofAfter)}
}

// drawTurnedCloud draws a stint as from the left.
func drawTurnedCloud(id, title string, s store.ShownStint) picture.CloudView {
	if s.Setup.Side == table.Right {
		s.Setup, s.Window = s.Setup.Mirror(), s.Window.Mirror()
		for i := range s.Breaks {
			s.Breaks[i] = s.Breaks[i].Mirror()
		}
	}
	return newCloud(id, title, s)
}

// listTriedChanges are the changes one can choose.
func listTriedChanges(path string, taken store.ClassPicture, shown *triedChangeView, u say.Units) []triedChangeLine {
	names := map[store.PersonID]string{}
	for _, one := range taken.Students {
		names[one.ID] = one.Name
	}
	var lines []triedChangeLine
	for _, t := range taken.Tried {
		id := t.ID.String()
		lines = append(lines, triedChangeLine{
			Path: path + "/picture?change=" + id + "#change", Here: shown != nil && shown.ID == id,
			Words: names[t.Student] + ": " + component.ArrowWords(t.Before, t.After, t.Kind, u) + ", " + component.OutcomeWords(t.State),
		})
	}
	return lines
}

package progress

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
	"breakwright/web/session"
)

// trialView is a change with what was broken before and since, side by side.
type trialView struct {
	ID, Student, StudentPath, Reason, Change, State, Mark string
	Wing, Window                                          *picture.PairView
	Before, After                                         *picture.CloudView
}

// triedLine is a change to choose.
type triedLine struct {
	Path, Words string
	Here        bool
}

// trial gives the change that the address asks for, else the class's latest;
// nil when there is none.
func (p *Pages) trial(r *http.Request, taken store.ClassPicture) (*trialView, error) {
	var id store.PrescriptionID
	if asked := r.URL.Query().Get("change"); asked != "" {
		var err error
		if id, err = store.ParseID[store.PrescriptionID](asked); err != nil {
			return nil, err
		}
	} else if len(taken.Tried) > 0 {
		id = telling(taken.Tried).ID
	} else {
		return nil, nil
	}
	t, err := p.store.GetTriedChange(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return nil, err
	}
	return trialOf(t), nil
}

// telling is the latest change that was tried to the end, else the latest.
func telling(tried []store.TriedChange) store.TriedChange {
	for _, t := range tried {
		if t.State != store.InTrial {
			return t
		}
	}
	return tried[0]
}

func trialOf(t store.TriedChangeStints) *trialView {
	one := t.Prescription
	v := &trialView{
		ID: one.ID.String(), Student: t.StudentName, StudentPath: "/students/" + one.Student.String(), Reason: component.RewordForCoach(one.Reason),
		Change: capital(changeWords(one.Variable, one.From, one.To, one.Unit)),
	}
	v.State, v.Mark = stateWords(one)
	if t.Before != nil {
		c := turnedCloud("before", "Before", *t.Before)
		v.Before = &c
	}
	if t.After != nil {
		c := turnedCloud("after", "Since", *t.After)
		v.After = &c
	}
	if t.Before != nil && t.After != nil {
		b, a := t.Before.Tally, t.After.Tally
		v.Wing = pair("pair-wing", "Wing ball in its corner", b.WingMade, b.Breaks, a.WingMade, a.Breaks)
		v.Window = pair("pair-window", "Cue ball in the window", b.InWindow, b.Breaks, a.InWindow, a.Breaks)
	}
	return v
}

func pair(id, title string, before, ofBefore, after, ofAfter int) *picture.PairView {
	return &picture.PairView{ID: id, Title: title, Before: rate(id+"-before", title+" before", before, ofBefore), After: rate(id+"-after", title+" since", after, ofAfter)}
}

// turnedCloud draws a stint as from the left.
func turnedCloud(id, title string, s store.ShownStint) picture.CloudView {
	if s.Setup.Side == table.Right {
		s.Setup, s.Window = s.Setup.Mirror(), s.Window.Mirror()
		for i := range s.Breaks {
			s.Breaks[i] = s.Breaks[i].Mirror()
		}
	}
	return cloud(id, title, s)
}

// triedLines are the changes one can choose.
func triedLines(path string, taken store.ClassPicture, shown *trialView) []triedLine {
	names := map[store.PersonID]string{}
	for _, one := range taken.Students {
		names[one.ID] = one.Name
	}
	var lines []triedLine
	for _, t := range taken.Tried {
		id := t.ID.String()
		lines = append(lines, triedLine{
			Path: path + "/picture?change=" + id + "#change", Here: shown != nil && shown.ID == id,
			Words: names[t.Student] + ": " + changeWords(t.Variable, t.From, t.To, t.Unit) + ", " + string(t.State),
		})
	}
	return lines
}

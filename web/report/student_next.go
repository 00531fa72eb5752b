package report

import (
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
)

// nextView is what to practise next.
type nextView struct {
	Heading string
	// Changes are of the present setup, none when it stays.
	Changes []string
	Says    []string
	// Note is the coach's, with their decision; Caution that of the change. Either
	// may be "".
	Note, Caution string
}

// takeWaiting takes the latest change of which no set is closed out of the
// present stint: it is what comes next, and no part of the way so far.
func takeWaiting(told *store.StudentProgress) *store.Prescription {
	if len(told.Stints) == 0 || len(told.Stints[0].Changes) == 0 {
		return nil
	}
	p := told.Stints[0].Changes[0]
	switch p.State {
	case store.Helped, store.NoDifference, store.Hurt:
		return nil
	}
	told.Stints[0].Changes = told.Stints[0].Changes[1:]
	return &p
}

// nextOf says what to practise next: the change that waits, else the same again.
// There must be a stint.
func nextOf(told store.StudentProgress, waiting *store.Prescription, to reader) (*nextView, error) {
	var a advice.Advice
	if told.Advice != nil {
		var err error
		if a, err = setreview.ReadAdvice(told.Advice); err != nil {
			return nil, err
		}
	}
	next := &nextView{Heading: "The same setup again", Says: to.sentences(a.Says)}
	if p := a.Prescription; p != nil && p.Variable != advice.VaryNone {
		next.Heading = "Change one thing"
	}
	if waiting != nil {
		x := told.Stints[0]
		next = changeView(*waiting, to.sentences(component.ChangeWords(x.Setup, waiting.After, x.Table.Kind)...), to)
	}
	next.Says = append(next.Says, to.sentences(a.Checks...)...)
	return next, nil
}

// changeView tells a change that waits to be decided or to be tried, or one that
// was turned down.
func changeView(p store.Prescription, changes []string, to reader) *nextView {
	next := &nextView{Heading: "Change one thing", Note: p.DecisionNote, Caution: to.said(p.Caution)}
	for _, change := range changes {
		next.Changes = append(next.Changes, component.Capitalize(change)+".")
	}
	switch p.Decision {
	case store.Approved:
		next.Says = to.sentences(p.Reason, p.Expect)
	case store.Changed:
		next.Says = []string{"This is what " + to.coach() + " chose."}
	case store.Declined:
		return &nextView{
			Heading: "The same setup again", Note: p.DecisionNote,
			Says: []string{"A change was proposed, and " + to.coach() + " left the setup as it is."},
		}
	default:
		return &nextView{
			Heading: "The same setup, until " + to.coach() + " has decided",
			Says:    append(to.sentences(p.Reason), "Proposed: "+strings.Join(changes, "; ")+"."),
		}
	}
	return next
}

package report

import (
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
)

// nextPractice is what to practise next.
type nextPractice struct {
	Heading string
	// Changes are of the present setup, none when it stays.
	Changes []string
	Says    []string
	// Note is the coach's, with their decision; Caution that of the change. Either
	// may be "".
	Note, Caution string
}

// removeWaitingChange takes the latest change of which no set is closed out of the
// present stint: it is what comes next, and no part of the way so far.
func removeWaitingChange(told *store.StudentProgress) *store.Prescription {
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

// chooseNextPractice says what to practise next: the change that waits, else the same again.
// There must be a stint.
func chooseNextPractice(told store.StudentProgress, waiting *store.Prescription, to audience) (*nextPractice, error) {
	var a advice.Advice
	if told.Advice != nil {
		var err error
		if a, err = setreview.ReadAdvice(told.Advice); err != nil {
			return nil, err
		}
	}
	next := &nextPractice{Heading: "The same setup again", Says: to.rewordAll(a.Says)}
	if p := a.Prescription; p != nil && p.Variable != advice.VaryNone {
		next.Heading = "Change one thing"
	}
	if waiting != nil {
		x := told.Stints[0]
		next = describeChange(*waiting, to.rewordAll(component.ChangeWords(x.Setup, waiting.After, x.Table.Kind)...), to)
	}
	next.Says = append(next.Says, to.rewordAll(a.Checks...)...)
	return next, nil
}

// describeChange tells a change that waits to be decided or to be tried, or one that
// was turned down.
func describeChange(p store.Prescription, changes []string, to audience) *nextPractice {
	next := &nextPractice{Heading: "Change one thing", Note: p.DecisionNote, Caution: to.reword(p.Caution)}
	for _, change := range changes {
		next.Changes = append(next.Changes, say.Capitalize(change)+".")
	}
	switch p.Decision {
	case store.Approved:
		next.Says = to.rewordAll(p.Reason, p.Expect)
	case store.Changed:
		next.Says = []string{"This is what " + to.coachWords() + " chose."}
	case store.Declined:
		return &nextPractice{
			Heading: "The same setup again", Note: p.DecisionNote,
			Says: []string{"A change was proposed, and " + to.coachWords() + " left the setup as it is."},
		}
	default:
		return &nextPractice{
			Heading: "The same setup, until " + to.coachWords() + " has decided",
			Says:    append(to.rewordAll(p.Reason), "Proposed: "+strings.Join(changes, "; ")+"."),
		}
	}
	return next
}

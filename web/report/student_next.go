package report

import (
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/coaching"
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
func removeWaitingChange(history *store.StudentProgress) *store.Prescription {
	if len(history.Stints) == 0 || len(history.Stints[0].Changes) == 0 {
		return nil
	}
	p := history.Stints[0].Changes[0]
	if p.State.IsOutcome() || p.State == store.Superseded && !isNextAgain(p) {
		return nil
	}
	history.Stints[0].Changes = history.Stints[0].Changes[1:]
	return &p
}

// isNextAgain reports whether a change was decided and left before it was played, so that
// where it was left it is next again.
func isNextAgain(p store.Prescription) bool {
	isLeft := p.Because == coaching.AnotherTable || p.Because == coaching.AnotherSetup
	return isLeft && store.IsZero(p.FirstSet)
}

// findDecisionInstead returns the decision by which the drills that are assigned tell
// another setup than that of the latest stint, on its kind of table; nil for none, and
// where one of them tells that setup.
func findDecisionInstead(x store.Stint, tasks []store.Task) (instead *store.Prescription) {
	for _, t := range tasks {
		next, change := t.InstructionOn(x.Table.Kind), t.ChangeOn(x.Table.Kind)
		switch {
		case next.Setup.SameAs(x.Setup):
			return nil
		case change != nil && change.ID == next.Prescription:
			instead = change
		}
	}
	return instead
}

// waitsForDrill reports whether a change is to be broken, or is being tried, and no drill
// that is assigned tells it.
func waitsForDrill(p store.Prescription, tasks []store.Task) bool {
	isSet := p.Decision != "" && p.Decision != store.Declined
	return isSet && !slices.ContainsFunc(tasks, func(t store.Task) bool {
		return t.InstructionOn(p.Kind).Prescription == p.ID
	})
}

// chooseNextPractice says what to practise next: the change that waits, else the same again.
// There must be a stint.
func chooseNextPractice(history store.StudentProgress, waiting *store.Prescription, to reader, u say.Units) (*nextPractice, error) {
	var a advice.Advice
	if history.Advice != nil {
		var err error
		if a, err = setreview.ReadAdvice(history.Advice); err != nil {
			return nil, err
		}
	}
	reader := to.sayTo(u).BreakingFrom(history.Stints[0].Setup.Side)
	next := &nextPractice{Heading: "The same setup again"}
	if p := a.Prescription; p == nil || p.Variable == advice.VaryNone {
		next.Says = listWords(a.Statement.Text(reader))
	}
	if waiting != nil {
		next = describeChange(*waiting, to, u)
	}
	for _, check := range a.CheckStatements {
		next.Says = append(next.Says, check.Text(reader))
	}
	return next, nil
}

// describeChange tells a change that waits to be decided or to be played, is being
// tried, or was turned down.
func describeChange(p store.Prescription, to reader, u say.Units) *nextPractice {
	v := component.NewChangeView(p.Change(), p.Wording, to.sayTo(u))
	next := &nextPractice{Heading: v.HeadingWords(), Says: v.Lines(), Note: p.ShownNote()}
	if v.ToDo() {
		next.Caution = v.CautionWords()
		for _, change := range component.ChangeWords(p.Before, p.After, p.Kind, u) {
			next.Changes = append(next.Changes, say.Capitalize(change)+".")
		}
	} else if p.State == store.Proposed {
		next.Heading = "The same setup, until " + to.coachWords() + " has decided"
		if to != oneself {
			next.Says = append([]string{"Proposed: " + component.InsteadWords(p.Before, p.Setup, p.Kind, u) + "."}, next.Says...)
		}
	}
	return next
}

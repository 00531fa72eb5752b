package report

import (
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/internal/store"
	"breakwright/web/sheet"
)

// nextView is what to practise next.
type nextView struct {
	Heading string
	// Changes are of the present setup, none when it stays.
	Changes []string
	Says    []string
	// Caution is that of the change, "" for none.
	Caution string
}

// takeWaiting takes the latest change that has not been tried out of the present
// stint: it is what comes next, and no part of the way so far.
func takeWaiting(told *store.Story) *store.Prescription {
	if len(told.Stints) == 0 || len(told.Stints[0].Changes) == 0 {
		return nil
	}
	p := told.Stints[0].Changes[0]
	switch p.State {
	case store.Proposed, store.Approved, store.Changed, store.Declined:
		told.Stints[0].Changes = told.Stints[0].Changes[1:]
		return &p
	}
	return nil
}

// nextOf says what to practise next: the change that waits, else the same again.
// There must be a stint.
func nextOf(told store.Story, waiting *store.Prescription) (*nextView, error) {
	var a advice.Advice
	if told.Advice != nil {
		var err error
		if a, err = closing.Read(told.Advice); err != nil {
			return nil, err
		}
	}
	next := &nextView{Heading: "The same setup again", Says: said([]string{a.Says})}
	if p := a.Prescription; p != nil && p.Variable != advice.VaryNone {
		next.Heading = "Change one thing"
	}
	if waiting != nil {
		x := told.Stints[0]
		next = changeView(*waiting, sheet.ChangeWords(x.Setup, waiting.After, x.Table.Kind))
	}
	next.Says = append(next.Says, a.Ask...)
	return next, nil
}

// changeView tells a change that waits to be decided or to be tried, or one that
// was turned down.
func changeView(p store.Prescription, changes []string) *nextView {
	proposed := "Proposed: " + strings.Join(changes, "; ") + "."
	for i := range changes {
		changes[i] = sheet.Capital(changes[i]) + "."
	}
	switch p.State {
	case store.Approved:
		return &nextView{
			Heading: "Change one thing", Changes: changes, Caution: p.Caution,
			Says: said([]string{p.Reason, p.Expect, p.DecisionNote}),
		}
	case store.Changed:
		return &nextView{
			Heading: "Change one thing", Changes: changes,
			Says: said([]string{"This is the coach’s own choice.", p.DecisionNote}),
		}
	case store.Declined:
		return &nextView{
			Heading: "The same setup again",
			Says:    said([]string{"A change was proposed, and the coach left the setup as it is.", p.DecisionNote}),
		}
	}
	return &nextView{Heading: "The same setup, until the coach has decided", Says: said([]string{p.Reason, proposed})}
}

// said leaves out empty sentences.
func said(all []string) []string {
	var kept []string
	for _, s := range all {
		if s != "" {
			kept = append(kept, s)
		}
	}
	return kept
}

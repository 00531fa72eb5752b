package report

import (
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

// nextOf says what to practise next: what a coach decided, else the same again.
// There must be a stint.
func nextOf(told store.Story) (*nextView, error) {
	var a advice.Advice
	if told.Advice != nil {
		var err error
		if a, err = closing.Read(told.Advice); err != nil {
			return nil, err
		}
	}
	x := told.Stints[0]
	next := &nextView{}
	if len(x.Changes) > 0 {
		p := x.Changes[0]
		next = changeView(p, sheet.ChangeWords(x.Setup, p.After, x.Table.Kind))
	}
	if next.Heading == "" { // what came of a change is in the way so far
		next = &nextView{Heading: "The same setup again", Says: said([]string{a.Says})}
	}
	next.Says = append(next.Says, a.Ask...)
	return next, nil
}

// changeView tells a change that waits, or one that was turned down; its heading
// is "" for one that was tried.
func changeView(p store.Prescription, changes []string) *nextView {
	for i := range changes {
		changes[i] = sheet.Capital(changes[i]) + "."
	}
	switch p.State {
	case store.Approved:
		return &nextView{Heading: "Change one thing", Changes: changes, Caution: p.Caution,
			Says: said([]string{p.Reason, p.Expect, p.DecisionNote})}
	case store.Changed:
		return &nextView{Heading: "Change one thing", Changes: changes, Says: said([]string{"This is the coach’s own choice.", p.DecisionNote})}
	case store.Proposed:
		return &nextView{Heading: "The same setup, until the coach has decided",
			Says: said(append([]string{p.Reason, "Proposed:"}, changes...))}
	case store.Declined:
		return &nextView{Heading: "The same setup again", Says: said([]string{"A change was proposed, and the coach left the setup as it is.", p.DecisionNote})}
	}
	return &nextView{}
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

package progress

import (
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
	"breakwright/web/route"
)

// addPresent tells of the latest stint's setup and of the latest change.
func (v *Story) addPresent(history store.StudentProgress) {
	if len(history.Stints) == 0 || !history.Stints[0].Latest {
		return
	}
	x := history.Stints[0]
	v.Present = &component.SetupView{ID: "present", Setup: x.Setup, Kind: x.Table.Kind}
	if history.Shown != nil && history.Shown.ID == x.ID {
		v.Present.Window = history.Shown.Window
	}
	v.Table, v.LastSet = x.Table.Label(), v.setPagePath(x.LastSet)
	if p := latestChange(history.Stints); p != nil {
		change := component.NewChangeView(p.Change(), p.Wording, v.reader())
		v.Change = &change
		if p.State == store.Proposed && !v.You {
			v.Decide = route.PrescriptionPath(p.ID)
		}
	}
}

// latestChange is the newest change of stints, nil for none. One that was never put to a
// coach, because a decision waited, is left out: the decision is what comes next.
func latestChange(stints []store.ProgressStint) *store.Prescription {
	for _, stint := range stints {
		for i := range stint.Changes {
			if p := &stint.Changes[i]; p.State != store.Superseded || p.Because != coaching.CoachWaits {
				return p
			}
		}
	}
	return nil
}

// buildTried draws the stints of the page under one another; nil where only one
// setup was broken, so that there is nothing to compare.
func (v Story) buildTried(history store.StudentProgress, zone *time.Location) *picture.TriedView {
	if len(history.Stints) < 2 {
		return nil
	}
	tried := &picture.TriedView{ID: "tries", Label: "Wing ball in its corner under each setup, the newest first"}
	for i, x := range history.Stints {
		row := picture.TriedRow{
			When:  formatSpan(x.First, x.Last, zone),
			Words: "First setup",
			Rate:  withTarget(x.Targets.Wing, newRate("tried-"+x.ID.String(), "Wing ball in its corner", x.WingMade, x.Watched)),
		}
		switch {
		case i+1 < len(history.Stints):
			row.Words, row.Outcome, row.OutcomeWords = v.triedWords(history.Stints[i+1:], x)
		case x.SetsBefore > 0:
			row.Words = "The setup before"
		}
		tried.Rows = append(tried.Rows, row)
	}
	return tried
}

// triedWords says how a stint differs from those before it, the newest first, and what
// came of the change between them. Another table in between is no change of the setup, and
// hides none: what is new is seen from the last stint on this kind of table.
func (v Story) triedWords(before []store.ProgressStint, now store.ProgressStint) (words string, outcome picture.TriedOutcome, outcomeWords string) {
	moved := ""
	if before[0].Table.ID != now.Table.ID {
		moved = "On " + now.Table.Label()
	}
	last := lastOnKind(before, now.Table.Kind)
	if last == nil || last.Setup.SameAs(now.Setup) && moved != "" {
		return moved, picture.TriedNone, ""
	}
	if moved != "" {
		moved += ", "
	}
	for _, p := range last.Changes {
		if p.Decision != "" && p.Decision != store.Declined && now.Setup.SameAs(p.After) {
			return say.Capitalize(moved + component.ArrowWords(p.Before, p.After, p.Kind, v.Units)), outcomeShape(p.State), component.OutcomeWords(p.State)
		}
	}
	return say.Capitalize(moved + component.ArrowWords(last.Setup, now.Setup, now.Table.Kind, v.Units)), picture.TriedNone, ""
}

// lastOnKind is the newest of the stints on a kind of table, nil for none; the newest is
// the first.
func lastOnKind(stints []store.ProgressStint, k table.Kind) *store.ProgressStint {
	for i := range stints {
		if stints[i].Table.Kind == k {
			return &stints[i]
		}
	}
	return nil
}

func outcomeShape(s store.State) picture.TriedOutcome {
	switch s {
	case store.Helped:
		return picture.TriedHelped
	case store.NoDifference:
		return picture.TriedSame
	case store.Hurt:
		return picture.TriedHurt
	case store.InTrial:
		return picture.TriedOpen
	}
	return picture.TriedNone
}

package roster

import (
	"time"

	"breakwright/internal/store"
)

// prescriptionLine is a prescription in a student's list.
type prescriptionLine struct {
	Path, When, Reason string
	State              string
	// Mark is the class of the state's tag.
	Mark string
}

func prescriptionLines(all []store.Prescription, zone *time.Location) []prescriptionLine {
	lines := make([]prescriptionLine, len(all))
	for i, p := range all {
		lines[i] = prescriptionLine{Path: "/sets/" + p.Set.String(), When: day(p.Created, zone), Reason: p.Reason}
		lines[i].State, lines[i].Mark = stateWords(p)
	}
	return lines
}

// stateWords says what became of a prescription, and how much it asks for a look.
func stateWords(p store.Prescription) (words, mark string) {
	switch p.State {
	case store.Proposed:
		if !p.Superseded.IsZero() {
			return "replaced by a newer one", ""
		}
		return "proposed, not decided", "ask"
	case store.Approved:
		return "approved, not tried yet", ""
	case store.Changed:
		return "changed by a coach, not tried yet", ""
	case store.Helped:
		return "helped", "good"
	case store.Hurt:
		return "hurt", "warn"
	}
	return string(p.State), ""
}

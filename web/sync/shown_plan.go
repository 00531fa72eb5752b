package sync

import (
	"encoding/json"
	"fmt"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
)

// WriteShownPlan writes how to break, as a page shows it, for the form that starts
// a set: a phone that holds an older plan then starts under what was shown, and
// so does the server.
func WriteShownPlan(n store.Instruction, k table.Kind, change *store.Prescription, u say.Units) (string, error) {
	text, err := encodeJSON(newDrillSnapshot(n.Setup, n.Window, n.Targets, k, TryingWords(change, u), u))
	if err != nil {
		return "", fmt.Errorf("sync: write the plan that a page shows: %w", err)
	}
	return string(text), nil
}

// WriteWatchList writes what is asked at the table, for the form that starts a set
// without a drill.
func WriteWatchList(list drill.WatchList) (string, error) {
	text, err := encodeJSON(newWatchListJSON(list, false))
	if err != nil {
		return "", fmt.Errorf("sync: write what is asked at the table: %w", err)
	}
	return string(text), nil
}

// ReadShownSetup reads the setup of a plan that a form carries.
func ReadShownSetup(text string) (drill.Setup, error) {
	var shown struct {
		Setup setupJSON `json:"setup"`
	}
	if err := json.Unmarshal([]byte(text), &shown); err != nil {
		return drill.Setup{}, fmt.Errorf("sync: read the plan that a page showed: %w", err)
	}
	return shown.Setup.toSetup()
}

// TryingWords says in a line what a set tries out; "" for nothing.
func TryingWords(p *store.Prescription, u say.Units) string {
	if p == nil {
		return ""
	}
	return component.NewChangeView(p.Change(), p.Wording, say.Reader{Units: u}).TryingWords()
}

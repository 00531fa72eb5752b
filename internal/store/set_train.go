package store

import (
	"context"
	"fmt"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// startTraining begins a set that nobody assigned.
func (t *tx) startTraining(ctx context.Context, start NewSet, where query.PoolTable) error {
	start.Training = strings.TrimSpace(start.Training)
	kind := kindFromRow(where)
	if start.Breaks == 0 {
		start.Breaks = drill.UsualBreaks
	}
	if start.Window == (table.Window{}) {
		start.Window = kind.StandardWindow()
	}
	if err := start.checkTraining(kind); err != nil {
		return err
	}
	todo := Instruction{Setup: start.Setup, Window: start.Window, Breaks: start.Breaks}
	setup, err := t.ensureStartSetup(ctx, start.Setup, kind)
	if err != nil {
		return err
	}
	return t.insertStarted(ctx, start, DrillID{}, todo, setup)
}

// checkTraining says what cannot be trained.
func (start NewSet) checkTraining(kind table.Kind) error {
	var p drill.Problems
	if says := drill.CheckName(start.Training); says != "" {
		p.Add("training", says)
	}
	if start.Setup == (drill.Setup{}) {
		p.Add("setup", "say how it is broken: take a drill, a setup you had before or your break card")
	}
	if start.Breaks < 1 || start.Breaks > drill.MaxBreaks {
		p.Add("breaks", fmt.Sprintf("a set has from 1 to %d breaks", drill.MaxBreaks))
	}
	if err := start.Window.Check(kind); err != nil {
		p.Add("window", err.Error())
	}
	return p.Err()
}

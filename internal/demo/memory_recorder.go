package demo

import (
	"context"
	"fmt"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
)

// memoryRecorder is a room that is only imagined: the adviser is the real one, nothing
// is kept.
type memoryRecorder struct {
	table      store.Table
	next       store.Instruction
	history    store.History
	currentSet drill.Set
	judgement  store.Judgement
}

// newMemoryRecorder gives a room for somebody who begins a drill on a table.
func newMemoryRecorder(d drill.Drill, t store.Table) *memoryRecorder {
	task := store.Task{Drill: store.Drill{Drill: d}}
	return &memoryRecorder{table: t, next: task.InstructionOn(t.Kind)}
}

func (m *memoryRecorder) beginSet(_ context.Context, at time.Time) (drill.Setup, error) {
	m.currentSet = drill.Set{
		Name:  fmt.Sprintf("%s %d", at.Format(time.DateTime), len(m.history.Sets)+1),
		Table: m.table.Label(), Kind: m.table.Kind, Setup: m.next.Setup,
	}
	return m.next.Setup, nil
}

func (m *memoryRecorder) recordBreak(_ context.Context, b drill.Break) error {
	m.currentSet.Breaks = append(m.currentSet.Breaks, b)
	return nil
}

func (m *memoryRecorder) endSet(context.Context) (said store.Judgement, err error) {
	id := store.NewID[store.SetID]()
	m.history.IDs, m.history.Sets = append(m.history.IDs, id), append(m.history.Sets, m.currentSet)
	m.judgement, err = setreview.JudgeCase(store.Case{Set: id, History: m.history, Window: m.next.Window, Targets: m.next.Targets})
	return m.judgement, err
}

// decideChange keeps a decision as the store does: an approved or changed setup is
// what is done next, and a proposal that was overruled rests on all breaks under
// that setup on that table, in a row or not.
func (m *memoryRecorder) decideChange(_ context.Context, d store.Decision) error {
	if d.Answer == store.Approved {
		m.next.Setup = m.judgement.Proposal.Setup
		return nil
	}
	o := store.OverruledProposal{Rule: m.judgement.Proposal.Rule, Table: m.currentSet.Table, Under: m.currentSet.Setup}
	for _, set := range m.history.Sets {
		if set.Table == m.currentSet.Table && set.Kind == m.currentSet.Kind && set.Setup.SameAs(m.currentSet.Setup) {
			o.Breaks += len(set.Breaks)
		}
	}
	if d.Answer == store.Changed {
		o.Instead, m.next.Setup = d.Setup, d.Setup
	}
	m.history.Overruled = append([]store.OverruledProposal{o}, m.history.Overruled...)
	return nil
}

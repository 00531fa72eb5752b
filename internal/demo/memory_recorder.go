package demo

import (
	"context"
	"fmt"
	"time"

	"breakwright/internal/coaching"
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
	currentID  store.SetID
	judgement  store.Judgement
}

// newMemoryRecorder returns a room for somebody who begins a drill on a table.
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

func (m *memoryRecorder) endSet(context.Context) (judgement store.Judgement, err error) {
	m.currentID = store.NewID[store.SetID]()
	m.history.IDs, m.history.Sets = append(m.history.IDs, m.currentID), append(m.history.Sets, m.currentSet)
	m.judgement, err = setreview.JudgeCase(store.Case{Set: m.currentID, History: m.history, Window: m.next.Window, Targets: m.next.Targets})
	return m.judgement, err
}

// decideChange applies a decision as package coaching has it.
func (m *memoryRecorder) decideChange(_ context.Context, d store.Decision) error {
	var b coaching.Book
	id := coaching.ID(m.currentID.UUID)
	b.CloseSet(coaching.ClosedSet{Kind: m.table.Kind, Proposal: &coaching.Change{
		ID: id, Rule: m.judgement.Proposal.Rule, Before: m.currentSet.Setup, Proposed: m.judgement.Proposal.Setup,
	}})
	if err := b.Decide(id, coaching.Decision{Decision: d.Answer, Setup: d.Setup, Note: d.Note}); err != nil {
		return err
	}
	c := b.Find(id)
	if c.Decision != coaching.Declined {
		m.next.Setup = c.After()
	}
	if c.IsOverruled() {
		o := coaching.Overrule(c.Rule, c.Decision, c.Chosen, m.currentSet, m.history.Sets)
		m.history.Overruled = append([]coaching.Overruled{o}, m.history.Overruled...)
	}
	return nil
}

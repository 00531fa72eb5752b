package demo

import (
	"context"
	"fmt"
	"time"

	"breakwright/internal/closing"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// mind is a room that is only imagined: the adviser is the real one, nothing
// is kept.
type mind struct {
	table   store.Table
	next    store.Next
	history store.History
	now     drill.Set
	said    store.Closing
}

// imagine gives a room for somebody who begins a drill on a table.
func imagine(d drill.Drill, t store.Table) *mind {
	task := store.Task{Drill: store.Drill{Drill: d}}
	return &mind{table: t, next: task.On(t.Kind)}
}

func (m *mind) begin(_ context.Context, at time.Time) (drill.Setup, error) {
	m.now = drill.Set{
		Name:  fmt.Sprintf("%s %d", at.Format(time.DateTime), len(m.history.Sets)+1),
		Table: m.table.Label(), Kind: m.table.Kind, Setup: m.next.Setup,
	}
	return m.next.Setup, nil
}

func (m *mind) record(_ context.Context, b drill.Break) error {
	m.now.Breaks = append(m.now.Breaks, b)
	return nil
}

func (m *mind) end(context.Context) (said store.Closing, err error) {
	id := store.NewID[store.SetID]()
	m.history.IDs, m.history.Sets = append(m.history.IDs, id), append(m.history.Sets, m.now)
	m.said, err = closing.Judge(store.Case{Set: id, History: m.history, Window: m.next.Window, Targets: m.next.Targets})
	return m.said, err
}

// decide keeps a decision as the store does: an approved or changed setup is
// what is done next, and a proposal that was overruled rests on all breaks under
// that setup on that table, in a row or not.
func (m *mind) decide(_ context.Context, d store.Decision) error {
	if d.Answer == store.Approved {
		m.next.Setup = m.said.Proposal.Setup
		return nil
	}
	o := store.Overruled{Rule: m.said.Proposal.Rule, Table: m.now.Table, Under: m.now.Setup}
	for _, set := range m.history.Sets {
		if set.Table == m.now.Table && set.Kind == m.now.Kind && set.Setup.SameAs(m.now.Setup) {
			o.Breaks += len(set.Breaks)
		}
	}
	if d.Answer == store.Changed {
		o.Instead, m.next.Setup = d.Setup, d.Setup
	}
	m.history.Overruled = append([]store.Overruled{o}, m.history.Overruled...)
	return nil
}

package store

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Case is what a judge is given when a set is closed.
type Case struct {
	// Set is the one that is being closed, the last of History.Sets.
	Set SetID
	// History holds the student's closed sets and this one, oldest first.
	History
	// Window and Targets are those of the set.
	Window  table.Window
	Targets drill.Targets
	// House is what the room asks of a break.
	House drill.HouseRules
	// Rules are what the club has set in the adviser's rules.
	Rules drill.ClubRules
	// InTrial is the change that this set tries out, zero for none.
	InTrial PrescriptionID
	// Others are the newest sets of other students of this rack, each student's together.
	// They have no names.
	Others [][]drill.Set
	// TablesPlay is how the club's tables play, where it is known from when the set was
	// closed.
	TablesPlay drill.TablesPlay
}

// Judgement is what the judge said.
type Judgement struct {
	// Verdict is a word, JSON the whole advice, RulesVersion who spoke. None
	// may be empty.
	Verdict      string
	JSON         []byte
	RulesVersion string
	// Proposal is nil when nothing is proposed.
	Proposal *Proposal
	// Outcome is how the change in trial turned out: Helped, NoDifference or
	// Hurt; "" when it is too early or there is none. Counts are what that
	// is said on, also while it is too early; zero when nothing was compared.
	Outcome State
	Counts  coaching.Counts
	// TablesPlay is how the club's tables play, as the judge had it.
	TablesPlay drill.TablesPlay
}

// Judge gives advice. It is called at most once for a set, while the student's
// sets are locked, and should only compute.
type Judge func(Case) (Judgement, error)

// CloseSet closes a set and keeps the judge's advice in the same transaction.
// Closing a closed set is harmless and asks nobody. A set without breaks is
// closed without advice. What it proposes, and how a change in trial stands, goes
// into the student's book of changes.
func (s *Store) CloseSet(ctx context.Context, v Actor, id SetID, judge Judge) error {
	return s.inTransaction(ctx, v, "close the set", func(t *tx) error { return t.closeSet(ctx, id, judge) })
}

func (t *tx) closeSet(ctx context.Context, id SetID, judge Judge) error {
	set, err := t.loadSet(ctx, id)
	if err != nil {
		return err
	}
	if err := t.LockUntilCommit(ctx, set.Student.String()); err != nil {
		return err
	}
	locked, err := t.LockSet(ctx, id.UUID)
	if err != nil || locked.BreakSet.ClosedAt != nil {
		return err
	}
	if set, err = t.loadSet(ctx, id); err != nil { // as it is now that nobody can change it
		return err
	}
	return t.closeLockedSet(ctx, set, nil, judge)
}

// closeLockedSet closes an open set at a moment, or now, and asks for advice.
func (t *tx) closeLockedSet(ctx context.Context, set Set, at *time.Time, judge Judge) error {
	if err := t.Queries.CloseSet(ctx, query.CloseSetParams{ID: set.ID.UUID, At: at}); err != nil {
		return err
	}
	if len(set.Breaks) > 0 {
		if err := t.regroupStints(ctx, set.Student, set.ID.UUID, set.Started); err != nil {
			return err
		}
	}
	t.queueEvent(SetClosed, set.Student, set.ID)
	return t.asAdviser(ctx, set.Student, func() error { return t.adviseOnSet(ctx, set.ID, judge) })
}

// adviseOnSet asks the judge and keeps the answer.
func (t *tx) adviseOnSet(ctx context.Context, id SetID, judge Judge) error {
	set, err := t.loadSet(ctx, id) // again, now that nobody can change it
	if err != nil || len(set.Breaks) == 0 {
		return err
	}
	asked, err := t.loadCase(ctx, set)
	if err != nil {
		return err
	}
	judgement, err := judge(asked)
	if err != nil {
		return err
	}
	tablesPlay, err := writeTablesPlay(judgement.TablesPlay)
	if err != nil {
		return err
	}
	err = t.InsertAdvice(ctx, query.InsertAdviceParams{
		ClubID: t.actor.Club.UUID, SetID: id.UUID, StudentID: set.Student.UUID,
		Verdict: judgement.Verdict, Advice: judgement.JSON, RulesVersion: judgement.RulesVersion, TablesPlay: tablesPlay,
	})
	if err != nil {
		return err
	}
	return t.recordProposal(ctx, set, asked.InTrial, judgement)
}

func (t *tx) loadCase(ctx context.Context, set Set) (Case, error) {
	histories, err := t.loadHistories(ctx, []PersonID{set.Student})
	if err != nil {
		return Case{}, err
	}
	c := Case{Set: set.ID, History: histories[set.Student], Window: set.Window, Targets: set.Targets, House: set.House}
	c.moveSetLast(set.ID)
	if c.Rules, err = t.loadClubRules(ctx); err != nil {
		return Case{}, err
	}
	if c.Others, err = t.loadOthers(ctx, set); err != nil {
		return Case{}, err
	}
	b, err := t.loadBook(ctx, set.Student)
	if err != nil {
		return Case{}, err
	}
	if change := b.InTrial(set.Table.Kind, coaching.ID(set.Drill.Lineage.UUID), set.Setup); change != nil {
		c.InTrial = PrescriptionID{uuid.UUID(change.ID)}
	}
	return c, nil
}

// moveSetLast moves a set to the end: the advice is about it, even when a later
// one was closed before.
func (h *History) moveSetLast(id SetID) {
	i := slices.Index(h.IDs, id)
	if i < 0 {
		return
	}
	set, closed := h.Sets[i], h.closed[i]
	h.IDs = append(slices.Delete(h.IDs, i, i+1), id)
	h.Sets = append(slices.Delete(h.Sets, i, i+1), set)
	h.closed = append(slices.Delete(h.closed, i, i+1), closed)
}

// recordProposal keeps in the student's book what the judge said of the trial and
// what is proposed.
func (t *tx) recordProposal(ctx context.Context, set Set, inTrial PrescriptionID, judgement Judgement) error {
	b, err := t.loadBook(ctx, set.Student)
	if err != nil {
		return err
	}
	if !IsZero(inTrial) {
		b.Conclude(coaching.ID(inTrial.UUID), coaching.ID(set.ID.UUID), judgement.Outcome, judgement.Counts)
	}
	var made *coaching.Change
	if p := judgement.Proposal; p != nil {
		made = &coaching.Change{
			ID: coaching.ID(newUUID()), Rule: p.Rule, Before: set.Setup, Proposed: p.Setup,
		}
	}
	b.CloseSet(coaching.ClosedSet{
		Set: coaching.ID(set.ID.UUID), Lineage: coaching.ID(set.Drill.Lineage.UUID), Kind: set.Table.Kind, Setup: set.Setup,
		Proposal: made, At: presentTime(),
	})
	if err := t.saveBook(ctx, b); err != nil || made == nil {
		return err
	}
	return t.insertProposal(ctx, set, *judgement.Proposal, *b.Find(made.ID))
}

func (t *tx) insertProposal(ctx context.Context, set Set, p Proposal, c coaching.Change) error {
	before, err := t.ensureSetup(ctx, set.Setup)
	if err != nil {
		return err
	}
	after, err := t.ensureBothWays(ctx, p.Setup)
	if err != nil {
		return err
	}
	row := query.InsertProposalParams{
		ClubID: t.actor.Club.UUID, ID: uuid.UUID(c.ID), SetID: set.ID.UUID, StudentID: set.Student.UUID,
		Feet: c.Kind.Feet, Small: c.Kind.Small, CornerIn: float64(c.Kind.CornerMouth), SideIn: float64(c.Kind.SideMouth),
		Rule: p.Rule, Variable: p.Variable, FromValue: p.From, ToValue: p.To, Unit: p.Unit,
		Reason: p.Reason, Expect: p.Expect, Caution: p.Caution, FromSetupID: before, ToSetupID: after,
		State: string(c.State), SupersededAt: pointerOrNil(c.SupersededAt), SupersededBecause: pointerOrNil(string(c.Because)),
		SupersededBy: pointerOrNil(uuid.UUID(c.By)), LastSetID: pointerOrNil(uuid.UUID(c.Last)),
	}
	if p.Wording.Reason.Kind != "" {
		if row.Said, err = json.Marshal(p.Wording); err != nil {
			return fmt.Errorf("store: write what a proposal says: %w", err)
		}
	}
	if p.Of > 0 {
		row.FactCount, row.FactOf = &p.Count, &p.Of
	}
	return t.InsertProposal(ctx, row)
}

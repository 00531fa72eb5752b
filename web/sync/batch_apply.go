package sync

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// clockSlack is by how much a phone's clock may differ before a set's start is
// put right by the difference.
const clockSlack = 10 * time.Minute

// applyBatch takes the items of a batch in their order. An error means that the
// store could not be asked; what was kept until then is kept, and [alreadyKept] when
// the batch is sent again.
func (d *Endpoint) applyBatch(ctx context.Context, v store.Actor, b batch) ([]itemReply, error) {
	k := batchRun{endpoint: d, actor: v, unsettled: map[store.SetID]bool{}, clockLead: measureClockLead(b.Sent, d.now())}
	answers := make([]itemReply, len(b.Items))
	for i, it := range b.Items {
		var err error
		if answers[i], err = k.applyItem(ctx, it); err != nil {
			return nil, fmt.Errorf("sync: item %d, %s: %w", i+1, it.Kind, err)
		}
		if answers[i].Outcome == refused {
			k.unsettled[it.Set] = true
		}
	}
	return answers, nil
}

// measureClockLead is how far a phone's clock is before ours, as far as it matters.
func measureClockLead(sent, now time.Time) time.Duration {
	if sent.IsZero() {
		return 0
	}
	difference := sent.Sub(now)
	if difference.Abs() < clockSlack {
		return 0
	}
	return difference
}

// batchRun is a batch being taken.
type batchRun struct {
	endpoint *Endpoint
	actor    store.Actor
	// open are the sets of which something was refused in this batch.
	unsettled map[store.SetID]bool
	// ahead is how far the phone's clock is before ours.
	clockLead time.Duration
}

func (k *batchRun) applyItem(ctx context.Context, it batchItem) (itemReply, error) {
	if it.unreadable {
		return refuseItem(invalid, "this could not be read: open it, look it over and save it again"), nil
	}
	switch it.Kind {
	case startSet:
		return k.startSet(ctx, it)
	case saveBreak:
		return k.saveBreak(ctx, it)
	case deleteBreak:
		return k.deleteBreak(ctx, it)
	case closeSet:
		return k.closeSet(ctx, it)
	case reopenSet:
		err := k.endpoint.store.ReopenSet(ctx, k.actor, it.Set)
		return k.replyForError(ctx, it, accepted, err)
	case moveSet:
		err := k.endpoint.store.MoveSet(ctx, k.actor, it.Set, store.SetMove{Table: it.Table, Assignment: it.Assignment}, k.endpoint.judge)
		return k.replyForError(ctx, it, accepted, err)
	case discardSet:
		return k.discardSet(ctx, it)
	case postNote:
		return k.postNote(ctx, it)
	}
	return refuseItem(invalid, "this phone's page is newer than the server: reload it"), nil
}

func refuseItem(why refusalReason, says string) itemReply {
	return itemReply{Outcome: refused, Reason: why, Sentence: says}
}

// startSet begins a set. The store answers a repeat with the set as it is, which
// cannot be told from a first time; both are good.
func (k *batchRun) startSet(ctx context.Context, it batchItem) (itemReply, error) {
	start := store.NewSet{ID: it.Set, Assignment: it.Assignment, Table: it.Table, Training: it.Training, Breaks: it.Breaks}
	start.Window = table.Window{Left: it.Window[0], Right: it.Window[1], Head: it.Window[2], Foot: it.Window[3]}
	if !it.At.IsZero() {
		start.At = it.At.Add(-k.clockLead)
	}
	if now := k.endpoint.now(); start.At.After(now) {
		start.At = now
	}
	if it.Setup != nil {
		setup, err := it.Setup.toSetup()
		if err != nil {
			return refuseItem(invalid, err.Error()), nil
		}
		start.Setup = setup
	}
	_, err := k.endpoint.store.StartSet(ctx, k.actor, start)
	return k.replyForError(ctx, it, accepted, err)
}

func (k *batchRun) saveBreak(ctx context.Context, it batchItem) (itemReply, error) {
	content, err := ReadBreak(it.Content)
	if err != nil {
		return refuseItem(invalid, "this break could not be read: open it, look it over and save it again"), nil
	}
	kept, err := k.endpoint.store.SaveBreak(ctx, k.actor, it.Set, store.Break{ID: it.ID, Revision: it.Revision, Break: content})
	return k.replyForError(ctx, it, itemOutcome(kept), err)
}

func (k *batchRun) deleteBreak(ctx context.Context, it batchItem) (itemReply, error) {
	if it.Reason == "" {
		return refuseItem(invalid, "every break counts: say why this one does not"), nil
	}
	err := k.endpoint.store.DeleteBreak(ctx, k.actor, it.Set, it.ID, it.Revision, it.Reason)
	return k.replyForError(ctx, it, accepted, err)
}

// discardSet puts an empty set away; one that is gone, or never came, is as wished.
func (k *batchRun) discardSet(ctx context.Context, it batchItem) (itemReply, error) {
	err := k.endpoint.store.DiscardSet(ctx, k.actor, it.Set)
	if errors.Is(err, store.ErrNotFound) {
		return itemReply{Outcome: alreadyKept}, nil
	}
	return k.replyForError(ctx, it, accepted, err)
}

// postNote hands breaks that found no place to the coach in words: with their set
// where that is kept, else with the student's latest.
func (k *batchRun) postNote(ctx context.Context, it batchItem) (itemReply, error) {
	set := it.Set
	_, err := k.endpoint.store.GetSet(ctx, k.actor, set)
	if errors.Is(err, store.ErrNotFound) {
		var sets []store.ListedSet
		if sets, err = k.endpoint.store.ListSets(ctx, k.actor, k.actor.Person); err == nil && len(sets) == 0 {
			return refuseItem(gone, "there is no set yet that it could go with: put the breaks into a new set"), nil
		}
		if err == nil {
			set = sets[0].ID
		}
	}
	if err != nil {
		return itemReply{}, err
	}
	err = k.endpoint.store.PostMessage(ctx, k.actor, it.Note, set, it.Text)
	return k.replyForError(ctx, it, accepted, err)
}

// closeSet closes a set once all its breaks are here and settled: a break left
// on the phone would be shut out.
func (k *batchRun) closeSet(ctx context.Context, it batchItem) (itemReply, error) {
	if k.unsettled[it.Set] {
		return refuseItem(waiting, "a break of this set is to be settled before it can be closed"), nil
	}
	set, err := k.endpoint.store.GetSet(ctx, k.actor, it.Set)
	if err != nil {
		return k.replyForError(ctx, it, "", err)
	}
	switch {
	case !set.Closed.IsZero():
		return itemReply{Outcome: alreadyKept}, nil
	case len(set.Breaks) < it.Breaks:
		return refuseItem(waiting, fmt.Sprintf("only %d of %d breaks have arrived yet", len(set.Breaks), it.Breaks)), nil
	}
	err = k.endpoint.store.CloseSet(ctx, k.actor, it.Set, k.endpoint.judge)
	return k.replyForError(ctx, it, accepted, err)
}

// replyForError turns what the store said into an answer, or gives the error back
// when it is no answer at all.
func (k *batchRun) replyForError(ctx context.Context, it batchItem, good itemOutcome, err error) (itemReply, error) {
	var problems drill.Problems
	switch {
	case err == nil:
		return itemReply{Outcome: good}, nil
	case errors.As(err, &problems):
		return refuseItem(invalid, problems[0].Message), nil
	case errors.Is(err, store.ErrUnkeepable):
		return refuseItem(invalid, "something in it cannot be kept: open it, look it over and save it again"), nil
	case errors.Is(err, store.ErrClosed):
		return k.refuseWithCurrent(ctx, it, refuseItem(closed, "this set was closed meanwhile, on another phone or by your coach"))
	case errors.Is(err, store.ErrStale):
		return k.refuseWithCurrent(ctx, it, refuseItem(stale, conflictWords(err)))
	case errors.Is(err, store.ErrConflict):
		return k.refuseWithCurrent(ctx, it, refuseItem(conflict, conflictWords(err)))
	case errors.Is(err, store.ErrFull):
		return refuseItem(conflict, store.SentenceOf(err)), nil
	case errors.Is(err, store.ErrNotFound), errors.Is(err, store.ErrNotAllowed):
		return refuseItem(gone, "the drill, the table or the set is not there any more, or not yours"), nil
	}
	return itemReply{}, err
}

// conflictWords is the store's sentence; an error of the database has none.
func conflictWords(err error) string {
	return cmp.Or(store.SentenceOf(err), "something else is kept there already")
}

// refuseWithCurrent refuses a break and shows what is kept instead.
func (k *batchRun) refuseWithCurrent(ctx context.Context, it batchItem, answer itemReply) (itemReply, error) {
	if it.Kind != saveBreak && it.Kind != deleteBreak {
		return answer, nil
	}
	set, err := k.endpoint.store.GetSet(ctx, k.actor, it.Set)
	if err != nil {
		return itemReply{}, err
	}
	same := func(b store.Break) bool { return b.ID == it.ID }
	i := slices.IndexFunc(set.Breaks, same)
	if content, err := ReadBreak(it.Content); i < 0 && err == nil && answer.Reason != closed {
		i = slices.IndexFunc(set.Breaks, func(b store.Break) bool { return b.Number == content.Number })
	}
	if i >= 0 {
		there := newCurrentBreak(set.Breaks[i])
		answer.Current = &there
	}
	return answer, nil
}

func newCurrentBreak(b store.Break) currentBreak {
	return currentBreak{ID: b.ID, Revision: b.Revision, Coach: !store.IsZero(b.EditedBy), Content: breakToJSON(b.Break)}
}

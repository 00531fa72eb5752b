package sync

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// clockSlack is by how much a phone's clock may differ before a set's start is
// put right by the difference.
const clockSlack = 10 * time.Minute

// keepAll takes the items of a batch in their order. An error means that the
// store could not be asked; what was kept until then is kept, and [had] when
// the batch is sent again.
func (d *Desk) keepAll(ctx context.Context, v store.Actor, b batch) ([]reply, error) {
	k := keeping{desk: d, viewer: v, open: map[store.SetID]bool{}, ahead: ahead(b.Sent, d.now())}
	answers := make([]reply, len(b.Items))
	for i, it := range b.Items {
		var err error
		if answers[i], err = k.keep(ctx, it); err != nil {
			return nil, fmt.Errorf("sync: item %d, %s: %w", i+1, it.Kind, err)
		}
		if answers[i].Is == refused {
			k.open[it.Set] = true
		}
	}
	return answers, nil
}

// ahead is how far a phone's clock is before ours, as far as it matters.
func ahead(sent, now time.Time) time.Duration {
	if sent.IsZero() {
		return 0
	}
	difference := sent.Sub(now)
	if difference.Abs() < clockSlack {
		return 0
	}
	return difference
}

// keeping is a batch being taken.
type keeping struct {
	desk   *Desk
	viewer store.Actor
	// open are the sets of which something was refused in this batch.
	open map[store.SetID]bool
	// ahead is how far the phone's clock is before ours.
	ahead time.Duration
}

func (k *keeping) keep(ctx context.Context, it item) (reply, error) {
	switch it.Kind {
	case startSet:
		return k.start(ctx, it)
	case saveBreak:
		return k.save(ctx, it)
	case deleteBreak:
		return k.delete(ctx, it)
	case closeSet:
		return k.close(ctx, it)
	}
	return no(invalid, "this phone's page is newer than the server: reload it"), nil
}

func no(why because, says string) reply { return reply{Is: refused, Because: why, Why: says} }

// start begins a set. The store answers a repeat with the set as it is, which
// cannot be told from a first time; both are good.
func (k *keeping) start(ctx context.Context, it item) (reply, error) {
	start := store.NewSet{ID: it.Set, Assignment: it.Assignment, Table: it.Table}
	if !it.At.IsZero() {
		start.At = it.At.Add(-k.ahead)
	}
	if now := k.desk.now(); start.At.After(now) {
		start.At = now
	}
	if it.Setup != nil {
		setup, err := it.Setup.setup()
		if err != nil {
			return no(invalid, err.Error()), nil
		}
		start.Setup = setup
	}
	_, err := k.desk.store.StartSet(ctx, k.viewer, start)
	return k.replyTo(ctx, it, accepted, err)
}

func (k *keeping) save(ctx context.Context, it item) (reply, error) {
	content, err := ReadBreak(it.Content)
	if err != nil {
		return no(invalid, "this break could not be read: open it, look it over and save it again"), nil
	}
	kept, err := k.desk.store.SaveBreak(ctx, k.viewer, it.Set, store.Break{ID: it.ID, Revision: it.Revision, Break: content})
	return k.replyTo(ctx, it, is(kept), err)
}

func (k *keeping) delete(ctx context.Context, it item) (reply, error) {
	if it.Reason == "" {
		return no(invalid, "every break counts: say why this one does not"), nil
	}
	err := k.desk.store.DeleteBreak(ctx, k.viewer, it.Set, it.ID, it.Revision, it.Reason)
	return k.replyTo(ctx, it, accepted, err)
}

// close closes a set once all its breaks are here and settled: closing cannot
// be undone, and a break left on the phone would be shut out.
func (k *keeping) close(ctx context.Context, it item) (reply, error) {
	if k.open[it.Set] {
		return no(waiting, "a break of this set is to be settled before it can be closed"), nil
	}
	set, err := k.desk.store.GetSet(ctx, k.viewer, it.Set)
	if err != nil {
		return k.replyTo(ctx, it, "", err)
	}
	switch {
	case !set.Closed.IsZero():
		return reply{Is: had}, nil
	case len(set.Breaks) < it.Breaks:
		return no(waiting, fmt.Sprintf("only %d of %d breaks have arrived yet", len(set.Breaks), it.Breaks)), nil
	}
	err = k.desk.store.CloseSet(ctx, k.viewer, it.Set, k.desk.judge)
	return k.replyTo(ctx, it, accepted, err)
}

// replyTo turns what the store said into an answer, or gives the error back
// when it is no answer at all.
func (k *keeping) replyTo(ctx context.Context, it item, good is, err error) (reply, error) {
	var problems drill.Problems
	switch {
	case err == nil:
		return reply{Is: good}, nil
	case errors.As(err, &problems):
		return no(invalid, problems.Error()), nil
	case errors.Is(err, store.ErrClosed):
		return no(closed, "this set was closed meanwhile, on another phone or by your coach"), nil
	case errors.Is(err, store.ErrStale):
		return k.against(ctx, it, stale, err)
	case errors.Is(err, store.ErrConflict):
		return k.against(ctx, it, conflict, err)
	case errors.Is(err, store.ErrNotFound), errors.Is(err, store.ErrNotAllowed):
		return no(gone, "the drill, the table or the set is not there any more, or not yours"), nil
	}
	return reply{}, err
}

// against refuses a break and shows what is kept instead.
func (k *keeping) against(ctx context.Context, it item, why because, err error) (reply, error) {
	answer := no(why, saysOf(err))
	if it.Kind != saveBreak && it.Kind != deleteBreak {
		return answer, nil
	}
	set, err := k.desk.store.GetSet(ctx, k.viewer, it.Set)
	if err != nil {
		return reply{}, err
	}
	same := func(b store.Break) bool { return b.ID == it.ID }
	i := slices.IndexFunc(set.Breaks, same)
	if content, err := ReadBreak(it.Content); i < 0 && err == nil {
		i = slices.IndexFunc(set.Breaks, func(b store.Break) bool { return b.Number == content.Number })
	}
	if i >= 0 {
		there := thereOf(set.Breaks[i])
		answer.There = &there
	}
	return answer, nil
}

func thereOf(b store.Break) breakThere {
	return breakThere{ID: b.ID, Revision: b.Revision, Coach: !store.IsZero(b.EditedBy), Content: breakToJSON(b.Break)}
}

// saysOf gives the store's sentence for people, which is the error right around
// the kind; what is around that says for the log what was being done. An error
// of the database has no such sentence.
func saysOf(err error) string {
	for ; err != nil; err = errors.Unwrap(err) {
		if kind := errors.Unwrap(err); kind == store.ErrStale || kind == store.ErrConflict {
			return err.Error()
		}
	}
	return "something else is kept there already"
}

package demo

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"sync"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// mostAuditions bounds the search; the cast is such that far fewer are needed.
const mostAuditions = 150

// playbill is who plays the parts, in the order of the cast.
type playbill struct {
	lessons []*lesson // a newcomer's has no sets
	// tried counts the students drawn, breaks what they broke in mind.
	tried, breaks int
}

// auditions finds who plays the parts, with so many at work. What comes of it
// does not depend on how many.
func auditions(ctx context.Context, h hall, workers int) (playbill, error) {
	parts := cast()
	heard, errs := make([]casting, len(parts)), make([]error, len(parts))
	work := make(chan int)
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			for place := range work {
				heard[place], errs[place] = audition(ctx, parts[place], place, h)
			}
		})
	}
	for place := range parts {
		work <- place
	}
	close(work)
	group.Wait()
	var bill playbill
	for _, c := range heard {
		bill.lessons = append(bill.lessons, c.lesson)
		bill.tried, bill.breaks = bill.tried+c.tried, bill.breaks+c.breaks
	}
	return bill, errors.Join(errs...)
}

// casting is who plays a part, and what it took to find them.
type casting struct {
	*lesson
	tried, breaks int
}

// audition draws students until one, with the hands and the luck they have,
// plays the part to its end in mind. So the club shows every state there is,
// whatever the rules of the day are. When nobody plays the part to its end, the
// last one drawn is taken.
func audition(ctx context.Context, p part, place int, h hall) (c casting, err error) {
	where, d := tables()[p.table], cutBreak().drill
	for luck := uint64(1); ; luck++ {
		if err := ctx.Err(); err != nil {
			return casting{}, err
		}
		l := newLesson(p, place, luck, h, where.Kind)
		if err := l.play(ctx, imagine(d.For(p.side), where), anyDay); err != nil {
			return casting{}, fmt.Errorf("audition for %s: %w", p.name, err)
		}
		c.tried, c.breaks = c.tried+1, c.breaks+l.sets*drill.UsualBreaks
		if l.over() || c.tried == mostAuditions {
			c.lesson = newLesson(p, place, luck, h, where.Kind)
			c.most = l.sets // the same sets, for good
			return c, nil
		}
	}
}

// anyDay is a time for lessons that are only imagined.
func anyDay(int) time.Time { return time.Time{} }

// newLesson draws the student who plays the part, with a chance of their own.
func newLesson(p part, place int, luck uint64, h hall, k table.Kind) *lesson {
	d := draw{rand.New(rand.NewPCG(luck, uint64(place)))}
	l := &lesson{part: p, luck: luck, before: h.on(k, d.hands(p.fault))}
	l.after = l.before
	if p.later != nil {
		p.later(&l.after, d)
	}
	return l
}

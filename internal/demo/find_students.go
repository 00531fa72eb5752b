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

// mostSearched bounds the search; the cast is such that far fewer are needed.
const mostSearched = 150

// foundStudents is who plays the parts, in the order of the cast.
type foundStudents struct {
	simulations []*simulation // a newcomer's has no sets
	// tried counts the students drawn, breaks what they broke in mind.
	tried, breaks int
}

// findStudents finds who plays the parts, with so many at work. What comes of it
// does not depend on how many.
func findStudents(ctx context.Context, h simulatedTables, workers int) (foundStudents, error) {
	parts := listParts()
	found, errs := make([]foundStudent, len(parts)), make([]error, len(parts))
	work := make(chan int)
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			for place := range work {
				found[place], errs[place] = searchStudent(ctx, parts[place], place, h)
			}
		})
	}
	for place := range parts {
		work <- place
	}
	close(work)
	group.Wait()
	var bill foundStudents
	for _, c := range found {
		bill.simulations = append(bill.simulations, c.simulation)
		bill.tried, bill.breaks = bill.tried+c.tried, bill.breaks+c.breaks
	}
	return bill, errors.Join(errs...)
}

// foundStudent is who plays a part, and what it took to find them.
type foundStudent struct {
	*simulation
	tried, breaks int
}

// searchStudent draws students until one, with the hands and the luck they have,
// plays the part to its end in mind. So the club shows every state there is,
// whatever the rules of the day are. When nobody plays the part to its end, the
// last one drawn is taken.
func searchStudent(ctx context.Context, p castPart, place int, h simulatedTables) (c foundStudent, err error) {
	where, d := clubTables()[p.table], cutBreak().drill
	for luck := uint64(1); ; luck++ {
		if err := ctx.Err(); err != nil {
			return foundStudent{}, err
		}
		l := newSimulation(p, place, luck, h, where.Kind)
		if err := l.playSets(ctx, newMemoryRecorder(d.ForSide(p.side), where), noTime); err != nil {
			return foundStudent{}, fmt.Errorf("audition for %s: %w", p.name, err)
		}
		c.tried, c.breaks = c.tried+1, c.breaks+l.sets*drill.UsualBreaks
		if l.isFinished() || c.tried == mostSearched {
			c.simulation = newSimulation(p, place, luck, h, where.Kind)
			c.mostSets = l.sets // the same sets, for good
			return c, nil
		}
	}
}

// noTime is a time for sets that are only imagined.
func noTime(int) time.Time { return time.Time{} }

// newSimulation draws the student who plays the part, with a chance of their own.
func newSimulation(p castPart, place int, luck uint64, h simulatedTables, k table.Kind) *simulation {
	d := handsDraw{rand.New(rand.NewPCG(luck, uint64(place)))}
	l := &simulation{castPart: p, luck: luck, handsBefore: h.placeStudent(k, d.drawHands(p.fault))}
	l.handsAfter = l.handsBefore
	if p.later != nil {
		p.later(&l.handsAfter, d)
	}
	return l
}

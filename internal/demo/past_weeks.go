package demo

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// pastWeeks is one student's past weeks.
type pastWeeks struct {
	store      *store.Store
	club       clubRecords
	place      int // in the cast
	simulation *simulation
	hall       simulatedTables
	now        time.Time
}

func (l pastWeeks) playThrough(ctx context.Context) error {
	student := l.simulation
	if student.playsQuietDrill {
		if err := l.quietEvening(ctx); err != nil {
			return err
		}
	}
	if student.mostSets == 0 {
		return nil
	}
	where := l.club.tables[student.table]
	book := l.newRecorder(sideBreakDrill, where)
	last := student.mostSets - 1
	if err := student.playSets(ctx, book, func(set int) time.Time { return l.eveningBefore(student.lastDaysAgo + 3*(last-set)) }); err != nil {
		return err
	}
	if err := l.writeMessages(ctx, book.set); err != nil {
		return err
	}
	if student.leavesHalfSet {
		return student.playSet(ctx, book, l.now.Add(-15*time.Minute), drill.UsualBreaks/2)
	}
	return nil
}

// quietEvening is one set of the second drill, with the same hands and other
// luck, on another table so that the two have nothing to do with each other.
// Evenings of the first are three days apart: it is on a day between.
func (l pastWeeks) quietEvening(ctx context.Context) error {
	where := l.club.tables[barBox]
	p := castPart{coachAnswers: approveChange, storyCheck: hasNoStory, leastSets: 1, mostSets: 1}
	evening := &simulation{castPart: p, luck: ^l.simulation.luck, handsBefore: l.hall.placeStudent(where.Kind, l.simulation.handsBefore), cueOnly: quietCueBall().drill.WatchList.CueOnly}
	return evening.playSets(ctx, l.newRecorder(quietDrill, where), func(int) time.Time { return l.eveningBefore(l.simulation.lastDaysAgo + 7) })
}

// writeMessages is what is said about the latest set.
func (l pastWeeks) writeMessages(ctx context.Context, set store.SetID) error {
	for _, message := range []struct {
		by   store.Actor
		body string
	}{{actorOf(l.club.students[l.place]), l.simulation.question}, {demoCoach, l.simulation.answer}} {
		if message.body == "" {
			continue
		}
		if err := l.store.PostMessage(ctx, message.by, store.MessageID{}, set, message.body); err != nil {
			return err
		}
	}
	return nil
}

func (l pastWeeks) newRecorder(drillName string, where store.Table) *storeRecorder {
	return &storeRecorder{
		store: l.store, student: actorOf(l.club.students[l.place]),
		assignment: l.club.assignments[drillName], table: where.ID,
	}
}

// eveningBefore is when this student comes in, so many days ago.
func (l pastWeeks) eveningBefore(daysAgo int) time.Time {
	day := l.now.AddDate(0, 0, -daysAgo)
	return time.Date(day.Year(), day.Month(), day.Day(), 18, 30+7*l.place, 0, 0, day.Location())
}

package demo

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// life is one student's past weeks.
type life struct {
	store  *store.Store
	club   founded
	place  int // in the cast
	lesson *lesson
	hall   hall
	now    time.Time
}

func (l life) goBy(ctx context.Context) error {
	lesson := l.lesson
	if lesson.quiet {
		if err := l.quietEvening(ctx); err != nil {
			return err
		}
	}
	if lesson.most == 0 {
		return nil
	}
	where := l.club.tables[lesson.table]
	book := l.book(cutBreakDrill, where)
	last := lesson.most - 1
	if err := lesson.play(ctx, book, func(set int) time.Time { return l.evening(lesson.ago + 3*(last-set)) }); err != nil {
		return err
	}
	if err := l.talk(ctx, book.set); err != nil {
		return err
	}
	if lesson.half {
		return lesson.set(ctx, book, l.now.Add(-15*time.Minute), drill.UsualBreaks/2)
	}
	return nil
}

// quietEvening is one set of the second drill, with the same hands and other
// luck, on another table so that the two have nothing to do with each other.
// Lessons are three days apart: it is on a day between.
func (l life) quietEvening(ctx context.Context) error {
	where := l.club.tables[barBox]
	p := part{coach: approves, story: newcomer, least: 1, most: 1}
	lesson := &lesson{part: p, luck: ^l.lesson.luck, before: l.hall.on(where.Kind, l.lesson.before)}
	return lesson.play(ctx, l.book(quietDrill, where), func(int) time.Time { return l.evening(l.lesson.ago + 7) })
}

// talk is what is said about the latest set.
func (l life) talk(ctx context.Context, set store.SetID) error {
	for _, said := range []struct {
		by   store.Viewer
		body string
	}{{viewerOf(l.club.students[l.place]), l.lesson.asks}, {coach, l.lesson.answer}} {
		if said.body == "" {
			continue
		}
		if err := l.store.Say(ctx, said.by, store.MessageID{}, set, said.body); err != nil {
			return err
		}
	}
	return nil
}

func (l life) book(drillName string, where store.Table) *book {
	return &book{
		store: l.store, student: viewerOf(l.club.students[l.place]),
		assignment: l.club.assignments[drillName], table: where.ID,
	}
}

// evening is when this student comes in, so many days ago.
func (l life) evening(daysAgo int) time.Time {
	day := l.now.AddDate(0, 0, -daysAgo)
	return time.Date(day.Year(), day.Month(), day.Day(), 18, 30+7*l.place, 0, 0, day.Location())
}

package demo

import (
	"context"
	"fmt"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// fill makes the club and lets its weeks go by up to now.
func fill(ctx context.Context, s *store.Store, now time.Time) (store.Viewer, error) {
	zone, err := time.LoadLocation(clubZone)
	if err != nil {
		return coach, fmt.Errorf("the club's zone: %w", err)
	}
	now = now.In(zone)
	secrets, err := account.NewKeeper(account.UsualCost(), 1)
	if err != nil {
		return coach, err
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	f, err := found(ctx, s, secrets, today)
	if err != nil {
		return coach, err
	}
	if err := joinAll(ctx, s, secrets, f.students); err != nil {
		return coach, err
	}
	for place, p := range cast() {
		life := life{store: s, club: f, part: p, place: place, now: now}
		if err := life.goBy(ctx); err != nil {
			return coach, fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return coach, nil
}

// joinAll has everyone who has broken take their place. Who is not to be signed
// in as has a PIN that nobody knows.
func joinAll(ctx context.Context, s *store.Store, secrets *account.Keeper, students []store.Person) error {
	unknown, _ := account.NewToken()
	shared, err := secrets.Hash(ctx, unknown)
	if err != nil {
		return err
	}
	for place, p := range cast() {
		hash := shared
		switch {
		case p.pin != "":
			if hash, err = secrets.Hash(ctx, p.pin); err != nil {
				return err
			}
		case p.most == 0:
			continue
		}
		if err := s.Join(ctx, viewerOf(students[place]), hash, ""); err != nil {
			return err
		}
	}
	return nil
}

// life is one student's past weeks.
type life struct {
	store *store.Store
	club  founded
	part  part
	place int
	now   time.Time
}

func (l life) goBy(ctx context.Context) error {
	if l.part.quiet {
		if err := l.quietEvening(ctx); err != nil {
			return err
		}
	}
	if l.part.most == 0 {
		return nil
	}
	where := l.club.tables[l.part.table]
	lesson, err := audition(ctx, l.part, l.place, cutBreak().drill, where)
	if err != nil {
		return err
	}
	book := l.book(cutBreakDrill, where)
	last := lesson.most - 1
	if err := lesson.play(ctx, book, func(set int) time.Time { return l.evening(l.part.ago + 3*(last-set)) }); err != nil {
		return err
	}
	if err := l.talk(ctx, book.set); err != nil {
		return err
	}
	if l.part.half {
		return lesson.set(ctx, book, l.now.Add(-15*time.Minute), drill.UsualBreaks/2)
	}
	return nil
}

// quietEvening is one set of the second drill, on another table so that the
// two have nothing to do with each other. Lessons are three days apart: it is
// on a day between.
func (l life) quietEvening(ctx context.Context) error {
	where := l.club.tables[barBox]
	p := part{side: l.part.side, fault: l.part.fault, coach: approves, least: 1, most: 1}
	lesson := newLesson(p, l.place, 1, quietCueBall().drill, where)
	return lesson.play(ctx, l.book(quietDrill, where), func(int) time.Time { return l.evening(l.part.ago + 7) })
}

// talk is what is said about the latest set.
func (l life) talk(ctx context.Context, set store.SetID) error {
	for _, said := range []struct {
		by   store.Viewer
		body string
	}{{viewerOf(l.club.students[l.place]), l.part.asks}, {coach, l.part.answer}} {
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

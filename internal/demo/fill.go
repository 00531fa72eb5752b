package demo

import (
	"context"
	"fmt"
	"runtime"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
)

// fill makes the club and lets its weeks go by up to now.
func fill(ctx context.Context, s *store.Store, options Options) error {
	zone, err := time.LoadLocation(clubZone)
	if err != nil {
		return fmt.Errorf("the club's zone: %w", err)
	}
	now := options.Now.In(zone)
	h, err := openHall()
	if err != nil {
		return err
	}
	bill, err := auditions(ctx, h, runtime.GOMAXPROCS(0))
	if err != nil {
		return err
	}
	options.Say(fmt.Sprintf("Its students are found, after %d breaks on trial. Writing down their past weeks", bill.breaks))
	secrets, err := account.NewKeeper(account.UsualCost(), 1)
	if err != nil {
		return err
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	f, err := found(ctx, s, secrets, today)
	if err != nil {
		return err
	}
	if err := joinAll(ctx, s, secrets, f.students); err != nil {
		return err
	}
	for place, lesson := range bill.lessons {
		life := life{store: s, club: f, place: place, lesson: lesson, hall: h, now: now}
		if err := life.goBy(ctx); err != nil {
			return fmt.Errorf("%s: %w", lesson.name, err)
		}
	}
	return nil
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

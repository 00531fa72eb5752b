package demo

import (
	"context"
	"fmt"
	"runtime"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
)

// fillClub makes the club and lets its weeks go by up to now.
func fillClub(ctx context.Context, s *store.Store, options Options) error {
	zone, err := time.LoadLocation(clubZone)
	if err != nil {
		return fmt.Errorf("the club's zone: %w", err)
	}
	now := options.Now.In(zone)
	h, err := newSimulatedTables()
	if err != nil {
		return err
	}
	bill, err := findStudents(ctx, h, runtime.GOMAXPROCS(0))
	if err != nil {
		return err
	}
	options.Say(fmt.Sprintf("Its students are found, after %d imagined breaks. Writing down their past weeks", bill.breaks))
	secrets, err := account.NewHasher(account.DefaultCost(), 1)
	if err != nil {
		return err
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	f, err := createClub(ctx, s, secrets, today)
	if err != nil {
		return err
	}
	if err := joinStudents(ctx, s, secrets, f.students); err != nil {
		return err
	}
	for place, student := range bill.simulations {
		life := pastWeeks{store: s, club: f, place: place, simulation: student, hall: h, now: now}
		if err := life.playThrough(ctx); err != nil {
			return fmt.Errorf("%s: %w", student.name, err)
		}
	}
	return nil
}

// joinStudents has everyone who has broken take their place. Who is not to be signed
// in as has a PIN that nobody knows.
func joinStudents(ctx context.Context, s *store.Store, secrets *account.Hasher, students []store.Person) error {
	unknown, _ := account.NewToken()
	shared, err := secrets.HashSecret(ctx, unknown)
	if err != nil {
		return err
	}
	for place, p := range listParts() {
		hash := shared
		switch {
		case p.pin != "":
			if hash, err = secrets.HashSecret(ctx, p.pin); err != nil {
				return err
			}
		case p.mostSets == 0:
			continue
		}
		if err := s.JoinClub(ctx, actorOf(students[place]), hash, ""); err != nil {
			return err
		}
	}
	return nil
}

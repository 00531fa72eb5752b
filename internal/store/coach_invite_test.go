package store_test

import (
	"errors"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// A link makes one coach of the club that invites, under a login that nobody has, and is
// used up by that alone.
func TestAcceptInvite_OneCoachOfTheClub(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, link := t.Context(), sc.Store, account.HashToken("a link")
	if err := s.InviteCoach(ctx, sc.Coach, link, time.Now()); err != nil {
		t.Fatal(err)
	}
	var taken drill.Problems
	if _, err := s.AcceptInvite(ctx, link, store.NewCoach{Name: "Levi", Login: sc.Login, SecretHash: "$argon2id$x"}); !errors.As(err, &taken) || taken.MessageFor("login") == "" {
		t.Errorf("under a login that is taken: %v", err)
	}
	if found := must(s.FindInvite(ctx, link))(t); found.InvitedBy != "Ines" {
		t.Errorf("after a refused login the link says %+v", found)
	}
	levi := store.NewCoach{Name: "Levi", Login: "levi@" + sc.Login, SecretHash: "$argon2id$x"}
	coach := must(s.AcceptInvite(ctx, link, levi))(t)
	if found := must(s.FindCoach(ctx, levi.Login))(t); found.Actor != coach || coach.Club != sc.Coach.Club || coach.Role != store.Coach {
		t.Errorf("the link makes %+v, who signs in as %+v", coach, found.Actor)
	}
	for name, hash := range map[string][]byte{"a used link": link, "none": account.HashToken("another")} {
		if _, err := s.AcceptInvite(ctx, hash, store.NewCoach{Name: "Wim", Login: "wim@" + sc.Login, SecretHash: "$argon2id$x"}); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The links that are still good are listed for coaches, and one that is withdrawn is good
// no more; who was removed as a coach is listed by name.
func TestListInvites_WhatIsGood(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := storetest.AddScene(t, sc.Store)
	ctx, s, link, now := t.Context(), sc.Store, account.HashToken("a link"), time.Now()
	for _, hash := range [][]byte{link, account.HashToken("another")} {
		if err := s.InviteCoach(ctx, sc.Coach, hash, now); err != nil {
			t.Fatal(err)
		}
	}
	invites := must(s.ListInvites(ctx, sc.Coach))(t)
	if len(invites) != 2 || invites[0].InvitedBy != "Ines" || invites[0].Expires.Sub(now).Round(time.Hour) != 7*24*time.Hour {
		t.Fatalf("the links are %+v", invites)
	}
	for key, want := range map[string]error{invites[0].Key: nil, "no key": store.ErrNotFound} {
		if err := s.WithdrawInvite(ctx, sc.Coach, key); !errors.Is(err, want) {
			t.Errorf("withdrawing %q: %v", key, err)
		}
	}
	if left := must(s.ListInvites(ctx, sc.Coach))(t); len(left) != 1 || left[0].Key == invites[0].Key {
		t.Errorf("left are %+v", left)
	}
	coach := must(s.AddCoach(ctx, sc.Coach, store.NewCoach{Name: "Levi", Login: "levi@" + sc.Login, SecretHash: "$argon2id$x"}))(t)
	if err := s.ArchivePerson(ctx, sc.Coach, coach); err != nil {
		t.Fatal(err)
	}
	if former := must(s.ListFormerCoaches(ctx, sc.Coach))(t); len(former) != 1 || former[0].ID != coach || former[0].Name != "Levi" {
		t.Errorf("former coaches are %+v", former)
	}
	if former := must(s.ListFormerCoaches(ctx, other.Coach))(t); len(former) != 0 {
		t.Errorf("another club's are %+v", former)
	}
	_, list := s.ListInvites(ctx, sc.StudentActor(0))
	_, former := s.ListFormerCoaches(ctx, sc.StudentActor(0))
	for _, err := range []error{list, former, s.WithdrawInvite(ctx, sc.StudentActor(0), invites[1].Key)} {
		if !errors.Is(err, store.ErrNotAllowed) {
			t.Errorf("a student: %v", err)
		}
	}
}

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

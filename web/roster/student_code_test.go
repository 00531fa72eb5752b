package roster_test

import (
	"errors"
	"net/http"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
)

func TestNewCodeForgetsThePINAndSignsOut(t *testing.T) {
	s := newSite(t)
	ctx := t.Context()
	s.join(t, 0)
	token := account.HashToken("a phone")
	if err := s.Store.StartSession(ctx, s.Scene.StudentActor(0), store.NewSession{TokenHash: token, At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	asked := s.get(t, s.student(0)+"/code").RequireText(t, "main", "PIN is forgotten", "signed out everywhere", "Everything they recorded stays")
	form := asked.FormValues(t, "main form")

	got := s.post(t, s.student(0)+"/code", form).RequireStatus(t, http.StatusOK).RequireText(t, ".hint", "Not joined yet")
	if _, err := s.Store.FindStudent(ctx, s.Students[0].Code); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the old code: %v", err)
	}
	if _, err := s.Store.FindSession(ctx, token, time.Now()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the phone's session: %v", err)
	}
	now, err := s.Store.GetPerson(ctx, s.Coach, s.Students[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	got.RequireText(t, ".notice.good", "new code is "+account.FormatCode(now.Code)).RequireText(t, ".bigcode", account.FormatCode(now.Code))
	if found, err := s.Store.FindStudent(ctx, now.Code); err != nil || found.SecretHash != "" {
		t.Errorf("the new code finds %+v, %v", found, err)
	}
}

// A second click, or the page left open in another tab, must not make the code
// that was just read out worthless, nor forget the PIN chosen with it.
func TestNewCodeIsMadeOnceAPage(t *testing.T) {
	s := newSite(t)
	form := s.get(t, s.student(0)+"/code").FormValues(t, "main form")
	first := s.post(t, s.student(0)+"/code", form).TextOf(t, ".bigcode")
	s.join(t, 0)
	again := s.post(t, s.student(0)+"/code", form).RequireText(t, ".notice.good", first).RequireText(t, ".hint", "Joined").TextOf(t, ".bigcode")
	if first != again || first == account.FormatCode(s.Students[0].Code) {
		t.Errorf("the code was %s, then %s, then %s", account.FormatCode(s.Students[0].Code), first, again)
	}
}

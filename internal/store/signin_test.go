package store_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func TestFirstRun_OnlyOnce(t *testing.T) {
	t.Parallel()
	s := storetest.New(t)
	ctx := t.Context()
	if must(s.HasClub(ctx))(t) {
		t.Error("an empty database has a club")
	}
	old, link := bytes.Repeat([]byte{1}, 32), bytes.Repeat([]byte{2}, 32)
	for _, token := range [][]byte{old, link} {
		if err := s.SetFirstRun(ctx, token); err != nil {
			t.Fatal(err)
		}
	}
	if must(s.HasFirstRun(ctx, old))(t) || !must(s.HasFirstRun(ctx, link))(t) {
		t.Error("a newer link does not take the place of the older")
	}
	coach := store.NewCoach{Name: "Ines", Login: "ines", SecretHash: "$argon2id$x"}
	if _, err := s.CreateClubWithCoach(ctx, old, store.Club{Name: "Quay"}, coach); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("set up with an old link: %v", err)
	}
	var p drill.Problems
	_, err := s.CreateClubWithCoach(ctx, link, store.Club{Name: "Quay", Zone: "Mars/Olympus"}, coach)
	if !errors.As(err, &p) || p.MessageFor("zone") == "" {
		t.Errorf("a zone that is none: %v", err)
	}
	v := must(s.CreateClubWithCoach(ctx, link, store.Club{Name: "Quay"}, coach))(t)
	if got := must(s.GetClub(ctx, v))(t); got.Name != "Quay" || got.Zone != "UTC" || got.ID != v.Club {
		t.Errorf("the club is %+v", got)
	}
	if _, err := s.CreateClubWithCoach(ctx, link, store.Club{Name: "Other"}, coach); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("the link works twice: %v", err)
	}
}

// A link for a further club is good for three days, as the page for setting up says.
func TestAddFirstRun_ForThreeDays(t *testing.T) {
	t.Parallel()
	s := storetest.New(t)
	for age, good := range map[time.Duration]bool{72*time.Hour - time.Minute: true, 72*time.Hour + time.Minute: false} {
		_, link := account.NewToken()
		if err := s.AddFirstRun(t.Context(), link, time.Now().Add(-age)); err != nil {
			t.Fatal(err)
		}
		if must(s.HasFirstRun(t.Context(), link))(t) != good {
			t.Errorf("a link that is %s old is good: %v", age, !good)
		}
	}
}

func TestCoach_LoginIsOneInAllClubs(t *testing.T) {
	t.Parallel()
	a := storetest.NewScene(t)
	b := storetest.AddScene(t, a.Store)
	ctx := t.Context()
	found := must(a.Store.FindCoach(ctx, " "+strings.ToUpper(a.Login)))(t)
	if found.Actor != a.Coach || found.Name != "Ines" {
		t.Errorf("found %+v", found)
	}
	hasher := must(account.NewHasher(account.TestCost(), 1))(t)
	if ok := must(hasher.Matches(ctx, storetest.Passphrase, found.SecretHash))(t); !ok {
		t.Error("the coach's passphrase does not match")
	}
	for _, login := range []string{a.Login, strings.ToUpper(a.Login)} {
		_, err := a.Store.AddCoach(ctx, b.Coach, store.NewCoach{Name: "Levi", Login: login, SecretHash: "$argon2id$x"})
		if !errors.Is(err, store.ErrConflict) {
			t.Errorf("the login of another club's coach: %v", err)
		}
	}
	levi := store.NewCoach{ID: store.NewID[store.PersonID](), Name: "Levi", Login: "levi@" + a.Login, SecretHash: "$argon2id$x"}
	for range 2 { // a double click
		must(a.Store.AddCoach(ctx, a.Coach, levi))(t)
	}
	levi.Login = "levi again@" + a.Login
	if _, err := a.Store.AddCoach(ctx, a.Coach, levi); !errors.Is(err, store.ErrConflict) {
		t.Errorf("the same form with another login: %v", err)
	}
	if _, err := a.Store.AddCoach(ctx, a.StudentActor(0), store.NewCoach{Name: "Levi", Login: "levi", SecretHash: "$argon2id$x"}); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student adds a coach: %v", err)
	}
	if _, err := a.Store.FindCoach(ctx, "nobody"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("nobody's login: %v", err)
	}
}

func TestSession_FromSignInToSignOut(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	found := must(s.FindStudent(ctx, sc.Students[2].Code))(t)
	if found.Actor != sc.StudentActor(2) || found.SecretHash != "" {
		t.Errorf("found %+v", found)
	}
	_, token := account.NewToken()
	at := time.Now().UTC().Truncate(time.Microsecond)
	if err := s.StartSession(ctx, found.Actor, store.NewSession{TokenHash: token, Device: "Firefox on Android", At: at}); err != nil {
		t.Fatal(err)
	}
	got := must(s.FindSession(ctx, token, at))(t)
	want := store.Session{
		Actor: sc.StudentActor(2), ID: got.ID, Name: "Wen", Side: "right", Turned: at, Expires: at.Add(store.SessionLongest),
		Club: store.Club{ID: sc.Coach.Club, Name: "Harbour Lane", Zone: "UTC", Units: store.Inches},
	}
	if got != want || store.IsZero(got.ID) {
		t.Errorf("the session is %+v, want %+v", got, want)
	}
	if err := s.RevokeSessions(ctx, sc.StudentActor(1), sc.StudentActor(2).Person); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another student signs them out: %v", err)
	}
	if err := s.RevokeSession(ctx, token); err != nil {
		t.Fatal(err)
	}
	if _, err := s.FindSession(ctx, token, time.Now()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("after signing out: %v", err)
	}
}

func TestSession_SlidesAndEnds(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	ctx, s := t.Context(), sc.Store
	_, token := account.NewToken()
	const idle, longest = 30 * 24 * time.Hour, 180 * 24 * time.Hour // as the page of one's own account says
	began := time.Now().Add(-300 * 24 * time.Hour)
	if err := s.StartSession(ctx, sc.Coach, store.NewSession{TokenHash: token, At: began}); err != nil {
		t.Fatal(err)
	}
	used := began
	for used.Sub(began) < longest-idle { // used every three weeks it goes on
		used = used.Add(21 * 24 * time.Hour)
		if _, err := s.FindSession(ctx, token, used); err != nil {
			t.Fatalf("after %s, used three weeks before: %v", used.Sub(began), err)
		}
	}
	if _, err := s.FindSession(ctx, token, began.Add(longest)); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("however much it is used: %v", err)
	}
	for after, want := range map[time.Duration]error{idle - time.Minute: nil, idle: store.ErrNotFound} {
		_, unused := account.NewToken()
		if err := s.StartSession(ctx, sc.Coach, store.NewSession{TokenHash: unused, At: began}); err != nil {
			t.Fatal(err)
		}
		if _, err := s.FindSession(ctx, unused, began.Add(after)); !errors.Is(err, want) {
			t.Errorf("not used for %s: %v", after, err)
		}
	}
	if err := s.SweepExpired(ctx); err != nil {
		t.Fatal(err)
	}
	if left := names(t, connect(t, owner), "select 'left' from session"); len(left) > 0 {
		t.Error("an old session was not swept")
	}
}

func TestSession_TokenTurnsAndTheOldOneEnds(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	_, first := account.NewToken()
	_, second := account.NewToken()
	_, third := account.NewToken()
	at := time.Now()
	if err := s.StartSession(ctx, sc.Coach, store.NewSession{TokenHash: first, At: at}); err != nil {
		t.Fatal(err)
	}
	if must(s.TurnSession(ctx, first, second, at.Add(store.SessionTurn-time.Minute)))(t) {
		t.Error("a token was changed before its time")
	}
	at = at.Add(store.SessionTurn)
	if !must(s.TurnSession(ctx, first, second, at))(t) || must(s.TurnSession(ctx, first, third, at))(t) {
		t.Error("two requests at once do not change the token once")
	}
	// The answer with the new token was lost: the old one goes on, for days.
	at = at.Add(3 * 24 * time.Hour)
	if _, err := s.FindSession(ctx, first, at); err != nil {
		t.Errorf("the answer was lost, and so is the session: %v", err)
	}
	if !must(s.TurnSession(ctx, first, third, at))(t) {
		t.Error("a token whose answer was lost is not changed again")
	}
	if _, err := s.FindSession(ctx, second, at); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a token that nobody got: %v", err)
	}
	if _, err := s.FindSession(ctx, third, at.Add(2*time.Minute)); err != nil {
		t.Fatal(err)
	}
	if _, err := s.FindSession(ctx, first, at.Add(2*time.Minute)); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the old token, after the new one was used: %v", err)
	}
}

// However often somebody signs in, they have no more sessions than fifty: the one that was
// not used for longest goes, one that was ended before any that goes on.
func TestSession_HaveAnEnd(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, began := t.Context(), sc.Store, time.Now()
	var tokens [][]byte
	start := func() {
		_, token := account.NewToken()
		tokens = append(tokens, token)
		if err := s.StartSession(ctx, sc.Coach, store.NewSession{TokenHash: token, At: began.Add(time.Duration(len(tokens)) * time.Second)}); err != nil {
			t.Fatal(err)
		}
	}
	for range 50 {
		start()
	}
	if err := s.RevokeSession(ctx, tokens[30]); err != nil {
		t.Fatal(err)
	}
	start()
	if _, err := s.FindSession(ctx, tokens[0], began); err != nil {
		t.Errorf("with an ended one to drop, one that went on is gone: %v", err)
	}
	start()
	if _, err := s.FindSession(ctx, tokens[0], began); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the oldest of 51: %v", err)
	}
	if all := must(s.ListOwnSessions(ctx, sc.Coach, began))(t); len(all) != 50 {
		t.Errorf("%d sessions go on", len(all))
	}
}

// A new secret and the end of the sessions come together or not at all: else whoever knew
// the old one would stay in.
func TestSecret_ChangesWithItsSessions(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	ctx, s, login := t.Context(), sc.Store, sc.Login
	_, device := account.NewToken()
	database := connect(t, owner)
	for name, change := range map[string]func(hash string) error{
		"changed": func(hash string) error { return s.ChangeSecret(ctx, sc.Coach, hash, store.SessionID{}, device) },
		"reset":   func(hash string) error { return s.ResetSecret(ctx, sc.Coach, hash) },
	} {
		_, token := account.NewToken()
		if err := s.StartSession(ctx, sc.Coach, store.NewSession{TokenHash: token, At: time.Now()}); err != nil {
			t.Fatal(err)
		}
		before := must(s.FindCoach(ctx, login))(t).SecretHash
		must(database.Exec(ctx, "alter table session add constraint kept check (revoked_at is null) not valid"))(t)
		if err := change("$argon2id$" + name); err == nil || must(s.FindCoach(ctx, login))(t).SecretHash != before {
			t.Errorf("%s while the sessions cannot be ended: %v", name, err)
		}
		must(database.Exec(ctx, "alter table session drop constraint kept"))(t)
		if err := change("$argon2id$" + name); err != nil || must(s.FindCoach(ctx, login))(t).SecretHash != "$argon2id$"+name {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := s.FindSession(ctx, token, time.Now()); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s, still signed in: %v", name, err)
		}
	}
	gone := store.Actor{Club: sc.Coach.Club, Person: store.NewID[store.PersonID](), Role: store.Coach}
	if err := s.ChangeSecret(ctx, gone, "$argon2id$x", store.SessionID{}, device); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("of who is not there: %v", err)
	}
}

// Who was locked out by wrong tries is listed for coaches of the club until one of them
// lets them in again.
func TestListLockedPeople_UntilFreed(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	device := account.HashToken("a stranger's phone")
	for n := range account.LimitOfPIN().ByStrangers + 1 {
		kind, want := must(s.TakeTry(ctx, odile, device, time.Now()))(t), store.TryByStranger
		if n == account.LimitOfPIN().ByStrangers {
			want = store.TryLocked
		}
		if kind != want {
			t.Errorf("wrong try %d is counted as %q, not %q", n+1, kind, want)
		}
	}
	locked := must(s.ListLockedPeople(ctx, sc.Coach))(t)
	if len(locked) != 1 || locked[0].ID != odile.Person || locked[0].Name != "Odile" || locked[0].Role != store.Student {
		t.Errorf("locked out are %+v", locked)
	}
	if others := must(s.ListLockedPeople(ctx, storetest.AddScene(t, s).Coach))(t); len(others) != 0 {
		t.Errorf("another club sees %+v", others)
	}
	if _, err := s.ListLockedPeople(ctx, odile); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student: %v", err)
	}
	if err := s.FreePerson(ctx, sc.Coach, odile.Person); err != nil || len(must(s.ListLockedPeople(ctx, sc.Coach))(t)) != 0 {
		t.Errorf("freed: %v", err)
	}
}

func TestNewCode_SignsOutAndForgets(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	_, token := account.NewToken()
	if err := s.StartSession(ctx, odile, store.NewSession{TokenHash: token, At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	if err := s.JoinClub(ctx, odile, "$argon2id$pin", ""); err != nil {
		t.Fatal(err)
	}
	if found := must(s.FindStudent(ctx, sc.Students[0].Code))(t); found.SecretHash != "$argon2id$pin" {
		t.Errorf("the PIN is %q", found.SecretHash)
	}
	if _, err := s.ReplaceCode(ctx, sc.StudentActor(1), odile.Person); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student makes a code: %v", err)
	}
	code := must(s.ReplaceCode(ctx, sc.Coach, odile.Person))(t)
	if _, err := s.FindStudent(ctx, sc.Students[0].Code); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the old code: %v", err)
	}
	if found := must(s.FindStudent(ctx, code))(t); found.Actor != odile || found.SecretHash != "" {
		t.Errorf("by the new code: %+v", found)
	}
	if _, err := s.FindSession(ctx, token, time.Now()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("still signed in: %v", err)
	}
	if _, err := s.ReplaceCode(ctx, sc.Coach, sc.Coach.Person); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a code for a coach: %v", err)
	}
}

func TestArchivePerson_CannotSignIn(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	_, token := account.NewToken()
	if err := s.StartSession(ctx, odile, store.NewSession{TokenHash: token, At: time.Now()}); err != nil {
		t.Fatal(err)
	}
	if err := s.ArchivePerson(ctx, sc.Coach, odile.Person); err != nil {
		t.Fatal(err)
	}
	if _, err := s.FindSession(ctx, token, time.Now()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("still signed in: %v", err)
	}
	if _, err := s.FindStudent(ctx, sc.Students[0].Code); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the code still works: %v", err)
	}
	if err := s.StartSession(ctx, odile, store.NewSession{TokenHash: bytes.Repeat([]byte{7}, 32), At: time.Now()}); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a session still starts: %v", err)
	}
	if live, all := must(s.ListStudents(ctx, sc.Coach, store.ActiveOnly))(t), must(s.ListStudents(ctx, sc.Coach, store.WithArchived))(t); len(live) != 2 || len(all) != 3 {
		t.Errorf("%d students in use, %d in all", len(live), len(all))
	}
	if err := s.ArchivePerson(ctx, sc.Coach, sc.Coach.Person); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a coach archives themself: %v", err)
	}
}

func TestAddStudents_AllOrNone(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx := t.Context()
	var p drill.Problems
	_, err := sc.Store.AddStudents(ctx, sc.Coach, uuid.Nil, sc.Class, []store.NewStudent{{Name: "Ada"}, {Name: " "}, {Name: "Cleo", Side: "middle"}})
	if !errors.As(err, &p) || len(p) != 2 || !strings.HasPrefix(p[0].Message, "line 2") || !strings.HasPrefix(p[1].Message, "line 3") {
		t.Errorf("two bad lines of three: %v", err)
	}
	_, err = sc.Store.AddStudents(ctx, sc.Coach, uuid.Nil, store.NewID[store.ClassID](), []store.NewStudent{{Name: "Ada"}})
	if !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a class that is none: %v", err)
	}
	if all := must(sc.Store.ListStudents(ctx, sc.Coach, store.WithArchived))(t); len(all) != 3 {
		t.Errorf("%d students: a refused form left something behind", len(all))
	}
}

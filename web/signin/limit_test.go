//go:build !quick

package signin_test

import (
	"fmt"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web"
	"breakwright/web/webtest"
)

// virtualHour is two servers on one database, behind a proxy, whose clock is
// turned by hand.
type virtualHour struct {
	storetest.Scene
	sites [2]*webtest.Site
	clock atomic.Int64
}

func newVirtualHour(t *testing.T) *virtualHour {
	h := &virtualHour{Scene: storetest.NewScene(t)}
	h.clock.Store(time.Now().UnixNano())
	for i := range h.sites {
		h.sites[i] = webtest.NewOverScene(t, h.Scene, func(c *web.Config) {
			c.Now = func() time.Time { return time.Unix(0, h.clock.Load()) }
			c.TrustedProxies = []netip.Prefix{netip.MustParsePrefix("127.0.0.1/32")}
		})
	}
	return h
}

// spellings of one code: the limit is the person's, however it is typed.
func spellings(code string) []string {
	return []string{code, account.FormatCode(code), strings.ToLower(code), code[:1] + "-" + code[1:], code[:3] + " " + code[3:], " " + code + "\u00a0"}
}

// For an hour of the clock somebody who holds a student's code tries a PIN every
// second, from ever new addresses, in all spellings and on both servers.
// Meanwhile a class of thirty joins behind one address, signs in again with
// mistakes, and the student attacked signs in on their own phone.
func TestPIN_AnHourOfBruteForce(t *testing.T) {
	t.Parallel()
	h := newVirtualHour(t)
	victim := h.Students[0]
	phone := h.sites[0].SignInStudent(t, victim).From("198.51.100.1")
	class := addClass(t, h.Scene, 30)
	looked, honest := 0, 0
	for second := range 3600 {
		h.clock.Add(int64(time.Second))
		site := h.sites[second%2]
		tries := spellings(victim.Code)
		got := site.NewClient(t).WithoutRedirects().From(fmt.Sprintf("203.0.%d.%d", second/250, second%250)).Post(t, "/sign-in",
			url.Values{"who": {tries[second%len(tries)]}, "secret": {fmt.Sprintf("%04d", second)}})
		switch got.Code {
		case http.StatusUnprocessableEntity:
			looked++
		case http.StatusTooManyRequests:
		default:
			t.Fatalf("second %d: answered %d", second, got.Code)
		}
		if second%100 == 50 && second/100 < len(class) {
			honest += joinAndComeBack(t, site, class[second/100], second)
		}
		if second == 1800 || second == 3599 {
			phone.Post(t, "/sign-out", nil)
			phone.Post(t, "/sign-in", url.Values{"who": {victim.Code}, "secret": {"mistyped"}}).RequireStatus(t, http.StatusUnprocessableEntity)
			if in := phone.Post(t, "/sign-in", url.Values{"who": {victim.Code}, "secret": {webtest.PIN}}); in.Path != "/today" {
				t.Errorf("at second %d the student's own phone comes to %s (%d)", second, in.Path, in.Code)
			}
		}
	}
	if chance := float64(looked) / 10_000; chance >= 0.001 || looked == 0 {
		t.Errorf("%d PINs of 10,000 were looked at in an hour: a chance of %.4f", looked, chance)
	}
	if honest != len(class)*2 {
		t.Errorf("%d of %d honest sign-ins", honest, len(class)*2)
	}
	t.Logf("%d of 3600 PINs were looked at, %d honest sign-ins of %d went through", looked, honest, len(class)*2)
	h.isFreedByTheCoach(t, victim)
}

func addClass(t *testing.T, sc storetest.Scene, n int) []store.Person {
	var students []store.NewStudent
	for i := range n {
		students = append(students, store.NewStudent{Name: fmt.Sprintf("Student %d", i+1), Side: "left"})
	}
	added, err := sc.Store.AddStudents(t.Context(), sc.Coach, uuid.Nil, sc.Class, students)
	if err != nil {
		t.Fatal(err)
	}
	return added
}

// joinAndComeBack joins after a mistyped code, and signs in again on another
// device after a mistyped PIN; all from the class's one address. It returns how
// often that went well.
func joinAndComeBack(t *testing.T, site *webtest.Site, student store.Person, i int) (well int) {
	const hall = "198.51.100.7"
	pin := url.Values{"secret": {"blue chalk"}, "again": {"blue chalk"}}
	first := site.NewClient(t).From(hall)
	first.Get(t, "/join/"+student.Code[:7]+"2")
	first.Get(t, "/join/"+student.Code).RequireStatus(t, http.StatusOK)
	if first.Post(t, "/join/"+student.Code, pin).Path == "/today" {
		well++
	}
	second := site.NewClient(t).From(hall)
	second.Post(t, "/sign-in", url.Values{"who": {student.Code}, "secret": {fmt.Sprint("mistyped", i)}})
	if second.Post(t, "/sign-in", url.Values{"who": {student.Code}, "secret": {"blue chalk"}}).Path == "/today" {
		well++
	}
	return well
}

func (h *virtualHour) isFreedByTheCoach(t *testing.T, victim store.Person) {
	t.Helper()
	right := url.Values{"who": {victim.Code}, "secret": {webtest.PIN}}
	stranger := h.sites[1].NewClient(t).From("198.51.100.2")
	stranger.Post(t, "/sign-in", right).RequireStatus(t, http.StatusTooManyRequests).RequireText(t, "#secret-error", "Your coach sees that")
	locked, err := h.Store.ListLockedPeople(t.Context(), h.Coach)
	if err != nil || len(locked) != 1 || locked[0].ID != victim.ID {
		t.Fatalf("locked: %+v (%v), want the student", locked, err)
	}
	coach := h.sites[0].SignInCoach(t)
	coach.Get(t, "/desk").RequireText(t, "#locked-"+victim.ID.String(), victim.Name, "locked")
	coach.Post(t, "/students/"+victim.ID.String()+"/free", nil).RequireStatus(t, http.StatusOK).RequireCount(t, "#locked-"+victim.ID.String(), 0)
	if in := stranger.Post(t, "/sign-in", right); in.Path != "/today" {
		t.Errorf("freed, the student comes to %s (%d)", in.Path, in.Code)
	}
}

// Without a setting for proxies a whole club has one address: it is slowed, and
// known devices are not.
func TestCodes_GuessingIsSlowed(t *testing.T) {
	t.Parallel()
	h := newVirtualHour(t)
	phone := h.sites[0].SignInStudent(t, h.Students[0])
	refused := 0
	for second := range 3600 {
		h.clock.Add(int64(time.Second))
		for _, guess := range []string{account.NewCode(), account.NewCode()} {
			if h.sites[second%2].NewClient(t).Get(t, "/join/"+guess).Code == http.StatusTooManyRequests {
				refused++
			}
		}
	}
	// 300 at once and 300 regained in the hour, whatever is tried.
	if let := 7200 - refused; let < 590 || let > 610 {
		t.Errorf("%d guesses of 7200 were let through in an hour, want about 600", let)
	}
	phone.Post(t, "/sign-out", nil)
	if in := phone.Post(t, "/sign-in", url.Values{"who": {h.Students[0].Code}, "secret": {webtest.PIN}}); in.Path != "/today" {
		t.Errorf("a known phone comes to %s (%d)", in.Path, in.Code)
	}
}

func TestJoin_CodesExpire(t *testing.T) {
	t.Parallel()
	h := newVirtualHour(t)
	joined := h.sites[0].SignInStudent(t, h.Students[1])
	h.clock.Add(int64(account.CodeLife + time.Hour))
	code := h.Students[0].Code
	nobody := h.sites[0].NewClient(t)
	nobody.Get(t, "/join/"+code).RequireStatus(t, http.StatusNotFound).RequireText(t, "#code-error", "has expired")
	nobody.Post(t, "/join/"+code, url.Values{"secret": {"blue chalk"}, "again": {"blue chalk"}}).
		RequireStatus(t, http.StatusNotFound).RequireText(t, "#code-error", "has expired")
	// For who has joined, the code goes on as the name to sign in with.
	joined.Post(t, "/sign-out", nil)
	if in := joined.Post(t, "/sign-in", url.Values{"who": {h.Students[1].Code}, "secret": {webtest.PIN}}); in.Path != "/today" {
		t.Errorf("a student who had joined comes to %s (%d)", in.Path, in.Code)
	}
}

// What is too long for any name or secret is refused before it is hashed or kept.
func TestSignIn_LongNamesAreNobodys(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	for name, form := range map[string]url.Values{
		"a long name":   {"who": {strings.Repeat("x", 9000)}, "secret": {"y"}},
		"a long secret": {"who": {site.Login}, "secret": {strings.Repeat("y", 9000)}},
		"a NUL":         {"who": {"ines\x00"}, "secret": {"y"}},
		"no UTF-8":      {"who": {"ines\xff"}, "secret": {"y"}},
	} {
		if got := site.NewClient(t).Post(t, "/sign-in", form); got.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s answers %d", name, got.Code)
		}
	}
	if got := site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {strings.Repeat("x", 1<<20)}}); got.Code != http.StatusBadRequest {
		t.Errorf("a megabyte answers %d", got.Code)
	}
}

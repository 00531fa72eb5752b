package signin_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

func TestSignIn_OnlyWithTheSecret(t *testing.T) {
	site := webtest.New(t)
	for _, c := range []struct{ who, secret string }{
		{site.Login, "not the passphrase"}, {site.Login, ""}, {"nobody@example.com", storetest.Passphrase},
		{"", ""}, {"' or 1=1 --", "x"}, {strings.Repeat("x", 5000), "y"},
	} {
		got := site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {c.who}, "secret": {c.secret}})
		got.RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#secret-error", "do not belong together")
		if typed := got.AttributeOf(t, "#secret", "value"); typed != "" {
			t.Errorf("the page gives the secret %q back", typed)
		}
	}
	in := site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {strings.ToUpper(site.Login)}, "secret": {storetest.Passphrase}})
	if in.Path != "/desk" {
		t.Errorf("the coach came to %s (%d)", in.Path, in.Code)
	}
}

func TestSignIn_GoesBackOnlyToOurOwnPages(t *testing.T) {
	site := webtest.New(t)
	for next, want := range map[string]string{
		"/classes": "/classes", "//elsewhere.example/x": "/desk", "https://elsewhere.example": "/desk",
		"/\\elsewhere.example": "/desk", "/\t/elsewhere.example": "/desk", "/\n/elsewhere.example": "/desk", "/ /elsewhere.example": "/desk",
		"\t//elsewhere.example": "/desk", "/\x00/elsewhere.example": "/desk", "/\x7f/elsewhere.example": "/desk", "https:elsewhere.example": "/desk", "/classes?all=1": "/classes?all=1", "": "/desk", "/sign-out": "/desk",
	} {
		got := site.NewClient(t).WithoutRedirects().Post(t, "/sign-in", url.Values{"who": {site.Login}, "secret": {storetest.Passphrase}, "next": {next}})
		if to := got.Header.Get("Location"); got.Code != http.StatusSeeOther || to != want {
			t.Errorf("next %q leads to %q (%d), want %q", next, to, got.Code, want)
		}
	}
}

func TestSignIn_TriesAreFew(t *testing.T) {
	site := webtest.New(t)
	mine := site.SignInCoach(t)
	for n := range account.LimitOfPassphrase().ByStrangers + 1 {
		want := http.StatusUnprocessableEntity
		if n == account.LimitOfPassphrase().ByStrangers {
			want = http.StatusTooManyRequests
		}
		spelled := []string{site.Login, " " + strings.ToUpper(site.Login)}[n%2]
		if got := site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {spelled}, "secret": {"guess"}}); got.Code != want {
			t.Errorf("wrong passphrase %d in a row answers %d, want %d", n+1, got.Code, want)
		}
	}
	right := url.Values{"who": {site.Login}, "secret": {storetest.Passphrase}}
	site.NewClient(t).Post(t, "/sign-in", right).RequireStatus(t, http.StatusTooManyRequests).RequireText(t, "#secret-error", "Wait an hour")
	mine.Post(t, "/sign-out", nil)
	if in := mine.Post(t, "/sign-in", right); in.Path != "/desk" {
		t.Errorf("the coach's own browser came to %s (%d)", in.Path, in.Code)
	}
}

func TestSignOut_EndsTheSessionOnTheServer(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	stolen := coach.CopyCookies(t)
	coach.Post(t, "/sign-out", nil).RequireStatus(t, http.StatusOK).RequireText(t, "[role=status]", "signed out")
	if got := stolen.WithoutRedirects().Get(t, "/desk"); got.Code != http.StatusSeeOther {
		t.Errorf("the old cookie still opens the desk: %d", got.Code)
	}
}

func TestJoin_TheCodeThenAPINOfTheirOwn(t *testing.T) {
	site := webtest.New(t)
	student := site.Students[2] // from the right
	nobody := site.NewClient(t)
	asked := nobody.Post(t, "/join", url.Values{"code": {" " + strings.ToLower(account.FormatCode(student.Code))}})
	asked.RequireStatus(t, http.StatusOK).RequireText(t, "h1", "Welcome, "+student.Name).RequireCount(t, "[name=side]", 0)
	for field, form := range map[string]url.Values{
		"#secret-error": {"secret": {"123"}, "again": {"123"}},
		"#again-error":  {"secret": {"4821"}, "again": {"4822"}},
	} {
		if got := nobody.Post(t, "/join/"+student.Code, form); got.Code != http.StatusUnprocessableEntity || got.TextOf(t, field) == "" {
			t.Errorf("%v answers %d with %q", form, got.Code, got.TextOf(t, field))
		}
	}
	kept := nobody.Post(t, "/join/"+student.Code, url.Values{"secret": {"4821"}, "again": {"4822"}}).FormValues(t, "main form")
	if kept.Get("secret") != "4821" || kept.Get("again") != "4822" {
		t.Errorf("what was typed is lost: %v", kept)
	}
	in := nobody.Post(t, "/join/"+student.Code, url.Values{"secret": {"4821"}, "again": {"4821"}})
	if in.Path != "/today" {
		t.Fatalf("joining led to %s (%d)", in.Path, in.Code)
	}
	// Whoever finds the sheet later has to know the PIN.
	again := site.NewClient(t).Post(t, "/join/"+student.Code, url.Values{"secret": {"9999"}, "again": {"9999"}})
	if again.Path != "/sign-in" {
		t.Errorf("the code was taken twice: %s", again.Path)
	}
	back := site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {student.Code}, "secret": {"4821"}})
	if back.Path != "/today" {
		t.Errorf("signing in with code and PIN led to %s (%d)", back.Path, back.Code)
	}
}

func TestJoin_AsksForTheSideOnlyWhereNobodySaidIt(t *testing.T) {
	site := webtest.New(t)
	student := site.Students[0]
	site.ChangeStudents(t, store.RosterChange{Kind: store.SetSides}, student.ID)
	nobody := site.NewClient(t)
	nobody.Get(t, "/join/"+student.Code).RequireCount(t, "[name=side]", 2)
	nobody.Post(t, "/join/"+student.Code, url.Values{"secret": {"4821"}, "again": {"4821"}}).
		RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#side-error", "side you usually break from")
	nobody.Post(t, "/join/"+student.Code, url.Values{"secret": {"4821"}, "again": {"4821"}, "side": {"right"}})
	got, err := site.Store.GetPerson(t.Context(), site.Coach, student.ID)
	if err != nil || got.Side != table.Right {
		t.Errorf("the side is %q (%v), want right", got.Side, err)
	}
}

func TestJoin_CodesThatNobodyHas(t *testing.T) {
	site := webtest.New(t)
	for _, code := range []string{"BBBBBBBB", "short", "🎱🎱🎱🎱🎱🎱🎱🎱"} {
		got := site.NewClient(t).Get(t, "/join/"+url.PathEscape(code))
		if got.Code != http.StatusNotFound || got.TextOf(t, "#code-error") == "" {
			t.Errorf("code %q answers %d", code, got.Code)
		}
	}
}

func TestSetUp_WorksOnce(t *testing.T) {
	site := webtest.New(t)
	token, hash := account.NewToken()
	if err := site.Store.SetFirstRun(t.Context(), hash); err != nil {
		t.Fatal(err)
	}
	form := url.Values{"club": {"The Quiet Room"}, "zone": {"Europe/Lisbon"}, "name": {"Ada"}, "login": {"Ada@quiet.example"}, "secret": {"rack it tight"}}
	bad := url.Values{"club": {""}, "zone": {"Moon/Base"}, "name": {" "}, "login": {"a b"}, "secret": {"short"}}
	nobody := site.NewClient(t)
	nobody.Get(t, "/set-up/"+token).RequireStatus(t, http.StatusOK).RequireText(t, "h1", "Set up your club")
	refused := nobody.Post(t, "/set-up/"+token, bad).RequireStatus(t, http.StatusUnprocessableEntity)
	for _, field := range []string{"#club-error", "#zone-error", "#login-error", "#secret-error"} {
		if refused.TextOf(t, field) == "" {
			t.Errorf("nothing is said at %s", field)
		}
	}
	refused.RequireText(t, "#club-error", "Give the club a name").RequireText(t, "#name-error", "Type your name")
	kept := refused.FormValues(t, "main form")
	if got := kept.Get("zone"); got != "Moon/Base" {
		t.Errorf("the zone that was sent is lost: %q", got)
	}
	if got := kept.Get("secret"); got != "short" {
		t.Errorf("the passphrase is to be typed again: %q", got)
	}
	taken := url.Values{"club": {"The Quiet Room"}, "zone": {"Europe/Lisbon"}, "name": {"Ada"}, "login": {site.Login}, "secret": {"rack it tight"}}
	nobody.Post(t, "/set-up/"+token, taken).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#login-error", "Another coach signs in with this name")
	if in := nobody.Post(t, "/set-up/"+token, form); in.Path != "/desk" {
		t.Fatalf("setting up led to %s (%d): %s", in.Path, in.Code, in.TextOf(t, "main"))
	}
	late := site.NewClient(t)
	late.Get(t, "/set-up/"+token).RequireStatus(t, http.StatusNotFound).RequireText(t, "h1", "This link opens nothing")
	late.Post(t, "/set-up/"+token, form).RequireStatus(t, http.StatusNotFound).RequireText(t, "h1", "This link opens nothing")
	found, err := site.Store.FindCoach(t.Context(), "ada@quiet.example")
	if err != nil || found.Role != store.Coach || found.Club == site.Coach.Club {
		t.Errorf("the new coach: %+v (%v)", found, err)
	}
}

// Before there is a club, whoever comes is told where the link to set it up is.
func TestSignIn_WithoutAClubSaysWhereTheLinkIs(t *testing.T) {
	site := webtest.NewOverScene(t, storetest.Scene{Store: storetest.New(t)})
	site.NewClient(t).Get(t, "/").RequireStatus(t, http.StatusOK).RequireText(t, "h1", "Not set up yet").RequireText(t, "main", "There is no club here yet").RequireCount(t, "main form", 0)
}

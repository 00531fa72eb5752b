package club_test

import (
	"bytes"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

func TestAccount_ANewSecretEndsTheOtherSessions(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	student := site.Students[0]
	here, there := site.SignInStudent(t, student), site.SignInStudent(t, student)
	here.Get(t, "/account").RequireStatus(t, http.StatusOK).RequireText(t, "main", "Change your PIN", account.FormatCode(student.Code)).RequireCount(t, ".rows li", 2)
	for field, form := range map[string]url.Values{
		"#present-error": {"present": {"not this"}, "new": {"4821"}, "again": {"4821"}},
		"#new-error":     {"present": {webtest.PIN}, "new": {"1234"}, "again": {"1234"}},
		"#again-error":   {"present": {webtest.PIN}, "new": {"4821"}, "again": {"4822"}},
	} {
		if got := here.Post(t, "/account/secret", form); got.Code != http.StatusUnprocessableEntity || got.TextOf(t, field) == "" {
			t.Errorf("%v answers %d with %q", form, got.Code, got.TextOf(t, field))
		}
	}
	wrong := url.Values{"present": {"not this"}, "new": {"12"}, "again": {"13"}}
	refused := here.Post(t, "/account/secret", wrong).RequireStatus(t, http.StatusUnprocessableEntity).RequireCount(t, ".notice.wrong li", len(wrong))
	kept := refused.FormValues(t, `form[action="/account/secret"]`)
	for field := range wrong {
		if refused.TextOf(t, "#"+field+"-error") == "" || kept.Get(field) != wrong.Get(field) {
			t.Errorf("where all is wrong, nothing is said of %q, or it is lost: %v", field, kept)
		}
	}
	here.Post(t, "/account/secret", url.Values{"present": {webtest.PIN}, "new": {"4821"}, "again": {"4821"}}).
		RequireStatus(t, http.StatusOK).RequireText(t, "[role=status]", "signed out everywhere but here").RequireCount(t, ".rows li", 1)
	if got := there.Get(t, "/account"); got.Path != "/sign-in" {
		t.Errorf("the other session comes to %s", got.Path)
	}
	if in := there.Post(t, "/sign-in", url.Values{"who": {student.Code}, "secret": {"4821"}}); in.Path != "/today" {
		t.Errorf("with the new PIN they come to %s (%d)", in.Path, in.Code)
	}
}

func TestAccount_EndsOneSession(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	here, there := site.SignInCoach(t), site.SignInCoach(t)
	id := here.Get(t, "/account").AttributeOf(t, ".rows input[name=session]", "value")
	other := site.SignInStudent(t, site.Students[0])
	other.Post(t, "/account/sessions/end", url.Values{"session": {id}})
	if got := there.Get(t, "/account"); got.Path != "/account" {
		t.Fatal("somebody else ended the session")
	}
	here.Post(t, "/account/sessions/end", url.Values{"session": {id}}).RequireCount(t, ".rows li", 1)
	if got := there.Get(t, "/account"); got.Path != "/sign-in" {
		t.Errorf("the ended session comes to %s", got.Path)
	}
}

func TestAccount_ThemeIsOnEveryPage(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	if got := coach.Get(t, "/desk").AttributeOf(t, "html", "data-theme"); got != "" {
		t.Errorf("nothing was chosen, and the page is %q", got)
	}
	coach.Post(t, "/account/theme", url.Values{"theme": {"dark"}}).RequireStatus(t, http.StatusOK)
	if got := coach.Get(t, "/desk").AttributeOf(t, "html", "data-theme"); got != "dark" {
		t.Errorf("dark was chosen, and the page is %q", got)
	}
	coach.Post(t, "/account/theme", url.Values{"theme": {"purple"}}).RequireStatus(t, http.StatusUnprocessableEntity)
}

// A student's own units are on their pages alone; without a choice they have the club's.
func TestAccount_UnitsOfAStudent(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach, odile, bram := site.SignInCoach(t), site.SignInStudent(t, site.Students[0]), site.SignInStudent(t, site.Students[1])
	drill := "/today/" + site.Assignment.String()
	choose := func(units string) *webtest.Page { return odile.Post(t, "/account/units", url.Values{"units": {units}}) }
	for _, c := range []struct{ club, own, odile, bram string }{
		{"inches", "club", "18 in", "18 in"}, {"inches", "centimetres", "46 cm", "18 in"},
		{"centimetres", "inches", "18 in", "46 cm"}, {"centimetres", "club", "46 cm", "46 cm"},
	} {
		coach.Post(t, "/club", url.Values{"name": {"Quay"}, "zone": {"UTC"}, "units": {c.club}}).RequireStatus(t, http.StatusOK)
		if got := choose(c.own).RequireStatus(t, http.StatusOK).AttributeOf(t, "input[name=units][checked]", "value"); got != c.own {
			t.Errorf("%q was chosen, and the page has %q", c.own, got)
		}
		odile.Get(t, drill).RequireText(t, ".facts", c.odile)
		bram.Get(t, drill).RequireText(t, ".facts", c.bram)
	}
	choose("club").RequireText(t, "[role=status]", "Saved.")
	choose("cubits").RequireStatus(t, http.StatusUnprocessableEntity)
	coach.Post(t, "/account/units", url.Values{"units": {"inches"}}).RequireStatus(t, http.StatusForbidden)
	coach.Get(t, "/account").RequireCount(t, "input[name=units]", 0)
}

var recoveryCode = regexp.MustCompile(`[2-9A-Z]{4}(-[2-9A-Z]{4}){3}`)

func TestSecondStep_FromBeginningToEnd(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	coach.Post(t, "/account/step", nil).RequireStatus(t, http.StatusOK).RequireCount(t, "svg.qr", 1)
	step, err := site.Store.GetSecondStep(t.Context(), site.Coach)
	if err != nil {
		t.Fatal(err)
	}
	coach.Post(t, "/account/step/confirm", url.Values{"code": {"abc"}}).RequireStatus(t, http.StatusUnprocessableEntity)
	now := account.TOTPStep(time.Now())
	shown := coach.Post(t, "/account/step/confirm", url.Values{"code": {account.TOTPCode(step.Secret, now)}}).RequireStatus(t, http.StatusOK)
	codes := recoveryCode.FindAllString(shown.TextOf(t, "ol"), -1)
	if len(codes) != account.RecoveryCodes {
		t.Fatalf("%d recovery codes are shown: %s", len(codes), shown.TextOf(t, "main"))
	}
	signIn := func(code string) *webtest.Page {
		p := site.NewClient(t)
		first := p.Post(t, "/sign-in", url.Values{"who": {site.Login}, "secret": {storetest.Passphrase}})
		if first.Path != "/sign-in/step" {
			t.Fatalf("the passphrase leads to %s", first.Path)
		}
		if got := p.Get(t, "/desk"); got.Path != "/sign-in" {
			t.Fatalf("the passphrase alone opens %s", got.Path)
		}
		return p.Post(t, "/sign-in/step", url.Values{"code": {code}})
	}
	for name, c := range map[string]struct{ code, path string }{
		"a wrong code":    {"000000x", "/sign-in/step"},
		"the code before": {account.TOTPCode(step.Secret, now), "/sign-in/step"}, // it was used to turn it on
		"a recovery code": {strings.ToLower(codes[0]), "/desk"},
	} {
		if got := signIn(c.code); got.Path != c.path {
			t.Errorf("%s leads to %s (%d)", name, got.Path, got.Code)
		}
	}
	if got := signIn(codes[0]); got.Path != "/sign-in/step" {
		t.Errorf("a recovery code is good twice: %s", got.Path)
	}
	if got := signIn(account.TOTPCode(step.Secret, now+1)); got.Path != "/desk" {
		t.Errorf("the next code leads to %s", got.Path)
	}
	coach.Post(t, "/account/step/drop", url.Values{"present": {"wrong"}}).RequireStatus(t, http.StatusUnprocessableEntity)
	coach.Post(t, "/account/step/drop", url.Values{"present": {storetest.Passphrase}}).RequireText(t, ".answer", "Off")
	if in := site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {site.Login}, "secret": {storetest.Passphrase}}); in.Path != "/desk" {
		t.Errorf("without the second step the passphrase leads to %s", in.Path)
	}
}

// New recovery codes want the passphrase and a code of the program that was not used;
// the old ones end, and the program goes on as it was.
func TestSecondStep_NewRecoveryCodes(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	coach.Post(t, "/account/step", nil)
	step, err := site.Store.GetSecondStep(t.Context(), site.Coach)
	if err != nil {
		t.Fatal(err)
	}
	now := account.TOTPStep(time.Now())
	used, next := account.TOTPCode(step.Secret, now), account.TOTPCode(step.Secret, now+1)
	codes := func(page *webtest.Page) []string { return recoveryCode.FindAllString(page.TextOf(t, "ol"), -1) }
	old := codes(coach.Post(t, "/account/step/confirm", url.Values{"code": {used}}))
	coach.Get(t, coach.Get(t, "/account/step").AttributeOf(t, `main a[href$="/codes"]`, "href")).RequireText(t, "h1", "New recovery codes")
	for wrong, form := range map[string]url.Values{
		"present": {"present": {"wrong"}, "code": {next}},
		"code":    {"present": {storetest.Passphrase}, "code": {used}},
	} {
		coach.Post(t, "/account/step/codes", form).RequireStatus(t, http.StatusUnprocessableEntity).RequireCount(t, "#"+wrong+"-error", 1)
	}
	fresh := codes(coach.Post(t, "/account/step/codes", url.Values{"present": {storetest.Passphrase}, "code": {next}}).RequireStatus(t, http.StatusOK))
	if len(fresh) != account.RecoveryCodes || slices.Contains(old, fresh[0]) {
		t.Fatalf("after %v come %v", old, fresh)
	}
	for code, leads := range map[string]string{old[0]: "/sign-in/step", next: "/sign-in/step", fresh[0]: "/desk"} {
		p := site.NewClient(t)
		p.Post(t, "/sign-in", url.Values{"who": {site.Login}, "secret": {storetest.Passphrase}})
		if got := p.Post(t, "/sign-in/step", url.Values{"code": {code}}); got.Path != leads {
			t.Errorf("%s leads to %s", code, got.Path)
		}
	}
	if after, err := site.Store.GetSecondStep(t.Context(), site.Coach); err != nil || !bytes.Equal(after.Secret, step.Secret) {
		t.Errorf("the program would have to read another secret: %v", err)
	}
	coach.Get(t, "/audit").RequireText(t, "tbody", "Ines made anew their own recovery codes")
}

func TestClub_NameZoneAndUnits(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	coach.Post(t, "/club", url.Values{"name": {" "}, "zone": {"Asia/Tokyo"}, "units": {"centimetres"}}).
		RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "main", "Not saved yet")
	coach.Post(t, "/club", url.Values{"name": {"Quay"}, "zone": {"Asia/Tokyo"}, "units": {"centimetres"}}).RequireStatus(t, http.StatusOK)
	club, err := site.Store.GetClub(t.Context(), site.Coach)
	if want := (store.Club{ID: site.Coach.Club, Name: "Quay", Zone: "Asia/Tokyo", Units: store.Centimetres}); err != nil || club != want {
		t.Errorf("the club is %+v (%v), want %+v", club, err, want)
	}
	if got := coach.Get(t, "/club").AttributeOf(t, "option[selected]", "value"); got != "Asia/Tokyo" {
		t.Errorf("the zone chosen is %q", got)
	}
}

func TestClub_InvitesAndRemovesACoach(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	link := coach.Post(t, "/club/invites", nil).RequireStatus(t, http.StatusOK).TextOf(t, "[role=status] code")
	path, found := strings.CutPrefix(link, site.URL)
	if !found {
		t.Fatalf("the link %q does not lead here", link)
	}
	levi := site.NewClient(t)
	levi.Get(t, path).RequireStatus(t, http.StatusOK).RequireText(t, "main", "Ines invites you")
	form := url.Values{"name": {"Levi"}, "login": {site.Login}, "secret": {"three plain words"}}
	taken := levi.Post(t, path, form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#login-error", "choose another")
	if kept := taken.FormValues(t, "main form").Get("secret"); kept != form.Get("secret") {
		t.Errorf("the passphrase is to be typed again: %q", kept)
	}
	form.Set("login", "levi-of-"+site.Coach.Club.String())
	if in := levi.Post(t, path, form); in.Path != "/desk" {
		t.Fatalf("the invited coach comes to %s (%d)", in.Path, in.Code)
	}
	coach.Get(t, "/audit").RequireText(t, "tbody", "Levi accepted an invitation of a coach Levi")
	late := site.NewClient(t)
	late.Get(t, path).RequireStatus(t, http.StatusNotFound).RequireText(t, "main", "This link opens nothing", "works once, for seven days")
	late.Post(t, path, form).RequireStatus(t, http.StatusNotFound).RequireText(t, "main", "This link opens nothing")
	remove := coach.Get(t, "/club").AttributeOf(t, `form[action^="/club/coaches/"]`, "action")
	coach.Post(t, "/club/coaches/"+site.Coach.Person.String()+"/remove", nil).RequireStatus(t, http.StatusForbidden)
	coach.Post(t, "/club/coaches/"+site.Students[0].ID.String()+"/remove", nil).RequireStatus(t, http.StatusNotFound)
	coach.Post(t, remove, nil).RequireStatus(t, http.StatusOK).RequireText(t, "main", "Restore")
	if got := levi.Get(t, "/desk"); got.Path != "/sign-in" {
		t.Errorf("the removed coach comes to %s", got.Path)
	}
	coach.Post(t, strings.TrimSuffix(remove, "/remove")+"/restore", nil).RequireStatus(t, http.StatusOK)
	if in := levi.Post(t, "/sign-in", url.Values{"who": {form.Get("login")}, "secret": {"three plain words"}}); in.Path != "/desk" {
		t.Errorf("taken back, the coach comes to %s (%d)", in.Path, in.Code)
	}
}

func TestClub_WithdrawsAnInvitation(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	made := coach.Post(t, "/club/invites", nil)
	path := strings.TrimPrefix(made.TextOf(t, "[role=status] code"), site.URL)
	coach.Post(t, "/club/invites/withdraw", url.Values{"key": {made.AttributeOf(t, "input[name=key]", "value")}}).RequireStatus(t, http.StatusOK)
	site.NewClient(t).Get(t, path).RequireStatus(t, http.StatusNotFound)
}

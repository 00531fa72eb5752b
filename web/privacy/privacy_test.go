package privacy_test

import (
	"archive/zip"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/privacy"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// Every page of coaches and students has words in the audit log.
func TestPlaces_EveryRouteHasWords(t *testing.T) {
	t.Parallel()
	for _, row := range webtest.New(t).Routes {
		if row.Audience != route.Anyone && row.Pattern != "/sync" && privacy.PlaceWords(row.Pattern) == privacy.PlaceWords("/") {
			t.Errorf("%s %s has no place in the audit log", row.Method, row.Pattern)
		}
	}
}

func TestAudit_SaysWhoDidWhat(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	path := "/students/" + site.Students[0].ID.String()
	coach.Post(t, "/account/step", nil)
	coach.Post(t, "/club/coaches/"+addCoach(t, site, "Levi").String()+"/remove", nil).RequireStatus(t, http.StatusOK)
	for range 3 {
		coach.Get(t, path).RequireStatus(t, http.StatusOK)
	}
	for _, note := range []string{"A sore wrist", "Better"} {
		coach.Post(t, path+"/note", url.Values{"note": {note}}).RequireStatus(t, http.StatusOK)
	}
	coach.Post(t, path+"/name", url.Values{"name": {" "}}) // refused, so nothing changed
	coach.Get(t, "/export?student="+site.Students[0].ID.String()).RequireStatus(t, http.StatusOK)
	student.Get(t, "/my/export").RequireStatus(t, http.StatusOK)
	shown := coach.Get(t, "/audit").RequireStatus(t, http.StatusOK)
	for _, want := range []string{"Ines removed a coach Levi", "Ines began their own second step", "Ines saw a student's page Odile", "Ines changed a private note Odile 2 times that day", "Ines exported break logs Odile", "Odile exported their own break log Odile"} {
		if !strings.Contains(shown.TextOf(t, "tbody"), want) {
			t.Errorf("the log does not say %q: %s", want, shown.TextOf(t, "tbody"))
		}
	}
	if strings.Count(shown.TextOf(t, "tbody"), "saw a student's page") != 1 || strings.Contains(shown.TextOf(t, "tbody"), "changed a student's page") {
		t.Errorf("the log says what was not: %s", shown.TextOf(t, "tbody"))
	}
	of := coach.Get(t, shown.AttributeOf(t, "tbody a", "href")).TextOf(t, "tbody")
	if strings.Contains(of, "the list of students") || !strings.Contains(of, "a student's page") {
		t.Errorf("about one student: %s", of)
	}
	student.Get(t, "/audit").RequireStatus(t, http.StatusForbidden)
}

func TestErase_AsksForTheName(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach, phone := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	path := "/students/" + site.Students[0].ID.String()
	coach.Get(t, path+"/erase").RequireText(t, "main", "Erase Odile?")
	coach.Post(t, path+"/erase", url.Values{"name": {"Bram"}}).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#name-error", "Type the name")
	coach.Post(t, path+"/erase", url.Values{"name": {" odile "}}).RequireStatus(t, http.StatusOK).RequireText(t, "[role=status]", "Erased")
	coach.Get(t, path).RequireStatus(t, http.StatusNotFound)
	away := phone.WithoutRedirects().Get(t, "/today")
	if away.Code != http.StatusSeeOther || away.Header.Get("Clear-Site-Data") != `"cache"` || away.Header.Get("Breakwright-Erased") != site.Students[0].ID.String() {
		t.Errorf("the erased student's phone is told %d %q", away.Code, away.Header.Get("Clear-Site-Data"))
	}
	notice := phone.Get(t, "/today").RequireText(t, "main", "Sign in").RequireText(t, "#erased", "was erased")
	if of := notice.AttributeOf(t, "#erased", "data-person"); of != site.Students[0].ID.String() {
		t.Errorf("the page has %q forgotten", of)
	}
	pin := url.Values{"secret": {webtest.PIN}, "again": {webtest.PIN}, "side": {"left"}}
	phone.Post(t, "/join/"+site.Students[1].Code, pin).RequireStatus(t, http.StatusOK).RequireCount(t, "#erased", 0)
	if other := site.SignInStudent(t, site.Students[1]).Get(t, "/today"); other.Code != http.StatusOK || other.Header.Get("Clear-Site-Data") != "" {
		t.Errorf("another student's phone is told %d %q", other.Code, other.Header.Get("Clear-Site-Data"))
	}
	if got := coach.Get(t, "/audit").TextOf(t, "tbody"); strings.Contains(got, "Odile") || !strings.Contains(got, "Ines erased a student") {
		t.Errorf("the audit log says %s", got)
	}
	coach.Get(t, path).RequireStatus(t, http.StatusNotFound)
	if left, err := site.Store.ListNotes(t.Context(), site.Coach, site.Students[0].ID.UUID, time.Now().Add(time.Hour)); err != nil || len(left) > 0 {
		t.Errorf("who looks at the old address brings the id back: %+v, %v", left, err)
	}
}

func TestErase_TheClub(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	for field, form := range map[string]url.Values{
		"#name-error":    {"name": {"Another"}, "present": {storetest.Passphrase}},
		"#present-error": {"name": {"Harbour Lane"}, "present": {"a guess"}},
	} {
		if got := coach.Post(t, "/club/erase", form); got.Code != http.StatusUnprocessableEntity || got.TextOf(t, field) == "" {
			t.Errorf("%v answers %d", form, got.Code)
		}
	}
	both := coach.Post(t, "/club/erase", url.Values{"name": {"Another"}, "present": {"a guess"}})
	if both.RequireCount(t, "#name-error", 1).RequireCount(t, "#present-error", 1).FormValues(t, `form[action="/club/erase"]`).Get("present") != "a guess" {
		t.Error("what was typed is lost")
	}
	if got := coach.Post(t, "/club/erase", url.Values{"name": {"Harbour Lane"}, "present": {storetest.Passphrase}}); got.Path != "/sign-in" {
		t.Errorf("erased, the coach comes to %s (%d)", got.Path, got.Code)
	}
	if has, err := site.Store.HasClub(t.Context()); err != nil || has {
		t.Errorf("there is still a club (%v)", err)
	}
}

// addCoach adds one to the site's club.
func addCoach(t *testing.T, site *webtest.Site, name string) store.PersonID {
	t.Helper()
	id, err := site.Store.AddCoach(t.Context(), site.Coach, store.NewCoach{Name: name, Login: name + "-" + site.Coach.Club.String(), SecretHash: "$argon2id$x"})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func TestErase_AFormerCoach(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	of, name := "/club/coaches/"+addCoach(t, site, "Levi").String(), url.Values{"name": {"levi"}}
	coach.Post(t, of+"/erase", name).RequireStatus(t, http.StatusNotFound)
	coach.Post(t, of+"/remove", nil).RequireStatus(t, http.StatusOK)
	coach.Get(t, of+"/erase").RequireText(t, "main", "Erase Levi?", "What they decided stays")
	coach.Post(t, of+"/erase", url.Values{"name": {"Ines"}}).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#name-error", "Type the name")
	gone := coach.Post(t, of+"/erase", name).RequireStatus(t, http.StatusOK).RequireText(t, "[role=status]", "Erased").TextOf(t, "main")
	if strings.Contains(gone, "Levi") || strings.Contains(gone, "Removed") {
		t.Errorf("the club's page still says %s", gone)
	}
	coach.Post(t, of+"/restore", nil).RequireStatus(t, http.StatusNotFound)
	coach.Post(t, of+"/erase", name).RequireStatus(t, http.StatusNotFound)
}

func TestEverything_IsAFile(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	set := site.RecordBreaks(t, site.StudentActor(0), 3)
	if err := site.Store.PostMessage(t.Context(), site.StudentActor(0), store.MessageID{}, set, "Further out?"); err != nil {
		t.Fatal(err)
	}
	recorded, err := site.Store.GetSet(t.Context(), site.Coach, set)
	if err != nil {
		t.Fatal(err)
	}
	out := store.BreakCorrection{Set: set, Break: recorded.Breaks[1].ID, Revision: 1, Reason: "The rack fell."}
	if err := site.Store.CorrectBreak(t.Context(), site.Coach, out, nil); err != nil {
		t.Fatal(err)
	}
	coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	for _, got := range []*webtest.Page{coach.Get(t, "/students/"+site.Students[0].ID.String()+"/everything"), student.Get(t, "/my/everything")} {
		parts := unzip(t, got.Text)
		if strings.Count(parts["breaks.csv"], "\n") != 3 || !strings.Contains(parts["struck.csv"], "taken-out,coach,The rack fell.,") || !strings.Contains(parts["everything.json"], "Further out?") || !strings.Contains(parts["read me.txt"], "breaks.csv") {
			t.Errorf("%s holds %q", got.Path, parts)
		}
	}
	coach.Get(t, "/students/"+site.Coach.Person.String()+"/everything").RequireStatus(t, http.StatusNotFound)
}

// The club's file is what the shell brings back, and the log says who took it.
func TestClubFile_IsTakenFromItsPage(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	site.RecordBreaks(t, site.StudentActor(0), 3)
	coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	at := coach.Get(t, "/club").RequireStatus(t, http.StatusOK).AttributeOf(t, "a[href='/club/file']", "href")
	got := coach.Get(t, coach.Get(t, at).AttributeOf(t, "a.button", "href")).RequireStatus(t, http.StatusOK)
	file, err := store.ReadClubFile(strings.NewReader(got.Text), int64(len(got.Text)))
	if err != nil || file.RowsOf("break") != 3 || file.RowsOf("person") != 4 || file.Name != "Harbour Lane" {
		t.Errorf("the file holds %d breaks of %d people of %q (%v)", file.RowsOf("break"), file.RowsOf("person"), file.Name, err)
	}
	coach.Get(t, "/audit").RequireText(t, "tbody", "Ines exported all that the club recorded")
	for _, path := range []string{at, "/club/file.zip"} {
		student.Get(t, path).RequireStatus(t, http.StatusForbidden)
	}
}

func unzip(t *testing.T, file string) map[string]string {
	t.Helper()
	z, err := zip.NewReader(strings.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		parts[f.Name] = string(text)
	}
	return parts
}

// Nobody needs to be known to read it.
func TestPrivacy_IsForAnyone(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	site.NewClient(t).Get(t, "/privacy").RequireStatus(t, http.StatusOK).RequireText(t, "main", "What a phone keeps")
	site.NewClient(t).Get(t, "/sign-in").RequireText(t, "footer", "Privacy")
}

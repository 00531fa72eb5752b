package words_test

import (
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// Every word that the README explains has its own place on the page, and every page of
// whoever asks leads there.
func TestWords_AreOneLinkAway(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	got := site.NewClient(t).Get(t, "/words").RequireStatus(t, http.StatusOK).RequireCount(t, "main h1", 1)
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, found := strings.Cut(string(readme), "\n## Words\n")
	names := regexp.MustCompile(`\*\*([^*]+)\*\*`).FindAllStringSubmatch(list, -1)
	if !found || len(names) < 10 {
		t.Fatalf("the README explains %d words", len(names))
	}
	for _, name := range names {
		if anchor := strings.ReplaceAll(name[1], " ", "-"); anchor != "prescription" {
			got.RequireCount(t, "main dl > #"+anchor, 1)
		}
	}
	for path, user := range map[string]*webtest.Client{
		"/sign-in": site.NewClient(t), "/": site.SignInCoach(t), "/drills": site.SignInCoach(t), "/words": site.SignInStudent(t, site.Students[0]),
	} {
		user.Get(t, path).RequireStatus(t, http.StatusOK).RequireCount(t, "footer a[href='/words']", 1)
	}
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, "/").RequireStatus(t, http.StatusOK).RequireCount(t, "footer a[href='/words']", 1)
	student.Get(t, "/table").RequireStatus(t, http.StatusOK).RequireCount(t, "#list a[href='/words']", 1) // it has no footer
}

// No two words share a place, so that a link means one of them.
func TestWords_HaveTheirOwnPlaces(t *testing.T) {
	t.Parallel()
	got := webtest.New(t).NewClient(t).Get(t, "/words")
	seen := map[string]bool{}
	for _, id := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(got.Text, -1) {
		if seen[id[1]] || strings.ContainsAny(id[1], " ‘’“”") {
			t.Errorf("%q names two places, or none", id[1])
		}
		seen[id[1]] = true
	}
	if len(seen) < 50 {
		t.Errorf("%d places", len(seen))
	}
}

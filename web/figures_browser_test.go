//go:build !quick

package web_test

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// papers are the pages that are made to be printed.
var papers = regexp.MustCompile(`/(?:sheet|sheets|codes|card|report)\b[^.]*$`)

var countWords = regexp.MustCompile(`\d of \d`)

// What comes out of the printer is as sayable as the screen, in inches and in
// centimetres: the text is taken out of the printed file itself.
func TestPaper_SaysNoMoreFiguresThanACoachWould(t *testing.T) {
	sc := oddClub(t)
	site := webtest.NewOverScene(t, sc)
	w := browser.OpenWindow(t, browser.Laptop)
	for who, client := range map[string]*webtest.Client{"coach": site.SignInCoach(t), "student": site.SignInStudent(t, sc.Students[0])} {
		w.UseCookies(site.URL, client.Cookies(t))
		paths := slices.Sorted(maps.Keys(crawlPages(t, client)))
		paths = slices.DeleteFunc(paths, func(path string) bool {
			return !papers.MatchString(path) || strings.Contains(path, "?") || strings.HasPrefix(path, "/my/training") || strings.HasPrefix(path, "/students/") && !strings.Contains(path, sc.Students[0].ID.String())
		})
		for _, kind := range map[string][]string{
			"coach": {"/sheet", "/codes", "/students/.*/card", "/students/.*/report", "/classes/.*/report"}, "student": {"/my/report", "/my/card"},
		}[who] {
			if !slices.ContainsFunc(paths, regexp.MustCompile(kind+"$").MatchString) {
				t.Errorf("the %s was not led to %s: %v", who, kind, paths)
			}
		}
		for _, units := range []store.UnitChoice{store.Inches, store.Centimetres} {
			setUnits(t, sc, units)
			counts := 0
			for _, path := range paths {
				w.Navigate(site.URL + path)
				text := w.ReadPrinted()
				where := who + ", paper of " + path
				requireSayable(t, where, text)
				if found := inchWords.FindString(text); found != "" && units == store.Centimetres {
					t.Errorf("%s: %q", where, found)
				}
				counts += len(countWords.FindAllString(text, -1))
			}
			if counts < 4 {
				t.Errorf("only %d counts stand on the papers of the %s", counts, who)
			}
		}
	}
}

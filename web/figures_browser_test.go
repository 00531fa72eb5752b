//go:build !quick

package web_test

import (
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// papers are the pages that are made to be printed.
var papers = regexp.MustCompile(`/(?:sheet|sheets|codes|card|report)\b[^.]*$`)

// What comes out of the printer is as sayable as the screen, in inches and in
// centimetres: the text is taken out of the printed file itself.
func TestPaper_SaysNoMoreFiguresThanACoachWould(t *testing.T) {
	sc := oddClub(t)
	site := webtest.NewOverScene(t, sc)
	w := browser.OpenWindow(t, browser.Laptop)
	for _, units := range []store.UnitChoice{store.Inches, store.Centimetres} {
		setUnits(t, sc, units)
		counts := 0
		for who, client := range map[string]*webtest.Client{"coach": site.SignInCoach(t), "student": site.SignInStudent(t, sc.Students[0])} {
			w.UseCookies(site.URL, client.Cookies(t))
			seen := map[string]bool{}
			for path := range crawlPages(t, client) {
				kind := papers.FindString(path)
				if kind == "" || seen[kind] {
					continue
				}
				seen[kind] = true
				w.Navigate(site.URL + path)
				text := w.ReadPrinted()
				where := who + ", paper of " + path
				requireSayable(t, where, text)
				if said := inchesSaid.FindString(text); said != "" && units == store.Centimetres {
					t.Errorf("%s: %q", where, said)
				}
				counts += strings.Count(text, " of 10")
			}
			for _, kind := range map[string][]string{"coach": {"/sheet", "/codes", "/card", "/report"}, "student": {"/report", "/card"}}[who] {
				if !seen[kind] {
					t.Errorf("the %s printed no %s: %v", who, kind, seen)
				}
			}
		}
		if counts < 5 {
			t.Errorf("on all papers %d counts stand", counts)
		}
	}
}

package rules_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/web/webtest"
)

func TestList_SaysEachRuleInWords(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	list := s.coach.Get(t, "/rules").RequireStatus(t, http.StatusOK)
	list.RequireCount(t, ".rule-list > li", len(advice.Catalogue()))
	list.RequireText(t, "main .answer", "All have their standard values.").RequireText(t, "main", "No sets in the last 30 days")
	for _, rule := range advice.Catalogue() {
		list.RequireText(t, ".rule-list #"+string(rule.Name), rule.Title, rule.Pattern, rule.Answer)
		if rule.Source != advice.UsualPractice {
			list.RequireText(t, ".rule-list #"+string(rule.Name), "Source: "+rule.Source)
		}
		if rule.Support != "" {
			list.RequireText(t, ".rule-list #"+string(rule.Name), rule.Support[1:])
		}
	}
	if n := strings.Count(list.TextOf(t, "main"), "common practice"); n != 1 {
		t.Errorf("“common practice” stands %d times on the page, once is meant", n)
	}
	list.RequireText(t, "#balls-off-table", "Speaks from the first break on, when it is at least 85 % sure that the share of breaks in which a ball leaves the table is over 5 %.")
	list.RequireText(t, "#cue-ball-forward", "Its step is 0.1 radius of tip height.", "80 % is enough")
	list.RequireText(t, "#weighing", "proposed when it is at least 80 % sure that it helps, and at most 12 % that it harms")
	list.RequireText(t, "#worth-scratch", "A scratch", "costs 1")
	list.RequireText(t, ".rule-table", "Gaps in the rack", "The rack is checked before anything is changed.")
	list.RequireText(t, "#head-ball-path", "Switched off: it never speaks.")
	list.RequireCount(t, "#outside-limits a, #new-table a", 0)
	list.RequireCount(t, "nav a[href='/rules'][aria-current]", 1)
	list.RequireText(t, "main", "Nobody has changed a rule yet.")
}

func TestList_CountsTheLastMonth(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	s.record(t, s.StudentActor(0), 3, 0)
	s.record(t, s.StudentActor(1), 5, 3)
	list := s.coach.Get(t, "/rules").RequireStatus(t, http.StatusOK)
	list.RequireText(t, "main", "means the 2 sets of the last 30 days")
	list.RequireText(t, "#wing-miss-balance", "spoke in 1 of 2 sets")
	list.RequireText(t, "#balls-off-table", "spoke in 1 of 2 sets")
	list.RequireText(t, "#no-shot", "spoke in 0 of 2 sets")
}

func TestRules_AreForTheClubsCoaches(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	student := s.SignInStudent(t, s.Students[0])
	nobody := s.NewClient(t).WithoutRedirects()
	for _, path := range []string{"/rules", balance} {
		student.Get(t, path).RequireStatus(t, http.StatusForbidden)
		nobody.Get(t, path).RequireStatus(t, http.StatusSeeOther)
	}
	form := url.Values{"rule": {"unsteady"}, "revision": {"0"}, "standard": {"yes"}}
	for _, path := range []string{"/rules", "/rules/try"} {
		student.Post(t, path, form).RequireStatus(t, http.StatusForbidden)
	}
}

// Another club on the same site keeps its own rules, counts and history.
func TestRules_OfTwoClubs(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	other := webtest.NewOverScene(t, addScene(t, s))
	s.record(t, s.StudentActor(0), 3, 0)
	s.coach.Post(t, "/rules", s.typed(t, balance, "line", "70")).RequireStatus(t, http.StatusOK)
	theirs := other.SignInCoach(t).Get(t, "/rules")
	theirs.RequireText(t, "main .answer", "All have their standard values.").RequireText(t, "main", "No sets in the last 30 days", "Nobody has changed a rule yet.")
	s.coach.Get(t, "/rules").RequireText(t, "main .answer", "One has your club’s own numbers.")
}

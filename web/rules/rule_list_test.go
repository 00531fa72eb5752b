package rules_test

import (
	"net/http"
	"net/url"
	"testing"

	"breakwright/internal/advice"
	"breakwright/web/webtest"
)

func TestList_SaysEachRuleInWords(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	list := s.coach.Get(t, "/rules").Status(t, http.StatusOK)
	list.Count(t, ".rule-list > li", len(advice.Catalogue()))
	list.Has(t, "main .answer", "All are as they come.").Has(t, "main", "No set was closed in the last 30 days")
	for _, rule := range advice.Catalogue() {
		list.Has(t, ".rule-list #"+string(rule.Name), rule.Title, rule.Pattern, rule.Answer, "Source: "+rule.Source)
	}
	list.Has(t, "#balls-off-table", "Speaks from the first break on, when it is at least 85 % sure that the share of breaks in which a ball leaves the table is over 5 %.")
	list.Has(t, "#cue-ball-forward", "Its step is 0.1 radius of tip height.", "80 % is enough")
	list.Has(t, "#head-ball-path", "Switched off: it never speaks.")
	list.Count(t, "#outside-limits a, #new-table a", 0)
	list.Count(t, "nav a[href='/rules'][aria-current]", 1)
	list.Has(t, "main", "Nobody has changed a rule yet.")
}

func TestList_CountsTheLastMonth(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	s.record(t, s.StudentActor(0), 3, 0)
	s.record(t, s.StudentActor(1), 5, 3)
	list := s.coach.Get(t, "/rules").Status(t, http.StatusOK)
	list.Has(t, "main", "2 sets closed in the last 30 days")
	list.Has(t, "#wing-miss-balance", "spoke in 1 of 2 sets")
	list.Has(t, "#balls-off-table", "spoke in 1 of 2 sets")
	list.Has(t, "#no-shot", "spoke in 0 of 2 sets")
}

func TestRules_AreForTheClubsCoaches(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	student := s.StudentIn(t, s.Students[0])
	nobody := s.Nobody(t).Still()
	for _, path := range []string{"/rules", balance} {
		student.Get(t, path).Status(t, http.StatusForbidden)
		nobody.Get(t, path).Status(t, http.StatusSeeOther)
	}
	form := url.Values{"rule": {"unsteady"}, "revision": {"0"}, "standard": {"yes"}}
	for _, path := range []string{"/rules", "/rules/try"} {
		student.Post(t, path, form).Status(t, http.StatusForbidden)
	}
}

// Another club on the same site keeps its own rules, counts and history.
func TestRules_OfTwoClubs(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	other := webtest.Over(t, addScene(t, s))
	s.record(t, s.StudentActor(0), 3, 0)
	s.coach.Post(t, "/rules", s.typed(t, balance, "line", "70")).Status(t, http.StatusOK)
	theirs := other.CoachIn(t).Get(t, "/rules")
	theirs.Has(t, "main .answer", "All are as they come.").Has(t, "main", "No set was closed", "Nobody has changed a rule yet.")
	s.coach.Get(t, "/rules").Has(t, "main .answer", "One has your club’s own numbers.")
}

package rules_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store/storetest"
)

func addScene(t *testing.T, s site) storetest.Scene { return storetest.AddScene(t, s.Store) }

func TestSave_AndBackToTheStandard(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	form := s.typed(t, balance, "line", "62,5", "min_breaks", "20")
	saved := s.coach.Post(t, "/rules", form).RequireStatus(t, http.StatusOK)
	if saved.Path != "/rules" {
		t.Errorf("came to %s", saved.Path)
	}
	saved.RequireText(t, ".notice.good", "Wing ball misses on one side: saved. Speaks from 20 breaks on", "over 62.5 %")
	saved.RequireText(t, "#wing-miss-balance .tag", "your own").RequireText(t, "#wing-miss-balance", "Yours: act above 62.5 % instead of 60 %, fewest breaks 20 instead of 8.")
	saved.RequireText(t, ".changes", "Ines, change 1", "Wing ball misses on one side", "act above 62.5 % instead of 60 %")
	want := drill.RuleSetting{Rule: "wing-miss-balance", Line: new(0.625), MinBreaks: new(20)}
	if got := s.rules(t); got.Revision != 1 || !got.SettingOf(want.Rule).Equal(want) {
		t.Errorf("kept %+v", got)
	}
	s.coach.Post(t, "/rules", form).RequireStatus(t, http.StatusOK) // a second click
	if got := s.rules(t); got.Revision != 1 {
		t.Errorf("a second click made revision %d", got.Revision)
	}
	back := s.coach.Get(t, "/rules").FormValues(t, "#wing-miss-balance form")
	back.Set("standard", "yes")
	s.coach.Post(t, "/rules", back).RequireStatus(t, http.StatusOK).RequireText(t, "main .answer", "All have their standard values.").RequireText(t, ".changes", "back to the standard")
	if got := s.rules(t); got.Revision != 2 || !got.SettingOf(want.Rule).IsStandard() {
		t.Errorf("back to the standard is %+v", got)
	}
}

func TestSave_RefusesBesideTheField(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	for _, c := range []struct{ field, typed, says string }{
		{"line", "NaN", "number of percent"}, {"line", "100", "a share"}, {"line", "-1", "a share"}, {"line", "1e9", "a share"},
		{"certainty", "100", "above 50"}, {"certainty", "50", "above 50"}, {"certainty", "<script>", "number of percent"},
		{"onward", "99.9", "Going on takes"}, {"onward", "Infinity", "number of percent"},
		{"step", "0", "A step is above 0"}, {"step", "-4", "A step is above 0"}, {"step", "1e9", "A step is above 0"}, {"step", "", "Write a number, for example"},
		{"min_breaks", "-1", "fewest breaks"}, {"min_breaks", "501", "fewest breaks"}, {"min_breaks", "8.5", "whole number"},
		{"min_breaks", strings.Repeat("9", 300), "whole number"}, {"on", "perhaps", "Choose on or off"},
	} {
		for _, path := range []string{"/rules", "/rules/try"} {
			got := s.coach.Post(t, path, s.typed(t, balance, c.field, c.typed)).RequireStatus(t, http.StatusUnprocessableEntity)
			got.RequireText(t, ".error", c.says)
			if c.field != "on" && got.AttributeOf(t, "input[name="+c.field+"]", "value") != c.typed {
				t.Errorf("%s %q was not kept", c.field, c.typed)
			}
		}
	}
	if got := s.rules(t); got.Revision != 0 {
		t.Errorf("something was saved: %+v", got)
	}
}

func TestSave_TheRuleOfSafetyHasAFloor(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	const danger = "/rules/change?rule=balls-off-table"
	page := s.coach.Get(t, danger).RequireStatus(t, http.StatusOK)
	page.RequireText(t, ".notice.care", "cannot be switched off", "can hurt somebody").RequireCount(t, "input[name=on]", 0)
	for field, typed := range map[string]string{"line": "11", "certainty": "91", "onward": "95", "step": "0.4", "min_breaks": "11"} {
		s.coach.Post(t, "/rules", s.typed(t, danger, field, typed)).RequireStatus(t, http.StatusUnprocessableEntity).RequireCount(t, "#"+field+"-error", 1)
	}
	s.coach.Post(t, "/rules", s.typed(t, danger, "on", "off", "line", "3")).RequireStatus(t, http.StatusOK)
	if got := s.rules(t).SettingOf("balls-off-table"); got.On != nil || got.Line == nil || *got.Line != 0.03 {
		t.Errorf("stricter, and switched off by a forged form: %+v", got)
	}
}

func TestSave_AStalePageOverwritesNothing(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	stale := s.typed(t, balance, "line", "70")
	s.coach.Post(t, "/rules", s.typed(t, balance, "line", "65")).RequireStatus(t, http.StatusOK)
	got := s.coach.Post(t, "/rules", stale).RequireStatus(t, http.StatusConflict)
	got.RequireText(t, ".notice.care", "Ines set this rule otherwise", "act above 65 % instead of 60 %")
	if v := got.AttributeOf(t, "input[name=line]", "value"); v != "70" {
		t.Errorf("what was typed came back as %q", v)
	}
	if l := s.rules(t).SettingOf("wing-miss-balance").Line; *l != 0.65 {
		t.Errorf("overwritten with %v", *l)
	}
	again := got.FormValues(t, "main form[action='/rules']:has(.field)")
	s.coach.Post(t, "/rules", again).RequireStatus(t, http.StatusOK)
	if l := s.rules(t).SettingOf("wing-miss-balance").Line; *l != 0.70 {
		t.Errorf("sent again knowingly, it is %v", *l)
	}
	// The list can be stale, too.
	s.coach.Post(t, "/rules", url.Values{"rule": {"wing-miss-balance"}, "revision": {"1"}, "standard": {"yes"}}).RequireStatus(t, http.StatusConflict).
		RequireText(t, ".notice.care", "act above 70 %")
	for _, revision := range []string{"", "x", "-7"} {
		s.coach.Post(t, "/rules", url.Values{"rule": {"wing-miss-balance"}, "revision": {revision}, "standard": {"yes"}}).RequireStatus(t, http.StatusConflict)
	}
}

func TestRules_ThatAreNotThere(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	for _, name := range []string{"", "no-such-rule", "outside-limits", "new-table", "<script>", strings.Repeat("x", 500)} {
		s.coach.Get(t, "/rules/change?rule="+url.QueryEscape(name)).RequireStatus(t, http.StatusNotFound)
		for _, path := range []string{"/rules", "/rules/try"} {
			s.coach.Post(t, path, url.Values{"rule": {name}, "revision": {"0"}, "standard": {"yes"}}).RequireStatus(t, http.StatusNotFound)
		}
	}
}

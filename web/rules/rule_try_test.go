package rules_test

import (
	"net/http"
	"testing"

	"breakwright/internal/store"
)

func TestTry_SaysWhatWouldHaveBeenSaid(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	set := s.record(t, s.StudentActor(0), 3, 0) // the balance of misses speaks
	s.record(t, s.StudentActor(1), 9, 0)        // nothing does
	tried := s.coach.Post(t, "/rules/try", s.typed(t, balance, "line", "90")).RequireStatus(t, http.StatusOK)
	tried.RequireText(t, ".tried .answer", "Another answer in 1 of 2 sets of the last 30 days.")
	tried.RequireText(t, ".tried", "This rule would have spoken in 0 of 2 sets, instead of 1.", "One set would have got no change where one was asked for.")
	tried.RequireText(t, ".tried li", "Odile,", "would have said “", "instead of “Move the cue ball", "inches out").RequireCount(t, ".tried li", 1)
	tried.RequireCount(t, ".tried li a[href='/sets/"+set.String()+"']", 1)
	if v := tried.AttributeOf(t, "input[name=line]", "value"); v != "90" {
		t.Errorf("the form came back with %q", v)
	}
	if got := s.rules(t); got.Revision != 0 {
		t.Errorf("trying saved %+v", got)
	}
	s.coach.Post(t, "/rules/try", s.typed(t, balance)).RequireStatus(t, http.StatusOK).
		RequireText(t, ".tried .answer", "Nothing would have been said differently in the 2 sets").RequireCount(t, ".tried li", 0)
	off := s.coach.Post(t, "/rules/try", s.typed(t, balance, "on", "off")).RequireStatus(t, http.StatusOK)
	off.RequireText(t, ".tried", "would have spoken in 0 of 2 sets")
}

// What is in force is what a trial is compared with, and what a coach had
// decided stays decided.
func TestTry_AgainstWhatIsInForce(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	odile := s.StudentActor(0)
	first := s.record(t, odile, 3, 0)
	p, err := s.Store.GetSet(t.Context(), s.Coach, first)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Store.DecidePrescription(t.Context(), s.Coach, p.Prescription.ID, store.Decision{Answer: store.Declined}); err != nil {
		t.Fatal(err)
	}
	s.record(t, s.StudentActor(1), 3, 0)
	s.coach.Post(t, "/rules", s.typed(t, balance, "on", "off")).RequireStatus(t, http.StatusOK)
	tried := s.coach.Post(t, "/rules/try", s.typed(t, balance, "on", "on")).RequireStatus(t, http.StatusOK)
	tried.RequireText(t, ".tried", "would have spoken in 2 of 2 sets, instead of 0", "2 sets would have got a change where none was asked for.")
}

func TestTry_WithNothingToTryOn(t *testing.T) {
	t.Parallel()
	s := newSite(t)
	s.coach.Post(t, "/rules/try", s.typed(t, balance, "line", "90")).RequireStatus(t, http.StatusOK).
		RequireText(t, ".tried", "no set was closed in the last 30 days").RequireCount(t, ".tried li", 0)
}

package say

import "testing"

func TestRoughShare_IsNoFinerThanItIsKnown(t *testing.T) {
	for share, want := range map[float64]string{
		0: "less than 1 in 20", 0.049: "less than 1 in 20", 0.05: "about 1 in 10", 0.24: "about 2 in 10",
		0.5: "about 5 in 10", 0.84: "about 8 in 10", 0.86: "9 in 10 or more", 1: "9 in 10 or more",
	} {
		if got := RoughShare(share); got != want {
			t.Errorf("%v: %q, want %q", share, got, want)
		}
	}
}

func TestCauseName_OfOneNobodyKnows(t *testing.T) {
	if got := CauseName("draughty room"); got != "Draughty room" {
		t.Error(got)
	}
	if CauseAnswer("draughty room") != "" || CauseAnswer("loose rack") == "" {
		t.Error("a cause's answer")
	}
}

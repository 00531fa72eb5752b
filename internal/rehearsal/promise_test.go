package rehearsal

import (
	"math"
	"slices"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/belief"
	"breakwright/internal/drill"
)

// Promises of a student whose true rates are known: what was said beside what is so.
func TestListPromises_HoldsWhatWasSaidAgainstTheTruth(t *testing.T) {
	s := Student{byWorth: true, Fault: Tip}
	before, now, next := drill.Setup{Tip: 0.2}, drill.Setup{Tip: 0.1}, drill.Setup{Tip: 0}
	rates := newRateCounter(s, 1)
	rates.usualBreaks, rates.fineBreaks = 100, 100
	rates.counts[condition{setup: before}] = &breakCounts{breaks: 100, scratch: 40, wing: 20}
	rates.counts[condition{setup: now}] = &breakCounts{breaks: 100, scratch: 20, wing: 20}
	rates.counts[condition{setup: next}] = &breakCounts{breaks: 100, scratch: 10, clean: 60}
	advised := advice.Advice{
		Next: next, Causes: []advice.Cause{{Name: "tip", Share: 0.6}, {Name: "nothing", Share: 0.2}},
		Prescription: &advice.Prescription{HelpP: 0.9, LookFor: &advice.Expectation{What: advice.ExpectDown, Share: 0.5}},
		FollowUp:     &advice.FollowUp{Measure: "scratches", Outcome: advice.Hurt, HurtP: 0.96},
	}
	got := listPromises(s, &advised, []drill.Setup{before, now, now}, condition{setup: now}, rates)
	want := []promise{
		{promiseHelps, 0.9, 1}, {promiseLookFor, 0.5, 0.6},
		{promiseHurt, 0.96, 0}, // scratches went from 40 to 20 in a hundred: it helped
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%d: %+v, want %+v", i, got[i], want[i])
		}
	}
	advised.FollowUp.Measure = "wing ball"
	advised.FollowUp.Outcome = advice.NoDifference
	if got := listPromises(s, &advised, []drill.Setup{before, now}, condition{setup: now}, rates); got[2].actual != 1 {
		t.Errorf("the wing ball fell as often as before: %+v", got[2])
	}
}

// What was amiss at the start may be no more once something was changed, or the rack checked.
func TestListPromises_OfACauseUntilSomethingChanges(t *testing.T) {
	s := Student{byWorth: true, Fault: Tip}
	first, second := drill.Setup{Tip: 0.2}, drill.Setup{Tip: 0.1}
	advised := advice.Advice{Causes: []advice.Cause{{Name: "tip", Share: 0.6}, {Name: "nothing", Share: 0.2}}}
	for _, c := range []struct {
		setups  []drill.Setup
		checked bool
		want    []promise
	}{
		{[]drill.Setup{first}, false, []promise{{promiseCause, 0.6, 1}}},
		{[]drill.Setup{first, first}, false, []promise{{promiseCause, 0.6, 1}}},
		{[]drill.Setup{first, first}, true, nil},
		{[]drill.Setup{first, second}, false, nil},
	} {
		under := condition{c.setups[len(c.setups)-1], c.checked}
		if got := listPromises(s, &advised, c.setups, under, newRateCounter(s, 1)); !slices.Equal(got, c.want) {
			t.Errorf("after %v, rack checked %v: %+v, want %+v", c.setups, c.checked, got, c.want)
		}
	}
}

// Too much power and a stroke that scatters are one; too little power is not.
func TestHasCause_OfForcedStrokes(t *testing.T) {
	forced := Student{Fault: Speed, Remedies: []Remedy{{Variable: advice.VarySpeed}}}
	soft := Student{Fault: Speed, Remedies: []Remedy{{Variable: advice.VarySpeed, Up: true}}}
	for _, c := range []struct {
		of    Student
		cause belief.Cause
		want  bool
	}{
		{forced, belief.Speed, true}, {forced, belief.Unsteady, true}, {forced, belief.Tip, false},
		{soft, belief.Speed, true}, {soft, belief.Unsteady, false},
		{Student{Fault: Steadiness}, belief.Unsteady, true}, {Student{Fault: Steadiness}, belief.Speed, false},
		{Student{Fault: NoFault}, belief.Nothing, true},
	} {
		if got := c.of.hasCause(c.cause); got != c.want {
			t.Errorf("%s amiss of %s, %+v: %v", c.cause, c.of.Fault, c.of.Remedies, got)
		}
	}
}

func TestCountPromises_KeepsTheUnmovedApart(t *testing.T) {
	helped := promise{promiseHelped, 0.97, 1}
	moved := promisedStudent{fault: Tip, promises: []promise{helped, {promiseHelped, 0.95, 0}}, setsAfterChange: 5}
	unmovedOne := promisedStudent{fault: NoEffect, promises: []promise{helped}, setsAfterChange: 2}
	for _, row := range countPromises([]promisedStudent{moved, unmovedOne}) {
		if row.Promise == string(promiseHelped) {
			if row.Made != 2 || row.Came.Mean != 0.5 || row.OfUnmoved.Count != 1 || row.OfUnmoved.Of != 2 {
				t.Errorf("%+v", row)
			}
		} else if row.Made != 0 {
			t.Errorf("%+v was never said", row)
		}
	}
}

// Two are told that nothing is amiss, as likely as not. Of one it is so: where 34 in a hundred
// have nothing amiss and 13 the tip, that is 34 of 47, give or take 1.96 times the root of
// 2·(34·13/47)²·2, over 47.
func TestCountPromises_CausesAreAsCommonAsTheyAreTakenToBe(t *testing.T) {
	told := func(f Fault, is float64) promisedStudent {
		return promisedStudent{fault: f, promises: []promise{{promiseCause, 0.5, is}}}
	}
	for _, row := range countPromises([]promisedStudent{told(NoFault, 1), told(Tip, 0)}) {
		if row.Promise != string(promiseCause) {
			continue
		}
		mean, half := 34.0/47, 1.96*math.Sqrt(2*math.Pow(34*13/47.0, 2)*2)/47
		if math.Abs(row.Came.Mean-mean) > 1e-12 || math.Abs(row.Came.High-mean-half) > 1e-12 || row.Claimed != 0.5 || row.Made != 2 {
			t.Errorf("%+v, want %.4f ± %.4f", row, mean, half)
		}
	}
}

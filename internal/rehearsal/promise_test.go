package rehearsal

import (
	"testing"

	"breakwright/internal/advice"
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
		{promiseCause, advised.Causes[0].CautiousShare(), 1}, // as people read it
		{promiseHurt, 0.96, 0},                               // scratches went from 40 to 20 in a hundred: it helped
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
	if got := listPromises(s, &advised, []drill.Setup{before, now}, condition{setup: now}, rates); got[3].actual != 1 {
		t.Errorf("the wing ball fell as often as before: %+v", got[3])
	}
}

func TestCountPromises_KeepsTheUnmovedApart(t *testing.T) {
	helped := promise{promiseHelped, 0.97, 1}
	moved := studentOutcome{student: Student{Fault: Tip}, advised: trainingRun{promises: []promise{helped, {promiseHelped, 0.95, 0}}}}
	setups := []drill.Setup{{Tip: 0.1}, {Tip: 0.2}, {Tip: 0.2}, {Tip: 0.2}}
	unmovedOne := studentOutcome{student: Student{Fault: NoEffect}, advised: trainingRun{setups: setups, promises: []promise{helped}}}
	for _, row := range countPromises([]studentOutcome{moved, unmovedOne}) {
		if row.Promise == string(promiseHelped) {
			if row.Made != 2 || row.Came.Mean != 0.5 || row.OfUnmoved.Count != 1 || row.OfUnmoved.Of != 2 {
				t.Errorf("%+v", row)
			}
		} else if row.Made != 0 {
			t.Errorf("%+v was never said", row)
		}
	}
}

//go:build !race

package rehearsal

import (
	"bytes"
	"context"
	"errors"
	"math"
	"strings"
	"testing"
)

func TestRun_PartsMakeTheWhole(t *testing.T) {
	r := runRehearsal(t, Options{Students: 20, Sets: 2, Seed: 3, Faults: []Fault{Place, Speed}})
	whole := map[Fault]int{}
	var names []string
	for _, row := range r.Rows {
		names = append(names, row.rowLabel())
		if row.Part == "" {
			if row.Students != 20 || row.Helpable.Of != 20 {
				t.Errorf("%s has %d students", row.rowLabel(), row.Students)
			}
			continue
		}
		whole[row.Fault] += row.Students
	}
	// Both are parted twice, by what is noted and by sort.
	if whole[Place] != 40 || whole[Speed] != 40 {
		t.Errorf("parts %v of %v", whole, names)
	}
}

func TestRun_StopsWhenAsked(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, Options{Students: MostStudents, Sets: MostSets}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
	for _, p := range []Options{{Students: 0, Sets: 6}, {Students: 5, Sets: 0}, {Students: MostStudents + 1, Sets: 6}, {Students: 5, Sets: MostSets + 1},
		{Students: 5, Sets: 6, Table: 1}, {Students: 5, Sets: 6, Table: Tables + 1, Model: PhysicsModel}, {Students: 5, Sets: 6, Table: -1, Model: PhysicsModel}} {
		if _, err := Run(context.Background(), p); err == nil {
			t.Errorf("%+v was held", p)
		}
	}
}

func TestReport_TextIsWellFormed(t *testing.T) {
	r := runRehearsal(t, Options{Students: 4, Sets: 2, Seed: 2})
	var page bytes.Buffer
	if err := r.WriteText(&page); err != nil {
		t.Fatal(err)
	}
	tables, cells := 0, 0
	for _, line := range strings.Split(page.String(), "\n") {
		if !strings.HasPrefix(line, "|") {
			cells = 0
			continue
		}
		if cells == 0 {
			tables++
			cells = strings.Count(line, "|")
		}
		if strings.Count(line, "|") != cells {
			t.Errorf("%d cells, want %d: %s", strings.Count(line, "|"), cells, line)
		}
	}
	if tables != 3 || strings.Contains(page.String(), "NaN") || strings.Contains(page.String(), "%!") {
		t.Errorf("%d tables:\n%s", tables, page.String())
	}
}

// Wilson 95 % for 5 of 10 is .2366 to .7634 (Brown, Cai and DasGupta 2001 give
// the formula). The mean of 1, 2, 3 has standard deviation 1, so 2 ± 1.96/√3.
func TestReport_Intervals(t *testing.T) {
	var students []studentOutcome
	for i := range 10 {
		students = append(students, studentOutcome{start: Rates{Good: float64(i % 2)}})
	}
	s := shareOf(students, func(o studentOutcome) bool { return o.start.Good == 1 })
	if s.Count != 5 || s.Of != 10 || math.Abs(s.Low-0.2366) > 5e-5 || math.Abs(s.High-0.7634) > 5e-5 {
		t.Errorf("%+v", s)
	}
	three := []studentOutcome{{start: Rates{Good: 1}}, {start: Rates{Good: 2}}, {start: Rates{Good: 3}}}
	m := meanOf(three, func(o studentOutcome) float64 { return o.start.Good })
	if half := 1.96 / math.Sqrt(3); math.Abs(m.Mean-2) > 1e-12 || math.Abs(m.High-2-half) > 1e-12 || math.Abs(2-m.Low-half) > 1e-12 {
		t.Errorf("%+v", m)
	}
	if m := meanOf(three[:1], func(o studentOutcome) float64 { return o.start.Good }); m != (Mean{1, 1, 1}) {
		t.Errorf("of one student %+v", m)
	}
}

func TestReport_Medians(t *testing.T) {
	var students []studentOutcome
	for _, after := range []int{0, 1, 3, 4, 0} {
		students = append(students, studentOutcome{best: bestChange{value: 1}, advised: trainingRun{changedAfter: after, trueRates: closeAfterSets(after)}})
	}
	list, after := countFirstChanges(students)
	if after != 3 || list[0].Students != 3 || list[1].Students != 2 {
		t.Errorf("firsts %v after %v", list, after)
	}
	if got := setsUntilHalfClose(students); got != 4 {
		t.Errorf("half near best after %d sets, want 4", got)
	}
	if got := setsUntilHalfClose(students[:2]); got != 1 {
		t.Errorf("one of two after %d sets, want 1", got)
	}
	if got := setsUntilHalfClose(students[:1]); got != 0 {
		t.Errorf("nobody after %d sets", got)
	}
}

// closeAfterSets is a course of true rates that is best after n sets; never for 0.
func closeAfterSets(n int) []Rates {
	truths := make([]Rates, 7)
	for i := range truths {
		if n > 0 && i >= n {
			truths[i].Good = 1
		}
	}
	return truths
}

func BenchmarkRun_OneFault(b *testing.B) {
	for b.Loop() {
		if r := runRehearsal(b, Options{Students: 20, Sets: 6, Seed: 1, Faults: []Fault{Place}}); len(r.Rows) == 0 {
			b.Fatal("no rows")
		}
	}
}

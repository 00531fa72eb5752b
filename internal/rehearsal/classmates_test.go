//go:build !quick

package rehearsal

import (
	"bytes"
	"strings"
	"testing"
)

// In a class each is judged beside the first two sets of all the others and not beside their
// own; who is rehearsed alone is judged beside nobody's.
func TestGatherClass_EachBesideAllOthers(t *testing.T) {
	p, from, err := Options{Students: 2, Sets: 1, Seed: 6, Faults: []Fault{Speed, NoFault}, Model: PhysicsModel, Table: 7}.complete()
	if err != nil {
		t.Fatal(err)
	}
	c, err := p.gatherClass(t.Context(), from)
	if err != nil {
		t.Fatal(err)
	}
	for fault := range p.Faults {
		for student := range p.Students {
			s, _, _ := p.drawStudent(from, fault, student)
			if beside := c.tablesBeside(fault, student).TablesPlay(s.Start); beside.Breaks != 60 {
				t.Errorf("student %d of fault %d is judged beside %d breaks", student, fault, beside.Breaks)
			}
			if first, _, _ := p.drawStudent(from, 0, 0); s.Kind != first.Kind {
				t.Errorf("student %d of fault %d stands at %v, the first at %v", student, fault, s.Kind, first.Kind)
			}
		}
	}
	p.Table = 0
	s, _, _ := p.drawStudent(from, 0, 0)
	if alone, err := p.gatherClass(t.Context(), from); err != nil || alone.tablesBeside(0, 0).TablesPlay(s.Start).IsKnown() {
		t.Errorf("alone: %v, %+v", err, alone)
	}
}

// What others showed reaches the adviser, and the page says so.
func TestRun_AsAClass(t *testing.T) {
	p, from, err := Options{Students: 6, Sets: 2, Seed: 6, Faults: []Fault{Contact}, Model: PhysicsModel, Table: 7}.complete()
	if err != nil {
		t.Fatal(err)
	}
	from.usualBreaks, from.fineBreaks = 60, 60
	from.findBest = func(s Student, t *rateCounter) bestChange {
		return bestChange{s.Start, s.valueOf(t.fineRates(s.Start))}
	}
	class, err := p.hold(t.Context(), from)
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := class.WriteText(&page); err != nil || !strings.Contains(page.String(), "--model physics --table 7 --students 6") || !strings.Contains(page.String(), "All stand at table 7") {
		t.Errorf("%v\n%s", err, page.String())
	}
	beside, err := p.countPromises(t.Context(), from)
	if err != nil {
		t.Fatal(err)
	}
	p.Table = 0
	apart, err := p.countPromises(t.Context(), from) // the same students at the same table
	if err != nil {
		t.Fatal(err)
	}
	if promised(beside) == promised(apart) {
		t.Errorf("beside one another and alone %+v is promised", apart.Promises)
	}
}

func promised(r PromiseReport) (sum float64) {
	for _, row := range r.Promises {
		sum += row.Claimed
	}
	return sum
}

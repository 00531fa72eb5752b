package belief_test

import (
	"math"
	"reflect"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// ofStrangeTable turns computed breaks into those of tables on which the cue ball comes
// back to the head rail where it was computed to run forward, whoever strikes it.
func ofStrangeTable(breaks []drill.Break) []drill.Break {
	turned := append([]drill.Break(nil), breaks...)
	for i := range turned {
		if turned[i].CuePath == drill.PathForward || turned[i].CuePath == drill.PathHit {
			turned[i].CuePath = drill.PathHeadRail
			turned[i].Cue.Place.Y = 100 - turned[i].Cue.Place.Y
		}
	}
	return turned
}

// What everybody's breaks show is the tables': strokes as they should be are cleared by
// what others showed, and suspected more without.
func TestShown_OthersClearAStrokeOnAStrangeTable(t *testing.T) {
	sound := func(*breaksim.BreakInput) {}
	var others belief.Shown
	for student := range uint64(12) {
		shown := belief.Show(nineBall, table.NineFoot(), setup(), ofStrangeTable(breaksOf(t, 20, sound, 100+student)))
		others.Add(shown)
	}
	without, with := 0.0, 0.0
	const students = 8
	for student := range uint64(students) {
		own := ofStrangeTable(breaksOf(t, 15, sound, 7+student))
		alone, _ := belief.NewStudent(nineBall, drill.TablesPlay{})
		among, _ := belief.NewStudent(nineBall, others.TablesPlay())
		for _, s := range []*belief.Student{alone, among} {
			s.Observe(table.NineFoot(), setup(), own)
		}
		without, with = without+alone.ShareOf(belief.Nothing)/students, with+among.ShareOf(belief.Nothing)/students
	}
	if without > 0.7 {
		t.Fatalf("the strange table is no trial: nothing is amiss with %.2f", without)
	}
	if with < without+0.05 {
		t.Errorf("nothing is amiss with %.2f, %.2f without the others", with, without)
	}
}

// deadTable is one on which balls come off one another and off the cushions with little left.
func deadTable() breaksim.ModelParams {
	p := breaksim.Defaults()
	for _, row := range breaksim.ListParams() {
		switch row.Key {
		case "restitution", "cushion-restitution":
			row.SetValueIn(&p, row.Low)
		case "slide", "roll", "cushion-friction", "friction-floor":
			row.SetValueIn(&p, row.High)
		}
	}
	return p
}

// What others' breaks show of a table at one speed tells what breaks at another speed show
// there, which nobody has played: how many balls cross the head string.
func TestShown_TellsHowATablePlaysUnderAnotherSetup(t *testing.T) {
	sound := func(*breaksim.BreakInput) {}
	var others belief.Shown
	for student := range uint64(20) {
		others.Add(belief.Show(nineBall, table.NineFoot(), setup(), breaksOn(t, deadTable(), 20, sound, 300+student)))
	}
	softer := setup()
	softer.Speed -= 5
	came := belief.Show(nineBall, table.NineFoot(), softer, breaksOn(t, deadTable(), 400, func(in *breaksim.BreakInput) { in.Speed = softer.Speed }, 9))
	alone, _ := belief.NewStudent(nineBall, drill.TablesPlay{})
	among, _ := belief.NewStudent(nineBall, others.TablesPlay())
	from, to := response.OutcomesOf(response.PastString)
	apart := func(s *belief.Student) float64 {
		sum := 0.0
		for i, share := range s.OrdinaryShares(table.NineFoot(), softer)[from:to] {
			sum += math.Abs(share - came.Seen[from+i]/400)
		}
		return sum
	}
	without, with := apart(alone), apart(among)
	if without < 0.2 {
		t.Fatalf("the dead table is no trial: what comes differs by %.2f from what is computed", without)
	}
	if with > without/4 {
		t.Errorf("what comes differs by %.2f from what is expected, by %.2f without the others", with, without)
	}
}

// Others who show just what was computed say nothing new, and a fault is still found.
func TestShown_AFaultIsStillFoundAmongOthers(t *testing.T) {
	var others belief.Shown
	for student := range uint64(8) {
		others.Add(belief.Show(nineBall, table.NineFoot(), setup(), breaksOf(t, 20, func(*breaksim.BreakInput) {}, 200+student)))
	}
	s, _ := belief.NewStudent(nineBall, others.TablesPlay())
	s.Observe(table.NineFoot(), setup(), breaksOf(t, 30, func(in *breaksim.BreakInput) { in.Contact = -0.4 }, 5))
	if share := s.ShareOf(belief.Contact) + s.ShareOf(belief.Place); share < 0.6 {
		t.Errorf("contact or place with %.2f: %v", share, s.CauseShares())
	}
}

func TestShown_TakenOutAgainIsNeverAdded(t *testing.T) {
	one := belief.Show(nineBall, table.NineFoot(), setup(), breaksOf(t, 20, func(*breaksim.BreakInput) {}, 1))
	two := belief.Show(nineBall, table.NineFoot(), setup(), breaksOf(t, 20, func(in *breaksim.BreakInput) { in.Speed = 11 }, 2))
	var sum belief.Shown
	sum.Add(one)
	sum.Add(two)
	sum.Subtract(two)
	if !reflect.DeepEqual(sum, one) {
		t.Errorf("got %v, want %v", sum, one)
	}
}

// Every fact is expected as often as it was seen, however little was written down.
func TestShow_ExpectsAsManyAsWereSeen(t *testing.T) {
	breaks := breaksOf(t, 20, func(*breaksim.BreakInput) {}, 3)
	for i := range breaks {
		breaks[i].CuePath, breaks[i].WingMiss = "", ""
		if i%2 == 0 {
			breaks[i].Rails = nil
		}
	}
	shown := belief.Show(nineBall, table.NineFoot(), setup(), breaks)
	for f := range response.FactCount {
		from, to := response.OutcomesOf(response.Fact(f))
		seen, expected := 0.0, 0.0
		for i := from; i < to; i++ {
			seen += shown.Seen[i]
			expected += shown.Expected[i]
		}
		if math.Abs(seen-expected) > 1e-3 {
			t.Errorf("%s: seen %.4f, expected %.4f", response.Fact(f), seen, expected)
		}
	}
	if from, _ := response.OutcomesOf(response.Wing); shown.Seen[from] == 0 {
		t.Error("no wing ball was counted")
	}
}

func TestShown_NobodyStandsForAClub(t *testing.T) {
	shown := belief.Show(nineBall, table.NineFoot(), setup(), breaksOf(t, 60, func(*breaksim.BreakInput) {}, 4))
	shown.Limit()
	from, to := response.OutcomesOf(response.Scratch)
	breaks := 0.0
	for i := from; i < to; i++ {
		breaks += shown.Seen[i]
	}
	if math.Abs(breaks-20) > 1e-9 {
		t.Errorf("sixty breaks of one student count as %.1f", breaks)
	}
}

// What is expected on two tables that differ by less than strokes are told apart by is
// each table's own, whichever was asked for first: a class's advice does not depend on
// the order of its students.
func TestShow_ExpectsOfTheTableItself(t *testing.T) {
	breaks := breaksOf(t, 10, func(*breaksim.BreakInput) {}, 9)
	other := table.NineFoot()
	other.CornerMouth += 0.04
	first := belief.Show(nineBall, table.NineFoot(), setup(), breaks)
	if second := belief.Show(nineBall, other, setup(), breaks); reflect.DeepEqual(first.Expected, second.Expected) {
		t.Error("a corner 0.04 in wider is expected to give the very same")
	}
}

// What was kept of a model with other numbers says nothing, and what is of this one does.
func TestNewStudent_ReadsOnlyWhatItsModelWrote(t *testing.T) {
	var others belief.Shown
	for student := range uint64(8) {
		others.Add(belief.Show(nineBall, table.NineFoot(), setup(), breaksOn(t, deadTable(), 20, func(*breaksim.BreakInput) {}, 400+student)))
	}
	expected := func(tables drill.TablesPlay) belief.Parts {
		s, _ := belief.NewStudent(nineBall, tables)
		return s.Expect(table.NineFoot(), setup())
	}
	nobody, kept := expected(drill.TablesPlay{}), others.TablesPlay()
	if expected(kept) == nobody {
		t.Fatal("a dead table is expected to play as any other")
	}
	for name, spoil := range map[string]func(*drill.TablesPlay){
		"character":  func(p *drill.TablesPlay) { p.Character = p.Character[1:] },
		"spread":     func(p *drill.TablesPlay) { p.Spread = append(p.Spread, 1) },
		"departures": func(p *drill.TablesPlay) { p.Departures = p.Departures[1:] },
		"breaks":     func(p *drill.TablesPlay) { p.Breaks = 0 },
	} {
		other := kept
		if spoil(&other); expected(other) != nobody {
			t.Errorf("read with another %s", name)
		}
	}
}

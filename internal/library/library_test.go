package library

import (
	"regexp"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// kinds are tables of every size, with ordinary, tight and wide pockets.
func kinds(t *testing.T) []table.Kind {
	t.Helper()
	var all []table.Kind
	for _, feet := range []int{7, 8, 9} {
		for _, mouths := range [][2]table.Inches{{0, 0}, {table.TightestMouth, table.TightestMouth}, {table.WidestMouth, table.WidestMouth}} {
			k, err := table.NewKind(feet, mouths[0], mouths[1])
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, k)
		}
	}
	return all
}

func TestDrill_CanBeAskedOfAnyoneOnEveryTable(t *testing.T) {
	for _, l := range AllLessons() {
		for _, g := range l.Games {
			for _, k := range kinds(t) {
				d := l.DrillFor(g, k)
				for _, side := range []table.Side{table.Left, table.Right} {
					turned := d.ForSide(side)
					if err := turned.Check(); err != nil {
						t.Errorf("%s, %s, %s, from the %s: %v", l.Key, g, k, side, err)
					}
					if turned.Setup.Side != side {
						t.Errorf("%s from the %s is from the %s", l.Key, side, turned.Setup.Side)
					}
				}
				if d.Setup != d.Setup.Rounded() {
					t.Errorf("%s, %s, %s: the setup is finer than setups are kept: %+v", l.Key, g, k, d.Setup)
				}
			}
		}
	}
}

// A drill of a lesson may be carried to another size of table, as a set on
// another table is.
func TestDrill_CanBeCarried(t *testing.T) {
	for _, l := range AllLessons() {
		for _, g := range l.Games {
			for _, from := range kinds(t) {
				for _, to := range kinds(t) {
					if err := l.DrillFor(g, from).Setup.CarryToKind(from, to).Check(to); err != nil {
						t.Errorf("%s, %s, from %s to %s: %v", l.Key, g, from, to, err)
					}
				}
			}
		}
	}
}

func TestLessons_AreToldApart(t *testing.T) {
	key := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	k := table.NineFoot()
	keys, names, setups := map[string]bool{}, map[string]bool{}, map[drill.Setup]string{}
	for _, l := range AllLessons() {
		if !key.MatchString(l.Key) || keys[l.Key] {
			t.Errorf("key %q is no key or there twice", l.Key)
		}
		keys[l.Key] = true
		if l.Purpose == "" || l.Watch == "" || !l.HasGame(rack.NineBall) {
			t.Errorf("%s: says nothing, or is not for nine-ball", l.Key)
		}
		for _, g := range l.Games {
			name := l.DrillFor(g, k).Name
			if names[name] {
				t.Errorf("two drills are named %q", name)
			}
			names[name] = true
		}
		if found, ok := FindLesson(l.Key); !ok || found.Name != l.Name {
			t.Errorf("%s is not found", l.Key)
		}
		setups[l.DrillFor(rack.NineBall, k).Setup] = l.Key
	}
	if len(keys) != 8 {
		t.Errorf("%d lessons, not eight", len(keys))
	}
	// Only what is watched differs between finding the wing ball and the low balls.
	if len(setups) != len(keys)-1 {
		t.Errorf("%d setups for %d lessons", len(setups), len(keys))
	}
	if _, ok := FindLesson("no-such-lesson"); ok {
		t.Error("a lesson that is not there was found")
	}
}

// The trade's words about the rack are true of the rack: the 2 and the 3 stand
// in the second row, and the shuffled rack is not the practice rack.
func TestLessons_SayWhatIsRacked(t *testing.T) {
	low, _ := FindLesson("low-balls-up-the-table")
	shuffled, _ := FindLesson("shuffled-rack")
	for _, g := range low.Games {
		d := low.DrillFor(g, table.NineFoot())
		if !d.Targets.WatchLeave() {
			t.Errorf("%s: %q, but nobody asks at the table", g, low.Watch)
		}
		order := d.Setup.Order
		for _, slot := range []rack.Slot{"2L", "2R"} {
			if b, _ := order.BallAt(g, slot); b != 2 && b != 3 {
				t.Errorf("%s: the %s stands in %s", g, b, slot)
			}
		}
	}
	for _, g := range shuffled.Games {
		order := shuffled.DrillFor(g, table.NineFoot()).Setup.Order
		same := 0
		for i, b := range g.PracticeOrder(table.Left).Balls() {
			if order.Balls()[i] == b {
				same++
			}
		}
		if same > 4 {
			t.Errorf("%s: %d of %d balls stand as in the practice rack", g, same, g.BallCount())
		}
	}
}

// A lesson is read in clubs of either units, so that it names none: forms and pages say
// the numbers in the club's own.
func TestLessons_NameNoUnit(t *testing.T) {
	unit := regexp.MustCompile(`(?i)\b(inch|inches|mile|miles|mph|mm|cm|centimetres?|kilometres?|km/h)\b`)
	for _, l := range AllLessons() {
		for _, words := range []string{l.Name, l.Purpose, l.Watch, l.DrillFor(rack.NineBall, table.NineFoot()).Watch} {
			if found := unit.FindString(words); found != "" {
				t.Errorf("%s speaks of %q: %s", l.Key, found, words)
			}
		}
	}
}

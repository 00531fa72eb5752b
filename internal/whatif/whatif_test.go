package whatif

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// steady is the scatter of a practised breaker (assumed).
var steady = breaksim.StrokeScatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2, Gap: 0.003}

func question(breaks int) Question {
	k := table.NineFoot()
	return Question{
		Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k), Window: k.StandardWindow(),
		Scatter: steady, Breaks: breaks,
	}
}

func run(t testing.TB, q Question) Answer {
	t.Helper()
	a, err := RunBreaks(t.Context(), q, nil)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The counts are those of the breaks looked at one by one.
func TestRun_CountsAreThoseOfTheBreaks(t *testing.T) {
	q := question(60)
	a := run(t, q)
	made, scratched, dry, lowHead := 0, 0, 0, 0
	for i := range q.Breaks {
		r, err := ReplayBreak(q, i)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range r.Pocketed {
			if p.Ball == q.Setup.WingBall() && p.Pocket == table.FootLeft {
				made++
			}
		}
		if r.CueBallEnd().End == breaksim.Dropped {
			scratched++
		}
		if r.IsDry() {
			dry++
		}
		one, _ := r.BallInSlot(rack.HeadSlot)
		if one.Ball != 1 {
			t.Fatalf("the %s stands in front", one.Ball)
		}
		if one.End == breaksim.Stopped && one.Place.Y <= 50 {
			lowHead++
		}
	}
	for _, c := range []struct {
		what  string
		event BreakEvent
		want  int
	}{
		{"wing ball made", WingMade, made}, {"scratches", Scratched, scratched}, {"dry breaks", DryBreak, dry},
		{"the 1 at the head end", LowHeadEnd(0), lowHead},
	} {
		got := a.CountEvent(c.event)
		if got.Made != c.want || got.Of != q.Breaks {
			t.Errorf("%s: %d of %d, counted one by one %d of %d", c.what, got.Made, got.Of, c.want, q.Breaks)
		}
		if rate := float64(got.Made) / float64(got.Of); !got.Range.Contains(rate) {
			t.Errorf("%s: %+v leaves out %g", c.what, got.Range, rate)
		}
	}
	if made == 0 || scratched+dry+lowHead == 0 {
		t.Error("nothing happened in sixty breaks: the test shows little")
	}
}

// The events of the wing ball, of the cue ball and of each low ball part all
// breaks: each break is counted once.
func TestEvents_PartAllBreaks(t *testing.T) {
	q := question(60)
	q.Scatter.Aim = 2 // wild, so that much happens
	a := run(t, q)
	parts := map[string][]BreakEvent{
		"wing ball": {WingMade, WingElsewhere, WingOff},
		"cue ball":  {InWindow, CueHeadEnd, CueFootEnd, CueOff},
		"scratches": {CueOff, InWindow, CueHeadEnd, CueFootEnd},
		"the 2":     {LowPocketed(1), LowHeadEnd(1), LowFootEnd(1), func(b SimulatedBreak) bool { return b.Low[1].End == breaksim.OffTable }},
	}
	for _, met := range []breaksim.FirstMet{"", breaksim.MetSideRail, breaksim.MetFootRail, breaksim.MetHeadRail, breaksim.MetBall, breaksim.MetJaws, breaksim.MetPocket} {
		parts["wing ball"] = append(parts["wing ball"], WingStayed(met))
	}
	parts["cue ball"] = append(parts["cue ball"], Scratched)
	for _, p := range table.Pockets() {
		parts["scratches"] = append(parts["scratches"], ScratchedIn(p))
	}
	for what, events := range parts {
		for i, b := range a.Breaks {
			n := 0
			for _, e := range events {
				if e(b) {
					n++
				}
			}
			if n != 1 {
				t.Errorf("%s: break %d is counted %d times: %+v", what, i, n, b)
			}
		}
	}
}

func TestRun_MirroredQuestionMirroredAnswer(t *testing.T) {
	q := question(40)
	q.Setup.Contact, q.Setup.Spin = -0.2, 0.1
	left, right := run(t, q), run(t, q.Mirror())
	for i, b := range left.Breaks {
		m := right.Breaks[i]
		if b.Wing.End != m.Wing.End || b.WingMade != m.WingMade || b.InWindow != m.InWindow || b.Down != m.Down ||
			b.Cue.Place != m.Cue.Place.Mirror() || b.Low[2].Place != m.Low[2].Place.Mirror() {
			t.Fatalf("break %d: %+v, mirrored %+v", i, b, m)
		}
	}
	for _, p := range table.Pockets() {
		if a, b := left.CountEvent(ScratchedIn(p)), right.CountEvent(ScratchedIn(p.Mirror())); a != b {
			t.Errorf("scratches in %s: %+v, mirrored %+v", p, a, b)
		}
	}
	if twice := q.Mirror().Mirror(); twice != q {
		t.Errorf("mirrored twice: %+v", twice)
	}
}

func TestRun_SameQuestionSameAnswer(t *testing.T) {
	q := question(20)
	if a, b := run(t, q), run(t, q); !reflect.DeepEqual(a, b) {
		t.Error("the same question was answered differently")
	}
	// More breaks go on where fewer stop.
	more := q
	more.Breaks = 30
	if a, b := run(t, q), run(t, more); !reflect.DeepEqual(a.Breaks, b.Breaks[:20]) {
		t.Error("thirty breaks do not begin like twenty")
	}
}

func TestRun_StopsWhenNobodyWaits(t *testing.T) {
	left := errors.New("they left")
	ctx, stop := context.WithCancelCause(t.Context())
	reported := 0
	_, err := RunBreaks(ctx, question(MostBreaks), func(done int) {
		reported = done
		if done >= 20 {
			stop(left)
		}
	})
	if !errors.Is(err, left) {
		t.Fatalf("stopped with %v", err)
	}
	if reported != 20 {
		t.Errorf("went on to break %d after it was stopped at 20", reported)
	}
}

func TestCheck_RefusesBesideTheField(t *testing.T) {
	for field, change := range map[string]func(*Question){
		"cue_x":         func(q *Question) { q.Setup.Cue.X = 40 },
		"tip":           func(q *Question) { q.Setup.Tip = 0.9 },
		"speed":         func(q *Question) { q.Setup.Speed = 0 },
		"window":        func(q *Question) { q.Window.Head = 90; q.Window.Foot = 10 },
		"scatter_aim":   func(q *Question) { q.Scatter.Aim = -1 },
		"scatter_speed": func(q *Question) { q.Scatter.Speed = 6 },
		"scatter_tip":   func(q *Question) { q.Scatter.Tip = 1 },
		"scatter_place": func(q *Question) { q.Scatter.Place = 4 },
		"scatter_gap":   func(q *Question) { q.Scatter.Gap = 0.2 },
		"number":        func(q *Question) { q.Breaks = MostBreaks + 1 },
	} {
		q := question(5)
		change(&q)
		_, err := RunBreaks(t.Context(), q, nil)
		var problems drill.Problems
		if !errors.As(err, &problems) || problems.MessageFor(field) == "" {
			t.Errorf("%s: %v", field, err)
		}
		if q.Key() == question(5).Key() {
			t.Errorf("%s: another question has the same key", field)
		}
	}
}

func TestKey_IsThatOfTheCanonicalQuestion(t *testing.T) {
	q, near := question(5), question(5)
	near.Setup.Tip += 0.001
	near.Scatter.Aim += 0.0001
	if q.Key() != near.Key() || near.Canonical() != q.Canonical() {
		t.Errorf("%s and %s", q.Key(), near.Key())
	}
	if q.Key() == q.Mirror().Key() {
		t.Error("the mirrored question has the same key")
	}
}

func TestLow_IsNeverTheWingBall(t *testing.T) {
	k := table.NineFoot()
	for _, c := range []struct {
		game rack.Game
		want []rack.Ball
	}{{rack.NineBall, []rack.Ball{1, 2, 3}}, {rack.TenBall, []rack.Ball{1, 2, 3}}} {
		q := Question{Setup: drill.StandardSetup(c.game, table.Right, k)}
		if got := q.LowBalls(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v", c.game, got)
		}
	}
	q := question(1)
	q.Setup.Order, _ = q.Setup.Order.SwapSlots(rack.NineBall, q.Setup.Wing, "2L")
	if got := q.LowBalls(); slices.Contains(got, q.Setup.WingBall()) || len(got) != 3 {
		t.Errorf("with the %s at the wing: %v", q.Setup.WingBall(), got)
	}
	q.Setup = drill.StandardSetup(rack.EightBall, table.Left, k)
	head := q.Setup.HeadBall()
	if got := q.LowBalls(); len(got) != 3 || got[0] != head {
		t.Errorf("eight-ball: %v", got)
	}
}

func TestUsual_IsOfTheCommonestSort(t *testing.T) {
	a := run(t, question(40))
	count := map[[2]int]int{}
	for _, b := range a.Breaks {
		count[fateClass(b)]++
	}
	for sort, n := range count {
		if n > count[fateClass(a.Breaks[a.TypicalBreak()])] {
			t.Errorf("%v happened %d times, more often than the usual", sort, n)
		}
	}
	i, found := a.FirstBreakWith(WingMade)
	if !found || !a.Breaks[i].WingMade || slices.ContainsFunc(a.Breaks[:i], WingMade) {
		t.Errorf("break %d (%v) is not the first with the wing ball made", i, found)
	}
	if _, found := a.FirstBreakWith(func(SimulatedBreak) bool { return false }); found {
		t.Error("what never happens was found")
	}
}

func BenchmarkRun_ThreeHundred(b *testing.B) {
	for b.Loop() {
		run(b, question(300))
	}
}

package advice

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// drawHistory draws either kind of history.
func drawHistory(t *rapid.T) []drill.Set {
	rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 11))
	if rapid.Bool().Draw(t, "any") {
		return randomHistory(rng)
	}
	return leaningHistory(rng)
}

// kindOf is the kind of table of the latest set with a break.
func kindOf(sets []drill.Set) (k table.Kind, setup drill.Setup, any bool) {
	for _, set := range sets {
		if len(set.Breaks) > 0 {
			k, setup, any = set.Kind, set.Setup, true
		}
	}
	return k, setup, any
}

func TestJudge_NextIsAlwaysCompleteAndWithinLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sets := drawHistory(t)
		k, setup, any := kindOf(sets)
		if !any {
			return
		}
		a := Judge(sets, Brief{})
		if err := a.Next.Check(k); err != nil {
			t.Fatalf("next setup: %v", err)
		}
		if setup.Speed != 0 && a.Next.Speed == 0 || a.Next.Order.IsZero() || a.Next.Side != setup.Side {
			t.Fatalf("next setup is not complete: %+v", a.Next)
		}
	})
}

func TestJudge_OneChangeAtMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sets := drawHistory(t)
		k, setup, any := kindOf(sets)
		if !any || withinLimits(setup.ForSide(table.Left), k) != setup.ForSide(table.Left) {
			return // what lies outside the limits is brought back besides
		}
		a := Judge(sets, Brief{})
		from := setup
		if from.Speed == 0 {
			from.Speed = a.Next.Speed // none was told
		} else if diff := math.Abs(float64(from.Speed - a.Next.Speed)); diff > 0 && diff < smallestSpeedChange {
			t.Fatalf("the speed changes from %v to %v, too little to be told", from.Speed, a.Next.Speed)
		}
		m := compareRecords(&setupRecord{setup: from.ForSide(table.Left)}, &setupRecord{setup: a.Next.ForSide(table.Left)})
		switch {
		case a.Verdict == Change && m.variable != a.Prescription.Variable:
			t.Fatalf("prescribes %s, but %s changes: %+v to %+v", a.Prescription.Variable, m.variable, setup, a.Next)
		case a.Verdict != Change && !m.drift:
			t.Fatalf("verdict %s, but the setup changes: %+v to %+v", a.Verdict, setup, a.Next)
		}
	})
}

// A part that is at its limit while the cue ball is lost too often: one history in some
// thousand asked for none more.
func TestJudge_AsksForBreaksWhereAPartIsAtItsLimit(t *testing.T) {
	a := Judge(randomHistory(rand.New(rand.NewPCG(0x65585, 11))), Brief{})
	if a.Verdict != More || a.BreaksNeeded == nil || *a.BreaksNeeded < drill.UsualBreaks {
		t.Errorf("verdict %s with breaks needed %v", a.Verdict, a.BreaksNeeded)
	}
}

func TestJudge_TheShapeOfTheAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Judge(drawHistory(t), Brief{})
		switch {
		case (a.Verdict == More) != (a.BreaksNeeded != nil):
			t.Fatalf("verdict %s with breaks needed %v", a.Verdict, a.BreaksNeeded)
		case a.BreaksNeeded != nil && (*a.BreaksNeeded < 1 || *a.BreaksNeeded > 40):
			t.Fatalf("%d more breaks", *a.BreaksNeeded)
		case a.Verdict == Change && (a.Prescription == nil || a.Prescription.Variable == VaryNone):
			t.Fatalf("a change of nothing: %+v", a.Prescription)
		case a.Verdict == More && a.Prescription != nil:
			t.Fatalf("more breaks and a prescription: %+v", a.Prescription)
		case a.Says == "":
			t.Fatal("no word of answer")
		}
		for _, f := range a.Findings {
			if f.Says == "" || f.Count > f.Of || f.Low > f.Rate || f.High < f.Rate || !(f.Certainty >= 0 && f.Certainty <= 1) {
				t.Fatalf("finding %+v", f)
			}
		}
		// encoding/json refuses NaN and infinities.
		if text, err := json.Marshal(a); err != nil || strings.Contains(string(text), "-0,") {
			t.Fatalf("JSON: %v: %s", err, text)
		}
	})
}

func TestJudge_FewBreaksChangeNothingButDangerAndLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 12))
		setup := randomSetup(rng, table.NineFoot())
		set := drill.Set{Student: "Odile", Name: "a1", Table: "North", Kind: table.NineFoot(), Setup: setup}
		for j := range 1 + rng.IntN(fewestBreaks-1) {
			set.Breaks = append(set.Breaks, randomBreak(rng, setup, set.Kind, j+1))
		}
		a := Judge([]drill.Set{set}, Brief{})
		if a.Verdict == Change && a.Prescription.Rule != RuleDanger && a.Prescription.Rule != RuleLimits {
			t.Fatalf("%d breaks, yet %s changes %s", len(set.Breaks), a.Prescription.Rule, a.Prescription.Variable)
		}
	})
}

func TestJudge_SameBreaksSameWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sets := drawHistory(t)
		first, second := Judge(sets, Brief{}), Judge(sets, Brief{})
		if !reflect.DeepEqual(first, second) {
			t.Fatalf("twice the same history:\n%+v\n%+v", first, second)
		}
	})
}

func TestJudge_OrderWithinASetDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sets := drawHistory(t)
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "shuffle"), 13))
		shuffled := slices.Clone(sets)
		for i := range shuffled {
			shuffled[i].Breaks = slices.Clone(shuffled[i].Breaks)
			rng.Shuffle(len(shuffled[i].Breaks), func(a, b int) {
				bs := shuffled[i].Breaks
				bs[a], bs[b] = bs[b], bs[a]
			})
		}
		if first, second := Judge(sets, Brief{}), Judge(shuffled, Brief{}); !reflect.DeepEqual(first, second) {
			t.Fatalf("shuffled within the sets:\n%+v\n%+v", first, second)
		}
	})
}

// The same set twice is never less sure of a pattern that is beyond its line, and never
// told to change the same part the other way. Unsteadiness is not held to the first: it
// asks that nothing points one way, and twice the breaks may show that something does.
func TestJudge_TwiceTheSameIsNoLessSure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 14))
		set := leaningHistory(rng)[0]
		once := Judge([]drill.Set{set}, Brief{})
		twice := Judge([]drill.Set{set, set}, Brief{})
		if twice.Stint.Breaks != 2*once.Stint.Breaks {
			t.Fatalf("%d breaks pooled, want %d", twice.Stint.Breaks, 2*once.Stint.Breaks)
		}
		for _, f := range once.Findings {
			for _, g := range twice.Findings {
				if f.Rule == g.Rule && f.Fired && f.Rule != RuleUnsteady && g.Certainty < f.Certainty-1e-9 {
					t.Fatalf("%s: %.4f once, %.4f twice (%d of %d)", f.Rule, f.Certainty, g.Certainty, f.Count, f.Of)
				}
			}
		}
		if once.Verdict != Change || twice.Verdict != Change || once.Prescription.Variable != twice.Prescription.Variable {
			return
		}
		v := once.Prescription.Variable
		if partDifference(v, set.Setup, once.Next)*partDifference(v, set.Setup, twice.Next) < 0 {
			t.Fatalf("once: %s; twice: %s", once.Says, twice.Says)
		}
	})
}

// A break from the right is a break from the left, seen in a mirror.
func TestJudge_Mirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sets := drawHistory(t)
		left, right := Judge(sets, Brief{}), Judge(mirrorHistory(sets), Brief{})
		if len(left.Stint.Used) == 0 {
			return
		}
		if right.Next != left.Next.Mirror() {
			t.Fatalf("next %+v, want the mirror of %+v", right.Next, left.Next)
		}
		if right.Verdict != left.Verdict || !reflect.DeepEqual(right.Findings, left.Findings) || right.Checks == nil != (left.Checks == nil) {
			t.Fatalf("%s and %s;\n%+v\n%+v", left.Verdict, right.Verdict, left.Findings, right.Findings)
		}
		l, r := left.Prescription, right.Prescription
		if (l == nil) != (r == nil) {
			t.Fatalf("prescriptions %+v and %+v", l, r)
		}
		if l != nil {
			checkMirrored(t, *l, *r)
		}
		if lf, rf := left.FollowUp, right.FollowUp; lf != nil && (lf.Says != rf.Says || lf.Outcome != rf.Outcome || lf.HurtP != rf.HurtP) {
			t.Fatalf("follow-ups %+v and %+v", lf, rf)
		}
		if lp, rp := left.Places, right.Places; lp != nil && rp.Best != table.FlipSign(lp.Best) {
			t.Fatalf("best places %v and %v", lp.Best, rp.Best)
		}
	})
}

// turnContact is a hit at the head ball as from the other side.
var turnContact = strings.NewReplacer("left of full", "right of full", "right of full", "left of full")

func checkMirrored(t *rapid.T, l, r Prescription) {
	t.Helper()
	turn := func(v float64) float64 { return v }
	switch l.Variable {
	case VaryPlace, VaryContact, VarySpin:
		turn = func(v float64) float64 { return table.FlipSign(v) }
	case VaryRack:
		return // the words name the order, which is mirrored
	}
	if r.From.Number != turn(l.From.Number) || r.To.Number != turn(l.To.Number) {
		t.Fatalf("%s from %v to %v, mirrored from %v to %v", l.Variable, l.From, l.To, r.From, r.To)
	}
	if math.Signbit(r.To.Number) && r.To.Number == 0 || math.Signbit(l.To.Number) && l.To.Number == 0 {
		t.Fatal("a negative zero")
	}
	if r.Reason != turnContact.Replace(l.Reason) || r.Expect != l.Expect || r.Rule != l.Rule || r.Unit != l.Unit {
		t.Fatalf("words differ:\n%+v\n%+v", l, r)
	}
}

func FuzzJudge(f *testing.F) {
	f.Add(uint64(1), uint64(2))
	f.Fuzz(func(t *testing.T, a, b uint64) {
		rng := rand.New(rand.NewPCG(a, b))
		sets := randomHistory(rng)
		// Even a set that no check would let through must not bring it down.
		if len(sets) > 0 && rng.IntN(3) == 0 {
			sets[0].Setup.Cue.X = table.Inches(pickRandom(rng, math.NaN(), math.Inf(1), 1e300))
			sets[0].Kind = table.Kind{}
		}
		advice := Judge(sets, Brief{})
		if _, err := json.Marshal(advice); err != nil {
			t.Fatal(err)
		}
	})
}

// A student who breaks from the box is never told to leave it, and would be at times
// if there were none.
func TestJudge_NeverLeavesTheBreakBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkBreakBox(t, drawHistory(t)) })
	for n := range uint64(100) {
		if checkBreakBox(t, leaningHistory(rand.New(rand.NewPCG(n, 11)))) {
			return
		}
	}
	t.Error("nobody would leave a box that is not there")
}

// checkBreakBox has the history's breaks made from a box, and reports whether the next
// ones would be made from elsewhere without it.
func checkBreakBox(t rapid.TB, sets []drill.Set) (leaves bool) {
	t.Helper()
	const box table.Inches = 8
	for i := range sets {
		sets[i].Setup = sets[i].Setup.KeepInBox(box)
	}
	_, setup, any := kindOf(sets)
	if !any {
		return false
	}
	a := Judge(sets, Brief{House: drill.HouseRules{BreakBox: box}})
	if !a.Next.InBox(box) {
		t.Fatalf("from %v told to break from %v", setup.Cue, a.Next.Cue)
	}
	return !Judge(sets, Brief{}).Next.InBox(box)
}

package advice

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"sort"
	"strconv"
	"strings"
	"sync"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// toy is a virtual student whose breaks follow one of two simple laws that
// have nothing in common but the trade's directions. They are here to see that
// the rules hold for students in general, not to be fitted.
type toy struct {
	name string
	// start is the setup the student begins with; bias is what the body adds
	// to what it is told.
	start         drill.Setup
	contactBias   float64
	tipBias       float64
	best          float64 // place out, in
	peak          float64 // wing rate at best
	steady        float64 // 1 is ordinary, 2 is twice the scatter
	lean          float64 // share of balanced misses that look long
	curved        bool    // which law
	seen          float64 // share of misses written down
	want          Variable
	sign          float64
	measuredSpeed bool
	harsh         bool // more that looks like a pattern and is none
}

func (y toy) offset(s drill.Setup) float64 {
	return float64(out(s)) - y.best - placePerContact*(float64(s.Contact)+y.contactBias)
}

func (y toy) scatter(s drill.Setup) float64 {
	fast := math.Max(0, float64(s.Speed)-19)
	return y.steady * (1 + 0.15*fast)
}

// rates gives the true chances of wing ball and window under a setup, by
// playing many breaks.
func (y toy) rates(s drill.Setup) (wing, window float64) {
	rng := rand.New(rand.NewPCG(1, 2))
	const n = 2000
	for range n {
		b := y.play(rng, s)
		if b.WingMade(s) {
			wing++
		}
		if b.InWindow(table.NineFoot().StandardWindow()) {
			window++
		}
	}
	return wing / n, window / n
}

func (y toy) play(rng *rand.Rand, s drill.Setup) drill.Break {
	var b drill.Break
	d, sc := y.offset(s), y.scatter(s)
	made, long := y.wing(rng, d, sc)
	if made {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.WingBall(), Pocket: table.FootLeft})
	} else if rng.Float64() < y.seen {
		b.WingMiss = drill.MissSideRail
		switch {
		case long && rng.Float64() < 0.7:
			b.WingMiss = drill.MissFootRail
		case long:
			b.WingMiss = drill.MissKissed
		case rng.Float64() < 0.2 || y.harsh && rng.Float64() < 0.3:
			b.WingMiss = drill.MissJaws
		}
		if rng.Float64() < 0.08 || y.harsh && rng.Float64() < 0.15 {
			b.WingMiss = drill.MissKissed
		}
	} else {
		b.WingMiss = drill.MissUnknown
	}
	y.cue(rng, s, &b, sc)
	if y.measuredSpeed {
		b.Speed = table.Mph(math.Round((float64(s.Speed)+rng.NormFloat64()*0.7)*10) / 10)
	}
	if rng.Float64() < 0.6 {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.Head(), Pocket: table.SideRight})
	}
	b.Rails = drill.Count(3 + rng.IntN(5))
	if fast := float64(s.Speed) - 20; rng.Float64() < 0.004+0.05*math.Max(0, fast) {
		b.Off = []rack.Ball{5}
	}
	return b
}

func (y toy) wing(rng *rand.Rand, d, sc float64) (made, long bool) {
	if y.curved {
		w := 4 * math.Sqrt(sc)
		p := y.peak / sc * math.Exp(-d*d/2/w/w)
		pLong := 1 / (1 + math.Exp(-d/(2*sc))*(1-y.lean)/y.lean)
		return rng.Float64() < p, rng.Float64() < pLong
	}
	e := d + rng.NormFloat64()*4*sc + 6*(y.lean-0.5)
	// tolerance such that the best rate is about peak
	tol := 4 * math.Sqrt2 * math.Erfinv(y.peak)
	return math.Abs(e-6*(y.lean-0.5)) < tol, e > 0
}

func (y toy) cue(rng *rand.Rand, s drill.Setup, b *drill.Break, sc float64) {
	contact := float64(s.Contact) + y.contactBias
	draw := (float64(s.Tip)+y.tipBias+0.1)/0.1 + rng.NormFloat64()*1.1*sc // tenths above ordinary
	push := float64(s.Speed) / 18
	if y.harsh {
		draw += rng.NormFloat64() * 1.1
	}
	x := -3 + 38*contact + rng.NormFloat64()*9*sc
	b.Cue.How = drill.Stopped
	var at float64
	switch {
	case draw > 1.5:
		at = 62 + 8*(draw-1.5) + rng.NormFloat64()*8
		b.CuePath = drill.PathForward
		if rng.Float64() < 0.12 {
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.FootCorner(table.SideOf(table.Inches(x)))}
		}
	case draw < -1.5:
		b.CuePath = drill.PathHeadRail
		at = (30 - 14*(-draw-1.5)) * (2 - push)
		if at < 0 { // came off the head rail again
			at = -at
		}
		if rng.Float64() < 0.12 {
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.HeadCorner(table.SideOf(table.Inches(x)))}
		}
	default:
		at = 40 + 7*draw + rng.NormFloat64()*5
		b.CuePath = drill.PathBack
	}
	if math.Abs(contact) > 0.12 && rng.Float64() < 0.02+0.6*(math.Abs(contact)-0.12) || rng.Float64() < 0.02 || y.harsh && rng.Float64() < 0.03 {
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.SidePocket(table.SideOf(table.Inches(contact)))}
	}
	if b.Cue.How == drill.Stopped {
		b.Cue.Place = table.NineFoot().Settle(table.Place{X: table.Inches(x), Y: table.Inches(at)})
	}
}

func toySet(y toy, rng *rand.Rand, i int, s drill.Setup) drill.Set {
	set := drill.Set{Student: y.name, Name: fmt.Sprint("s", i), Table: "North", Kind: table.NineFoot(), Setup: s}
	for j := range 10 {
		b := y.play(rng, s)
		b.Number = j + 1
		set.Breaks = append(set.Breaks, b)
	}
	if y.measuredSpeed {
		sum := table.Mph(0)
		for _, b := range set.Breaks {
			sum += b.Speed
		}
		set.Setup.Speed = table.Mph(math.Round(float64(sum)) / 10)
	}
	return set
}

type lessonResult struct {
	first     Variable
	firstSign float64
	firstSet  int
	rule      Name
	good      float64
	changes   int
	last      drill.Setup
	told      []drill.Setup
}

func teach(y toy, seed uint64, sets int, adviser func([]drill.Set) (drill.Setup, *Prescription)) lessonResult {
	rng := rand.New(rand.NewPCG(seed, 77))
	var history []drill.Set
	s := y.start
	r := lessonResult{told: []drill.Setup{s}}
	for i := range sets {
		set := toySet(y, rng, i, s)
		history = append(history, set)
		for _, b := range set.Breaks {
			if b.WingMade(s) {
				r.good++
			}
			if b.InWindow(set.Kind.StandardWindow()) {
				r.good++
			}
		}
		next, p := adviser(history)
		if p != nil && p.Variable != VaryNone {
			r.changes++
			if r.first == "" {
				r.first, r.firstSet, r.rule = p.Variable, i+1, p.Rule
				r.firstSign = moved(p.Variable, s, next)
			}
		}
		s = next
		r.told = append(r.told, s)
	}
	r.last = s
	return r
}

func standardToy() toy {
	return toy{start: drill.Standard(rack.NineBall, table.Left, table.NineFoot()), best: 18, peak: 0.5, steady: 1, lean: 0.5, seen: 0.95}
}

func toyClasses() map[string]func(*rand.Rand) toy {
	vary := func(rng *rand.Rand) toy {
		y := standardToy()
		y.peak = 0.4 + 0.2*rng.Float64()
		y.lean = 0.42 + 0.16*rng.Float64()
		y.curved = rng.IntN(2) == 0
		y.measuredSpeed = rng.IntN(2) == 0
		y.seen = []float64{0.95, 0.7}[rng.IntN(2)]
		return y
	}
	return map[string]func(*rand.Rand) toy{
		"1 none":       vary,
		"1 none weak":  func(rng *rand.Rand) toy { y := vary(rng); y.peak = 0.35; return y },
		"1 none harsh": func(rng *rand.Rand) toy { y := vary(rng); y.harsh = true; return y },
		"2 too in harsh": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.harsh = true
			y.start.Cue.X += 6
			y.want, y.sign = VaryPlace, 1
			return y
		},
		"6 tip high harsh": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.harsh = true
			y.start.Tip = 0.15
			y.want, y.sign = VaryTip, -1
			return y
		},
		"1 none unseen": func(rng *rand.Rand) toy { y := vary(rng); y.peak = 0.4; y.seen = 0; return y },
		"2 too in": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Cue.X += 5 + 3*table.Inches(rng.IntN(2))
			y.want, y.sign = VaryPlace, 1
			return y
		},
		"2 too in body": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Cue.X = -14
			y.best = 20
			y.want, y.sign = VaryPlace, 1
			return y
		},
		"3 too out": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Cue.X = -20
			y.best = 13
			y.want, y.sign = VaryPlace, -1
			return y
		},
		"3 too out unseen": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Cue.X = -20
			y.best = 13
			y.seen = 0
			y.want, y.sign = VaryPlace, -1
			return y
		},
		"4 contact told right": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Contact = 0.3
			y.want, y.sign = VaryContact, -1
			return y
		},
		"4 contact told left": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Contact = -0.3
			y.want, y.sign = VaryContact, 1
			return y
		},
		"5 contact body right": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.contactBias = 0.3
			y.want, y.sign = VaryContact, -1
			return y
		},
		"5 contact body left": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.contactBias = -0.3
			y.want, y.sign = VaryContact, 1
			return y
		},
		"6 tip high": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Tip = 0.2
			y.want, y.sign = VaryTip, -1
			return y
		},
		"6 tip high body": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.tipBias = 0.25
			y.want, y.sign = VaryTip, -1
			return y
		},
		"7 tip low": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Tip = -0.4
			y.want, y.sign = VaryTip, 1
			return y
		},
		"8 fast": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.start.Speed = 23
			y.want, y.sign = VarySpeed, -1
			return y
		},
		"9 unsteady": func(rng *rand.Rand) toy {
			y := vary(rng)
			y.steady = 2
			y.want, y.sign = VarySpeed, -1
			return y
		},
	}
}

func judged(h []drill.Set) (drill.Setup, *Prescription) {
	a := Judge(h, Brief{})
	if err := a.Next.Check(h[0].Kind); err != nil {
		panic(err)
	}
	return a.Next, a.Prescription
}

func never(h []drill.Set) (drill.Setup, *Prescription) {
	s := h[0].Setup
	return s, nil
}

// byTheInch moves an inch after every set under target, in the same direction
// unless the last set was worse.
func byTheInch(h []drill.Set) (drill.Setup, *Prescription) {
	made := func(set drill.Set) (n int) {
		for _, b := range set.Breaks {
			if b.WingMade(set.Setup) {
				n++
			}
		}
		return n
	}
	last := h[len(h)-1]
	s := last.Setup
	if s.Speed == 0 {
		s.Speed = 18
	}
	if made(last) >= 5 {
		return s, nil
	}
	dir := table.Inches(1) // in, from near the rail
	if len(h) > 1 {
		if d := s.Cue.X - h[len(h)-2].Setup.Cue.X; d != 0 {
			dir = d
			if made(last) < made(h[len(h)-2]) {
				dir = -d
			}
		}
	}
	s.Cue.X = min(max(s.Cue.X+dir, -22), 0)
	s.Speed = min(max(s.Speed, 14), 24)
	return s, nil
}

func TestToyReport(t *testing.T) {
	classes := toyClasses()
	names := make([]string, 0)
	for n := range classes {
		names = append(names, n)
	}
	sort.Strings(names)
	students := 200
	if os.Getenv("TOYS") != "" {
		students, _ = strconv.Atoi(os.Getenv("TOYS"))
	}
	var wg sync.WaitGroup
	lines := make([]string, len(names))
	for k, name := range names {
		if p := os.Getenv("ONLY"); p != "" && !strings.Contains(name, p) {
			continue
		}
		wg.Add(1)
		go func() { defer wg.Done(); lines[k] = toyReport(name, classes[name], students) }()
	}
	wg.Wait()
	for _, l := range lines {
		if l != "" {
			t.Log(l)
		}
	}
}

func toyReport(name string, class func(*rand.Rand) toy, students int) string {
	right, changed, in3, worse, good, good0, goodInch := 0, 0, 0, 0, 0.0, 0.0, 0.0
	setsToFirst, nchanges, reached, reachSets := 0, 0, 0, 0
	by := map[string]int{}
	startRate, endRate, bestRate := 0.0, 0.0, 0.0
	for i := range students {
		y := class(rand.New(rand.NewPCG(uint64(i), 5)))
		r := teach(y, uint64(i), 6, judged)
		good += r.good
		good0 += teach(y, uint64(i), 6, never).good
		goodInch += teach(y, uint64(i), 6, byTheInch).good
		nchanges += r.changes
		if r.first != "" {
			changed++
			setsToFirst += r.firstSet
			if r.firstSet <= 3 {
				in3++
			}
			if r.first == y.want && r.firstSign*y.sign > 0 {
				right++
			}
			by[fmt.Sprintf("%s/%s%+.0f", r.rule, r.first, math.Copysign(1, r.firstSign))]++
		}
		memo := map[drill.Setup]float64{}
		rate := func(s drill.Setup) float64 {
			if v, ok := memo[s]; ok {
				return v
			}
			w, c := y.rates(s)
			memo[s] = w + c
			return w + c
		}
		cured := y.start
		switch y.want {
		case VaryPlace:
			cured.Cue.X = -table.Inches(y.best)
		case VaryContact:
			cured.Contact = -table.Inches(y.contactBias)
		case VaryTip:
			cured.Tip = -0.1 - drill.Fraction(y.tipBias)
		case VarySpeed:
			cured.Speed = min(cured.Speed, 18)
		}
		best := rate(cured)
		startRate += rate(y.start)
		endRate += rate(r.last)
		bestRate += best
		if rate(r.last) < rate(y.start)-0.06 {
			worse++
		}
		for k, s := range r.told {
			if rate(s) >= 0.9*best {
				reached++
				reachSets += k
				break
			}
		}
	}
	var parts []string
	for k, v := range by {
		parts = append(parts, fmt.Sprintf("%s:%d", k, v))
	}
	sort.Strings(parts)
	n := float64(students)
	return fmt.Sprintf("%-21s right %.2f changed %.2f in3 %.3f 1st %.1f nch %.1f worse %.3f reach %.2f in %.1f good %.2f never %.2f inch %.2f best %.2f rates %.2f>%.2f %s", name,
		float64(right)/float64(max(changed, 1)), float64(changed)/n, float64(in3)/n, float64(setsToFirst)/float64(max(changed, 1)), float64(nchanges)/n, float64(worse)/n,
		float64(reached)/n, float64(reachSets)/float64(max(reached, 1)),
		good/n/6, good0/n/6, goodInch/n/6, 10*bestRate/n, startRate/n, endRate/n, strings.Join(parts, " "))
}

package leave

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// drawLeave puts the cue ball and some balls anywhere on the cloth, apart.
func drawLeave(k table.Kind, balls int, rng *rand.Rand) Leave {
	l := Leave{Kind: k, Game: rack.NineBall}
	half := float64(k.Width()/2 - table.BallRadius)
	anywhere := func() table.Place {
		return table.Place{
			X: table.Inches((2*rng.Float64() - 1) * half),
			Y: table.BallRadius + table.Inches(rng.Float64())*(k.Length()-table.BallDiameter),
		}
	}
	l.Cue = anywhere()
	for len(l.Placed) < balls {
		p := anywhere()
		if p.Distance(l.Cue) > table.BallDiameter && l.clear(p) {
			l.Placed = append(l.Placed, drill.RestingBall{Ball: rack.Ball(len(l.Placed) + 1), Place: p})
		}
	}
	return l
}

// computedChance plays a shot on the computed table with the aim turned by every
// amount around the finder's, and gives the chance of the best aim among them: a
// player aims throw away.
func computedChance(t testing.TB, tb *breaksim.Table, l Leave, s Shot, a Accuracy) float64 {
	t.Helper()
	sd := float64(a)
	reach := 3*sd + 2*float64(s.Window) + 1.5
	aim := float64(table.DegreesFromRadians(math.Atan2(float64(s.Ghost.X-s.Cue.X), float64(s.Ghost.Y-s.Cue.Y))))
	layout := breaksim.Layout{Cue: s.Cue, Tip: 0.3}
	for _, r := range l.Placed {
		layout.Balls = append(layout.Balls, breaksim.PlacedBall{Ball: r.Ball, Place: r.Place})
	}
	layout.Speed = speedFor(s)
	step := min(float64(s.Window)/12, sd/3)
	n := int(reach / step)
	made := make([]bool, 2*n+1)
	for i := range made {
		layout.Aim = breaksim.Degrees(aim + float64(i-n)*step)
		r, err := tb.PlayLayout(layout)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range r.Pocketed {
			if p.Ball == s.Ball && p.Pocket == s.Pocket && r.Hit != nil && r.Hit.Ball == s.Ball {
				made[i] = true
			}
		}
	}
	best := 0.0
	for c := range made {
		sum := 0.0
		for i, m := range made {
			if m {
				z := float64(i-c) * step / sd
				sum += math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * step / sd
			}
		}
		best = max(best, sum)
	}
	return min(best, 1)
}

// speedFor brings the object ball to the pocket at about 4 mph, rolling: it
// starts with 5/7 less what the cloth takes (references: C.1, C.2).
func speedFor(s Shot) table.Mph {
	const arrive = 4 * table.MetresPerSecondPerMph
	roll := math.Sqrt(arrive*arrive + 2*0.1*s.ToPocket.Metres())
	start := roll * 7 / 5 / (0.975 * math.Cos(s.Cut.Radians()))
	start = math.Sqrt(start*start + 2*0.1*s.ToBall.Metres())
	return table.Mph(min(start/table.MetresPerSecondPerMph, 30))
}

// agreement of the finder's chances with computed ones over leaves drawn at
// random; onRow is called with each pair.
func agreement(t testing.TB, k table.Kind, a Accuracy, leaves int, onRow func(s Shot, computed float64)) {
	t.Helper()
	tb, err := breaksim.NewTable(breaksim.Defaults(), k)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(5, uint64(k.Feet)))
	for i := range leaves {
		l := drawLeave(k, 1+i%3, rng)
		for _, s := range FindShots(l, PlayerAt(a)).Shots {
			// Thinner cuts need more than a break's speed to reach the pocket.
			if s.Way == Direct && s.Window > 0 && s.Cut <= 70 {
				onRow(s, computedChance(t, tb, l, s, a))
			}
		}
	}
}

// Reports the rows of MODEL.md's table, by fifths of the finder's chance: how many
// shots, the mean chance found, computed, and the root mean square of the
// difference. Run with -benchtime 1x; -write-plot draws its picture.
func BenchmarkAgreement(b *testing.B) {
	for b.Loop() {
		var shots []agreedShot
		for _, c := range []struct {
			kind table.Kind
			a    Accuracy
		}{{table.SevenFoot(), Club}, {table.EightFoot(), Beginner}, {table.NineFoot(), Strong}, {table.NineFoot(), Club},
			{table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: 4.75}, Expert}, {table.Kind{Feet: 7, CornerMouth: 4.75, SideMouth: 5.25}, Club}} {
			agreement(b, c.kind, c.a, 150, func(s Shot, computed float64) { shots = append(shots, agreedShot{s.Chance, computed}) })
		}
		fifths := groupByFifth(shots)
		for i, row := range append(fifths[:], shots) {
			mean := meanOf(row)
			b.Logf("row %d: %d shots, found %.3f, computed %.3f, rms %.3f", i, len(row), mean.found, mean.computed, rootMeanSquare(row))
		}
		b.ReportMetric(rootMeanSquare(shots), "rms")
		if *writePlot {
			if err := os.WriteFile(plotFile, []byte(drawPlot(shots)), 0o644); err != nil {
				b.Fatal(err)
			}
		}
	}
}

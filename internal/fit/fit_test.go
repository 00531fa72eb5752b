package fit

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

var nine = table.NineFoot()

// small is a pair of banks for tests: a third of the usual size, made once.
var small = sync.OnceValues(func() (BankPair, error) {
	return NewBankPair(context.Background(), standard(nine), nine, 1500, nil)
})

func smallPair(t testing.TB) BankPair {
	t.Helper()
	p, err := small()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func student(i int) *rand.Rand { return rand.New(rand.NewPCG(13, uint64(i))) }

// Mean and variance of Pearson's X² are those of many draws, with small counts
// and rare sorts.
func TestPearson_MeanAndVariance(t *testing.T) {
	chance := []float64{0.5, 0.3, 0.13, 0.04, 0.015, 0.015}
	rng := student(300)
	const draws, n = 20000, 8
	sum, squares, mean, variance := 0.0, 0.0, 0.0, 0.0
	for range draws {
		times := make([]float64, len(chance))
		for range n {
			u, sort := rng.Float64(), 0
			for sort < len(chance)-1 && u > chance[sort] {
				u -= chance[sort]
				sort++
			}
			times[sort]++
		}
		var x float64
		x, mean, variance, _ = pearsonStatistic(times, chance)
		sum += x
		squares += x * x
	}
	gotMean := sum / draws
	gotVariance := squares/draws - gotMean*gotMean
	if math.Abs(gotMean-mean) > 0.1 || math.Abs(gotVariance-variance) > 0.1*variance {
		t.Errorf("mean %.3f and variance %.2f, by the formula %.3f and %.2f", gotMean, gotVariance, mean, variance)
	}
}

func TestFit_Refuses(t *testing.T) {
	p := smallPair(t)
	if _, err := EstimateHands(nil); !errors.Is(err, ErrNoBreaks) {
		t.Errorf("nothing at all: %v", err)
	}
	if _, err := EstimateHands([]RecordedBreaks{{p, standard(nine), nil}}); !errors.Is(err, ErrNoBreaks) {
		t.Errorf("no breaks: %v", err)
	}
	other := standard(nine)
	other.Tip = 0.2
	if _, err := EstimateHands([]RecordedBreaks{{p, other, nil}}); err == nil || errors.Is(err, ErrNoBreaks) {
		t.Errorf("banks of another setup: %v", err)
	}
	wild := standard(nine)
	wild.Tip = 0.9
	var problems drill.Problems
	if _, err := NewBankPair(t.Context(), wild, nine, 10, nil); !errors.As(err, &problems) {
		t.Errorf("a miscue: %v", err)
	}
	gone := errors.New("gone")
	ctx, stop := context.WithCancelCause(t.Context())
	reported := 0
	_, err := NewBankPair(ctx, standard(nine), nine, 5000, func(done int) {
		if reported = done; done >= 60 {
			stop(gone)
		}
	})
	if !errors.Is(err, gone) || reported != 60 {
		t.Errorf("stopped at %d: %v", reported, err)
	}
}

// against puts what was estimated beside the truth: contact, tip, and how much
// both vary.
func (h hands) against(e Estimate) []struct {
	value UncertainValue
	truth float64
} {
	return []struct {
		value UncertainValue
		truth float64
	}{{e.Contact, h.contact}, {e.Tip, h.tip}, {e.ContactScatter, h.contactScatter}, {e.TipScatter, h.tipScatter}}
}

// BenchmarkFit_Coverage makes the numbers of FIT.md:
//
//	go test -run - -bench Coverage -benchtime 200x ./internal/fit
func BenchmarkFit_Coverage(b *testing.B) {
	p := pair(b, standard(nine), nine, UsualBreaks)
	for _, breaks := range []int{10, 20, 40, 60} {
		b.Run("", func(b *testing.B) {
			var held, square, learned [4]float64
			odd, off, wrong := 0.0, 0.0, 0.0
			for i := 0; b.Loop(); i++ {
				rng := rand.New(rand.NewPCG(11, uint64(i+1000*breaks)))
				h := drawHands(rng)
				e := fitted(b, RecordedBreaks{p, standard(nine), h.breaks(b, standard(nine), nine, breaks, rng)})
				for j, c := range h.against(e) {
					if c.value.Low <= c.truth && c.truth <= c.value.High {
						held[j]++
					}
					square[j] += (c.value.Middle - c.truth) * (c.value.Middle - c.truth)
					learned[j] += c.value.Learned
				}
				if e.Odd {
					odd++
				}
				if e.Contact.ExcludesZero() {
					off++
					if e.Contact.Low > 0 != (h.contact > 0) {
						wrong++
					}
				}
			}
			n := float64(b.N)
			for j, name := range []string{"contact", "tip", "contact-varies", "tip-varies"} {
				b.ReportMetric(100*held[j]/n, name+"-held-%")
				b.ReportMetric(math.Sqrt(square[j]/n), name+"-rms")
				b.ReportMetric(learned[j]/n, name+"-learned")
			}
			b.ReportMetric(odd, "odd")
			b.ReportMetric(off, "off")
			b.ReportMetric(wrong, "off-on-wrong-side")
			b.ReportMetric(float64(breaks), "breaks")
		})
	}
}

func BenchmarkNewPair(b *testing.B) {
	for b.Loop() {
		pair(b, standard(nine), nine, UsualBreaks)
	}
}

// The chances that a bank gives for some hands are those of breaks made with
// these hands.
func TestChances_AreThoseOfBreaks(t *testing.T) {
	p := smallPair(t).Tip
	h := hands{contact: 0.15, contactScatter: 0.3, tip: -0.05, tipScatter: 0.08}
	var c outcomeChances
	c.fillFromBank(p, importanceWeights(p.contact, drawContact, h.contact, h.contactScatter), importanceWeights(p.other, drawTip, h.tip, h.tipScatter))
	var seen [wings]float64
	const rooms, each = 25, 16
	for i := range rooms {
		for _, b := range h.breaks(t, standard(nine), nine, each, student(100+i)) {
			s := readObservation(b, standard(nine), nine)
			for w, may := range s.wings {
				if may && (w <= wingJaws || s.wings == [wings]bool{wingElse: true}) {
					seen[w] += 1.0 / rooms / each
					break
				}
			}
		}
	}
	for w, name := range map[int]string{wingMade: "made", wingSide: "side rail first"} {
		// Standard errors of 400 breaks and of what the bank is worth, three of them.
		q := c.wing[w]
		tolerance := 3 * math.Sqrt(q*(1-q)*(1.0/400+1/c.breaks))
		if math.Abs(seen[w]-q) > tolerance {
			t.Errorf("%s: %.3f of breaks, %.3f by the bank (worth %.0f breaks), tolerance %.3f", name, seen[w], q, c.breaks, tolerance)
		}
	}
	sum := 0.0
	for _, q := range c.cell {
		sum += q
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("all cells have %g together", sum)
	}
}

// What a careful student writes down is read as the model counts it, and what
// was not seen leaves several things open.
func TestSighting_IsTheOutcome(t *testing.T) {
	on, err := breaksim.NewTable(breaksim.Defaults(), nine)
	if err != nil {
		t.Fatal(err)
	}
	s := standard(nine)
	for i := range 40 {
		_, in := drawConditions(s, student(i))
		in.Contact += table.Inches(0.4 * student(i).NormFloat64())
		r, err := on.ComputeBreak(in, student(i))
		if err != nil {
			t.Fatal(err)
		}
		cell := outcomeCell(r, s.Wing, nine)
		seen := readObservation(written(r, s, 1), s, nine)
		if !seen.wings[cell/rests] || seen.cue != cell%rests/paths || !seen.paths[cell%paths] {
			t.Errorf("break %d: counted as %d, read as %+v", i, cell, seen)
		}
		unseen := written(r, s, 1)
		unseen.WingMiss, unseen.CuePath = "", ""
		open := readObservation(unseen, s, nine)
		if !open.wings[cell/rests] || !open.paths[cell%paths] {
			t.Errorf("break %d with nothing noted: counted as %d, read as %+v", i, cell, open)
		}
	}
}

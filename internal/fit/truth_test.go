//go:build !quick

package fit

import (
	"math"
	"reflect"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Students whose hands are known are found within the ranges about as often as
// the ranges say. FIT.md has the numbers of many more.
func TestFit_RangesHoldTheTruth(t *testing.T) {
	p := smallPair(t)
	const students, breaks = 24, 20
	held, all := 0, 0
	for i := range students {
		rng := student(i)
		h := drawHands(rng)
		e := fitted(t, RecordedBreaks{p, standard(nine), h.breaks(t, standard(nine), nine, breaks, rng)})
		for _, c := range h.against(e) {
			all++
			if c.value.Low <= c.truth && c.truth <= c.value.High {
				held++
			}
		}
	}
	// Four ranges of one student are not independent: the bounds are those of
	// half as many, three standard errors wide.
	share, error3 := float64(held)/float64(all), 3*math.Sqrt(Level*(1-Level)/float64(all/2))
	if math.Abs(share-Level) > error3 {
		t.Errorf("%d of %d ranges hold the truth, %.2f; meant is %g", held, all, share, Level)
	}
}

// The model's own students are hardly ever odd; breaks that end in one place
// every time are.
func TestFit_SaysWhatIsOdd(t *testing.T) {
	p := smallPair(t)
	odd := 0
	for i := range 12 {
		rng := student(200 + i)
		if fitted(t, RecordedBreaks{p, standard(nine), drawHands(rng).breaks(t, standard(nine), nine, 15, rng)}).Odd {
			odd++
		}
	}
	if odd > 1 {
		t.Errorf("%d of 12 of the model's students are called odd", odd)
	}
	same := make([]drill.Break, 15)
	for i := range same {
		same[i] = drill.Break{Number: i + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 1, Y: 40}}}
	}
	if !fitted(t, RecordedBreaks{p, standard(nine), same}).Odd {
		t.Error("fifteen cue balls in the middle of the window are not odd")
	}
}

// A fault far from what is asked for is found, with its side; the likeliest cause is
// the true one.
func TestFit_FindsFaults(t *testing.T) {
	p := smallPair(t)
	steady := hands{contactScatter: 0.15, tipScatter: 0.05}
	for name, c := range map[string]struct {
		change func(*hands)
		cause  CauseName
	}{
		"contact right": {func(h *hands) { h.contact = 0.35 }, OffContact},
		"contact left":  {func(h *hands) { h.contact = -0.35 }, OffContact},
		"tip low":       {func(h *hands) { h.tip = -0.2 }, OffTip},
		"tip high":      {func(h *hands) { h.tip = 0.2 }, OffTip},
	} {
		h := steady
		c.change(&h)
		e := fitted(t, RecordedBreaks{p, standard(nine), h.breaks(t, standard(nine), nine, 40, student(1))})
		if e.Causes[0].What != c.cause {
			t.Errorf("%s: the likeliest cause is %+v", name, e.Causes)
		}
		for _, one := range h.against(e)[:2] {
			if one.truth != 0 && (!one.value.ExcludesZero() || one.value.Low > 0 != (one.truth > 0)) {
				t.Errorf("%s: %+v, the truth is %g", name, one.value, one.truth)
			}
		}
		if e.Breaks != 40 {
			t.Errorf("%s: %d breaks", name, e.Breaks)
		}
	}
}

// A cue ball that stands elsewhere does what another contact does: the two are
// not told apart.
func TestFit_ContactAndPlaceMimicEachOther(t *testing.T) {
	p := smallPair(t)
	together := 0
	for i := range 6 {
		h := hands{contactScatter: 0.15, tipScatter: 0.05, place: 6}
		e := fitted(t, RecordedBreaks{p, standard(nine), h.breaks(t, standard(nine), nine, 30, student(i))})
		found := map[CauseName]bool{}
		for _, c := range e.PlausibleCauses() {
			found[c.What] = true
		}
		if found[OffContact] && found[OffPlace] {
			together++
		}
	}
	if together < 3 {
		t.Errorf("of six students who stand elsewhere, contact and place were both left open for %d", together)
	}
}

// Breaks under two setups are one body of evidence.
func TestFit_TwoSetups(t *testing.T) {
	near := standard(nine)
	near.Cue.X = -10
	q := pair(t, near, nine, 1200)
	h := hands{contact: -0.3, contactScatter: 0.15, tipScatter: 0.05}
	e := fitted(t,
		RecordedBreaks{smallPair(t), standard(nine), h.breaks(t, standard(nine), nine, 15, student(8))},
		RecordedBreaks{q, near, h.breaks(t, near, nine, 15, student(9))})
	if e.Breaks != 30 || e.Contact.High >= 0 {
		t.Errorf("%+v", e)
	}
}

func TestFit_MoreBreaksTellMore(t *testing.T) {
	p := smallPair(t)
	h := hands{contact: 0.1, contactScatter: 0.15, tip: -0.05, tipScatter: 0.05}
	breaks := h.breaks(t, standard(nine), nine, 40, student(3))
	few := fitted(t, RecordedBreaks{p, standard(nine), breaks[:4]})
	many := fitted(t, RecordedBreaks{p, standard(nine), breaks})
	for i, one := range h.against(few) {
		if more := h.against(many)[i]; more.value.Learned < one.value.Learned {
			t.Errorf("value %d: 4 breaks tell %.2f, 40 tell %.2f", i, one.value.Learned, more.value.Learned)
		}
	}
	if few.Contact.Learned > 0.5 || many.Contact.Learned < 0.3 {
		t.Errorf("of the contact 4 breaks tell %.2f and 40 tell %.2f", few.Contact.Learned, many.Contact.Learned)
	}
}

func TestFit_MirroredIsMirrored(t *testing.T) {
	p := smallPair(t)
	h := hands{contact: 0.3, contactScatter: 0.2, tipScatter: 0.05}
	breaks := h.breaks(t, standard(nine), nine, 15, student(5))
	mirrored := make([]drill.Break, len(breaks))
	for i, b := range breaks {
		mirrored[i] = b.Mirror()
	}
	left := fitted(t, RecordedBreaks{p, standard(nine), breaks})
	right := fitted(t, RecordedBreaks{p, standard(nine).Mirror(), mirrored})
	if right.Contact != left.Contact.mirrorValue() || right.Tip != left.Tip || !reflect.DeepEqual(right.Causes, left.Causes) {
		t.Errorf("from the left %+v\nfrom the right %+v", left, right)
	}
	other := pair(t, standard(nine).Mirror(), nine, 60)
	if same := pair(t, standard(nine), nine, 60); !reflect.DeepEqual(other, same) {
		t.Error("the mirrored setup has other banks")
	}
}

package picture

import (
	"strconv"
)

// Sizes of the row of sets, in pixels.
const (
	sparkTop, sparkBottom = 8, 52
	sparkHeight           = 72
)

// sparkGrain is how many units wide the paths' own coordinates are.
const sparkGrain = 1000

// sparkBox is the paths' viewBox.
var sparkBox = "0 0 " + formatUnits(sparkGrain) + " " + formatUnits(sparkHeight)

// sparkDot is a set as it is drawn; x and change are shares of the width.
type sparkDot struct {
	x, y     float64
	words    string
	newSetup bool
	change   float64 // where the change of setup is drawn
}

func sparkY(rate float64) float64 {
	return sparkBottom - clampShare(rate)*(sparkBottom-sparkTop)
}

// placeDots places the sets evenly.
func (s SparkView) placeDots() []sparkDot {
	all := make([]sparkDot, len(s.Sets))
	n, usual := float64(len(s.Sets)), s.usualBreakCount()
	for i, set := range s.Sets {
		all[i] = sparkDot{
			x: (float64(i) + 0.5) / n, y: sparkY(RateView{Made: set.Made, Of: set.Of}.shareMade()),
			words: set.setWords(usual), newSetup: set.NewSetup && i > 0, change: float64(i) / n,
		}
	}
	return all
}

// joinedSetsPath is the path through the sets under one setup; "" when no two are.
func joinedSetsPath(dots []sparkDot) string {
	var b []byte
	for i, d := range dots {
		if i == 0 || d.newSetup {
			continue
		}
		if from := dots[i-1]; i == 1 || from.newSetup {
			b = from.appendPoint(append(b, 'M'))
		}
		b = d.appendPoint(append(b, 'L'))
	}
	return string(b)
}

// sparkDotsPath is the path of all dots: each a line without length, round by its ends.
func sparkDotsPath(dots []sparkDot) string {
	var b []byte
	for _, d := range dots {
		b = append(d.appendPoint(append(b, 'M')), "h0"...)
	}
	return string(b)
}

func (d sparkDot) appendPoint(b []byte) []byte {
	return appendUnits(append(appendUnits(b, d.x*sparkGrain), ' '), d.y)
}

// usualBreakCount says the number of breaks that most sets have, the larger of two that
// are as common; 0 for no sets.
func (s SparkView) usualBreakCount() int {
	sets, usual := map[int]int{}, 0
	for _, set := range s.Sets {
		sets[set.Of]++
	}
	for of, n := range sets {
		if n > sets[usual] || n == sets[usual] && of > usual {
			usual = of
		}
	}
	return usual
}

// setWords is the number below a dot: the count, with its breaks where they are not the
// usual ones, so that many sets have room beside one another.
func (r SetRate) setWords(usual int) string {
	if r.Of == usual {
		return strconv.Itoa(r.Made)
	}
	return strconv.Itoa(r.Made) + "/" + strconv.Itoa(r.Of)
}

// DescribeSpark lists the sets, oldest first.
func DescribeSpark(s SparkView) string {
	if len(s.Sets) == 0 {
		return s.Label + ": no sets yet."
	}
	b := append([]byte(s.Label), ", set by set: "...)
	for i, set := range s.Sets {
		if i > 0 {
			b = append(b, ", "...)
			if set.NewSetup {
				b = append(b, "then with a new setup "...)
			}
		}
		b = append(strconv.AppendInt(b, int64(set.Made), 10), " of "...)
		b = strconv.AppendInt(b, int64(set.Of), 10)
	}
	words := string(b) + "."
	if s.Target > 0 {
		words += " The target is " + percentWords(s.Target) + "."
	}
	return words
}

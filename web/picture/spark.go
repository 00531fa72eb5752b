package picture

import (
	"fmt"
	"strconv"
	"strings"
)

// Sizes of the row of sets, in pixels.
const (
	sparkTop, sparkBottom = 8, 52
	sparkHeight           = 72
)

// sparkDot is a set as it is drawn; x is a share of the width.
type sparkDot struct {
	x, y     float64
	words    string
	newSetup bool
	joined   bool // to the dot before it
	lastX    float64
	lastY    float64
	change   float64 // where the change of setup is drawn
}

func sparkY(rate float64) float64 {
	return sparkBottom - share(rate)*(sparkBottom-sparkTop)
}

// dots places the sets evenly; a line joins only sets under the same setup.
func (s SparkView) dots() []sparkDot {
	all := make([]sparkDot, 0, len(s.Sets))
	n := float64(max(len(s.Sets), 1))
	for i, set := range s.Sets {
		d := sparkDot{x: (float64(i) + 0.5) / n, words: s.setWords(set), change: float64(i) / n}
		d.y = sparkY(RateView{Made: set.Made, Of: set.Of}.rate())
		if i > 0 {
			d.newSetup = set.NewSetup
			d.joined = !set.NewSetup
			d.lastX, d.lastY = all[i-1].x, all[i-1].y
		}
		all = append(all, d)
	}
	return all
}

// even says the number of breaks that every set has, or 0.
func (s SparkView) even() int {
	of := 0
	for i, set := range s.Sets {
		if i > 0 && set.Of != of {
			return 0
		}
		of = set.Of
	}
	return of
}

// setWords is the number below a dot: the count, with its breaks when they
// differ from set to set.
func (s SparkView) setWords(set SetRate) string {
	if s.even() > 0 {
		return strconv.Itoa(set.Made)
	}
	return fmt.Sprintf("%d/%d", set.Made, set.Of)
}

// countWords is the latest set's count.
func (s SparkView) countWords() string {
	if len(s.Sets) == 0 {
		return "no sets yet"
	}
	last := s.Sets[len(s.Sets)-1]
	return fmt.Sprintf("last set %d of %d", last.Made, last.Of)
}

// DescribeSpark lists the sets, oldest first.
func DescribeSpark(s SparkView) string {
	if len(s.Sets) == 0 {
		return s.Label + ": no sets yet."
	}
	parts := make([]string, len(s.Sets))
	for i, set := range s.Sets {
		parts[i] = fmt.Sprintf("%d of %d", set.Made, set.Of)
		if set.NewSetup && i > 0 {
			parts[i] = "then with a new setup " + parts[i]
		}
	}
	words := s.Label + ", set by set: " + strings.Join(parts, ", ") + "."
	if s.Target > 0 {
		words += " The target is " + percentWords(s.Target) + "."
	}
	return words
}

package whatif

import (
	"breakwright/internal/breaksim"
	"breakwright/web/page"
)

// The plain levels of steadiness and of the rack are assumptions without a
// source: "steady" and "practised" are the ends of what the model's own trials
// take for a faultless student, "learning" is a few times as wide.
const levelOwn = "own"

// scatterLevel is a plain word for numbers.
type scatterLevel struct {
	Name, Words string
	Scatter     breaksim.StrokeScatter
}

// handLevels are the levels of a breaker's steadiness; their Gap is not used.
func handLevels() []scatterLevel {
	return []scatterLevel{
		{"steady", "Steady", breaksim.StrokeScatter{Aim: 0.1, Speed: 0.3, Tip: 0.03, Place: 0.1}},
		{"practised", "Practised", breaksim.StrokeScatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2}},
		{"learning", "Learning", breaksim.StrokeScatter{Aim: 0.5, Speed: 1.2, Tip: 0.1, Place: 0.5}},
	}
}

// rackLevels are the levels of a rack; only their Gap is used.
func rackLevels() []scatterLevel {
	return []scatterLevel{
		{"tight", "Tight", breaksim.StrokeScatter{Gap: 0.001}},
		{"usual", "As usual", breaksim.StrokeScatter{Gap: 0.003}},
		{"loose", "Loose", breaksim.StrokeScatter{Gap: 0.01}},
	}
}

// usualScatter is what the page begins with.
func usualScatter() breaksim.StrokeScatter {
	s := handLevels()[1].Scatter
	s.Gap = rackLevels()[1].Scatter.Gap
	return s
}

// handLevelName names the level of these hands, or levelOwn.
func handLevelName(s breaksim.StrokeScatter) string {
	s.Gap = 0
	for _, l := range handLevels() {
		if l.Scatter == s {
			return l.Name
		}
	}
	return levelOwn
}

func rackLevelName(s breaksim.StrokeScatter) string {
	for _, l := range rackLevels() {
		if l.Scatter.Gap == s.Gap {
			return l.Name
		}
	}
	return levelOwn
}

func levelOptions(levels []scatterLevel) []page.Option {
	var all []page.Option
	for _, l := range levels {
		all = append(all, page.Option{Value: l.Name, Words: l.Words})
	}
	return append(all, page.Option{Value: levelOwn, Words: "Own numbers"})
}

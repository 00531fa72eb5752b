package whatif

import (
	"breakwright/internal/breaksim"
	"breakwright/web/page"
)

// The plain levels of steadiness and of the rack are assumptions without a
// source: "steady" and "practised" are the ends of what the model's own trials
// take for a faultless student, "learning" is a few times as wide.
const levelOwn = "own"

// level is a plain word for numbers.
type level struct {
	Name, Words string
	Scatter     breaksim.Scatter
}

// hands are the levels of a breaker's steadiness; their Gap is not used.
func hands() []level {
	return []level{
		{"steady", "Steady", breaksim.Scatter{Aim: 0.1, Speed: 0.3, Tip: 0.03, Place: 0.1}},
		{"practised", "Practised", breaksim.Scatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2}},
		{"learning", "Learning", breaksim.Scatter{Aim: 0.5, Speed: 1.2, Tip: 0.1, Place: 0.5}},
	}
}

// rackings are the levels of a rack; only their Gap is used.
func rackings() []level {
	return []level{
		{"tight", "Tight", breaksim.Scatter{Gap: 0.001}},
		{"usual", "As usual", breaksim.Scatter{Gap: 0.003}},
		{"loose", "Loose", breaksim.Scatter{Gap: 0.01}},
	}
}

// usualScatter is what the page begins with.
func usualScatter() breaksim.Scatter {
	s := hands()[1].Scatter
	s.Gap = rackings()[1].Scatter.Gap
	return s
}

// handsOf names the level of these hands, or levelOwn.
func handsOf(s breaksim.Scatter) string {
	s.Gap = 0
	for _, l := range hands() {
		if l.Scatter == s {
			return l.Name
		}
	}
	return levelOwn
}

func rackingOf(s breaksim.Scatter) string {
	for _, l := range rackings() {
		if l.Scatter.Gap == s.Gap {
			return l.Name
		}
	}
	return levelOwn
}

func options(levels []level) []page.Option {
	var all []page.Option
	for _, l := range levels {
		all = append(all, page.Option{Value: l.Name, Words: l.Words})
	}
	return append(all, page.Option{Value: levelOwn, Words: "Own numbers"})
}

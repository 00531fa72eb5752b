package whatif

import (
	"fmt"
	"math"
	"strconv"

	"breakwright/internal/breaksim"
	"breakwright/internal/whatif"
	"breakwright/web/picture"
)

// playbackView is one break of the answer, to be looked at.
type playbackView struct {
	View  picture.PlayView
	Words string
	// Choices lead to other breaks.
	Choices []breakChoice
}

// breakChoice is a link to a break of some sort.
type breakChoice struct {
	Words, Address string
	Chosen         bool
}

func newPlaybackView(a pageQuery, answer whatif.Answer) (playbackView, error) {
	q := answer.Question
	i := a.Show
	if i < 0 || i >= len(answer.Breaks) {
		i = answer.TypicalBreak()
	}
	r, err := whatif.ReplayBreak(q, i)
	if err != nil {
		return playbackView{}, err
	}
	v := picture.NewPlayView("play-table", r, q.Setup.Wing, q.Kind)
	v.Title = fmt.Sprintf("Break %d of %d", i+1, len(answer.Breaks))
	v.Stills = stillSeconds(r)
	b := answer.Breaks[i]
	return playbackView{
		View: v, Choices: breakChoices(a, answer, i),
		Words: fmt.Sprintf("Break %d of %d: %s; %s.", i+1, len(answer.Breaks), wingWords(b), cueWords(b, q.Kind.ZoneWords(b.Cue.Place))),
	}, nil
}

// stillSeconds are the moments worth a picture: before the stroke, right after the
// first touch, while the rack spreads, and at rest.
func stillSeconds(r breaksim.BreakResult) []float64 {
	touch := math.Inf(1)
	for _, b := range r.Balls[1:] {
		if len(b.Path) > 0 {
			touch = min(touch, b.Path[0].Start)
		}
	}
	all := []float64{0}
	for _, after := range []float64{0.04, 0.2, 0.5, 1.2, 2.5} {
		if t := touch + after; t < r.Seconds {
			all = append(all, t)
		}
	}
	return append(all, r.Seconds)
}

func breakChoices(a pageQuery, answer whatif.Answer, now int) []breakChoice {
	var all []breakChoice
	add := func(words string, i int) {
		to := a
		to.Show = i
		all = append(all, breakChoice{words, to.pageAddress() + "#play", i == now})
	}
	add("One like most", answer.TypicalBreak())
	for _, one := range []struct {
		words string
		event whatif.BreakEvent
	}{
		{"Wing ball made", whatif.WingMade}, {"Wing ball missed", func(b whatif.SimulatedBreak) bool { return !b.WingMade }},
		{"Cue ball in the window", whatif.InWindow}, {"A scratch", whatif.Scratched}, {"A dry break", whatif.DryBreak},
	} {
		if i, found := answer.FirstBreakWith(one.event); found {
			add(one.words, i)
		}
	}
	if next := now + 1; next < len(answer.Breaks) {
		add("The next, "+strconv.Itoa(next+1), next)
	}
	return all
}

// modelParameters lists the model's constants as the fold shows them.
func modelParameters() []breaksim.Param { return breaksim.ListParams() }

// modelNumber writes a number of the model in digits alone, however large or small.
func modelNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

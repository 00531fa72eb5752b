package whatif

import (
	"fmt"
	"strings"

	"breakwright/internal/breaksim"
	"breakwright/internal/say"
	"breakwright/internal/whatif"
)

// answerSentence is the page's first line: what was seen, or what the change does.
func (c answerComparison) answerSentence() string {
	wing, window, scratch := c.now.CountEvent(whatif.WingMade), c.now.CountEvent(whatif.InWindow), c.now.CountEvent(whatif.Scratched)
	now := fmt.Sprintf("the wing ball drops in its corner in %s breaks, the cue ball stops in the window in %d and scratches in %d",
		say.OfTotal(wing.Made, wing.Of), window.Made, scratch.Made)
	if c.was == nil {
		return "In the model " + now + "."
	}
	var clear, unclear []string
	for _, one := range []struct {
		verb, noun string
		event      whatif.BreakEvent
	}{
		{"the wing ball drops in its corner", "the wing ball", whatif.WingMade},
		{"the cue ball stops in the window", "the window", whatif.InWindow},
		{"the cue ball scratches", "scratches", whatif.Scratched},
	} {
		d := whatif.CompareAnswers(*c.was, c.now, one.event)
		was, is := c.was.CountEvent(one.event), c.now.CountEvent(one.event)
		if !d.ExcludesZero() {
			unclear = append(unclear, one.noun)
			continue
		}
		often := "more often"
		if d.Share < 0 {
			often = "less often"
		}
		clear = append(clear, fmt.Sprintf("%s %s, %s instead of %d", one.verb, often, say.OfTotal(is.Made, is.Of), was.Made))
	}
	if len(clear) == 0 {
		return "In the model the change makes no clear difference: " + now + "."
	}
	says := "After the change, in the model, " + strings.Join(clear, "; ") + "."
	if len(unclear) > 0 {
		says += " No clear difference for " + strings.Join(unclear, " and ") + "."
	}
	return says
}

// wingWords and cueWords say how the break that is played went.
func wingWords(b whatif.SimulatedBreak) string {
	switch {
	case b.WingMade:
		return "the wing ball drops in its corner"
	case b.Wing.End == breaksim.Dropped:
		return "the wing ball drops in " + b.Wing.Pocket.Words()
	case b.Wing.End == breaksim.OffTable:
		return "the wing ball leaves the table"
	}
	switch b.Wing.Met {
	case breaksim.MetSideRail:
		return "the wing ball meets the side rail first"
	case breaksim.MetFootRail:
		return "the wing ball meets the foot rail first"
	case breaksim.MetBall:
		return "the wing ball is kissed"
	case breaksim.MetJaws:
		return "the wing ball rattles in the jaws"
	}
	return "the wing ball stays up"
}

func cueWords(b whatif.SimulatedBreak, zone string) string {
	switch b.Cue.End {
	case breaksim.Dropped:
		return "the cue ball scratches in " + b.Cue.Pocket.Words()
	case breaksim.OffTable:
		return "the cue ball leaves the table"
	}
	return "the cue ball stops " + zone
}

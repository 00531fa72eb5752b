package whatif

import (
	"fmt"
	"math"

	"breakwright/internal/breaksim"
	"breakwright/internal/density"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// resultsView is what the page shows of answers.
type resultsView struct {
	Answer string
	// Compared says that there is another setting to compare with.
	Compared bool
	Changes  []string
	Rates    []rateComparison
	Groups   []chanceGroup
	Maps     []crowdMaps
	Playback playbackView
}

// rateComparison is one of the chances at the top.
type rateComparison struct {
	Now picture.RateView
	Was *picture.RateView
}

// chanceGroup is a table of chances that belong together.
type chanceGroup struct {
	ID, Title string
	Rows      []chanceRow
}

// chanceRow is one event: its chance, and the change from another setting.
type chanceRow struct {
	Words    string
	Now, Was chanceWords
	Change   changeWords
}

// chanceWords is a count and its range in words.
type chanceWords struct{ Count, Range string }

// changeWords is a difference in words.
type changeWords struct {
	Words string
	Clear bool
}

// crowdMaps are the maps of one setting.
type crowdMaps struct {
	Title string
	Views []picture.CrowdView
}

func newResultsView(a pageQuery, answers []whatif.Answer, u say.Units) (*resultsView, error) {
	c := answerComparison{now: answers[len(answers)-1]}
	if a.Was != nil {
		c.was = &answers[0]
	}
	s := &resultsView{Compared: c.was != nil, Answer: c.answerSentence()}
	s.Rates = c.listRates()
	s.Groups = []chanceGroup{c.wingBallGroup(), c.cueBallGroup(), c.lowBallGroup(), c.wholeBreakGroup()}
	s.Maps = append(s.Maps, newCrowdMaps("now", "", c.now))
	if c.was != nil {
		s.Changes = component.ChangeWords(c.was.Question.Setup, c.now.Question.Setup, c.now.Question.Kind, u)
		s.Maps[0].Title = "Now"
		s.Maps = []crowdMaps{newCrowdMaps("was", "Before", *c.was), s.Maps[0]}
	}
	var err error
	s.Playback, err = newPlaybackView(a, c.now)
	return s, err
}

// answerComparison counts in one answer or in two.
type answerComparison struct {
	now whatif.Answer
	was *whatif.Answer
}

func (c answerComparison) newChanceRow(words string, e whatif.BreakEvent) chanceRow {
	r := chanceRow{Words: words, Now: newChanceWords(c.now.CountEvent(e))}
	if c.was != nil {
		r.Was = newChanceWords(c.was.CountEvent(e))
		r.Change = newChangeWords(whatif.CompareAnswers(*c.was, c.now, e))
	}
	return r
}

// eventHappens reports whether an event is seen at all.
func (c answerComparison) eventHappens(e whatif.BreakEvent) bool {
	return c.now.CountEvent(e).Made > 0 || c.was != nil && c.was.CountEvent(e).Made > 0
}

// addChanceRow adds rows for events that happen.
func (c answerComparison) addChanceRow(g *chanceGroup, words string, e whatif.BreakEvent) {
	if c.eventHappens(e) {
		g.Rows = append(g.Rows, c.newChanceRow(words, e))
	}
}

func newChanceWords(c whatif.Chance) chanceWords {
	return chanceWords{say.OfTotal(c.Made, c.Of), fmt.Sprintf("%.0f–%.0f %%", 100*c.Range.Low, 100*c.Range.High)}
}

func newChangeWords(d whatif.Difference) changeWords {
	return changeWords{fmt.Sprintf("%s (%s to %s)", percentagePoints(d.Share), percentagePoints(d.Low), percentagePoints(d.High)), d.ExcludesZero()}
}

// percentagePoints writes a difference of shares in percentage points, with its sign.
func percentagePoints(share float64) string {
	n := math.Round(100 * share)
	switch {
	case n > 0:
		return fmt.Sprintf("+%.0f", n)
	case n < 0:
		return fmt.Sprintf("−%.0f", -n)
	}
	return "0"
}

func (c answerComparison) listRates() []rateComparison {
	var all []rateComparison
	for i, one := range []struct {
		label string
		event whatif.BreakEvent
	}{{"Wing ball in its corner", whatif.WingMade}, {"Cue ball in the window", whatif.InWindow}, {"Scratch", whatif.Scratched}} {
		r := rateComparison{Now: newRateView(fmt.Sprintf("rate-%d-now", i), one.label, c.now.CountEvent(one.event))}
		if c.was != nil {
			was := newRateView(fmt.Sprintf("rate-%d-was", i), one.label, c.was.CountEvent(one.event))
			r.Was = &was
		}
		all = append(all, r)
	}
	return all
}

func newRateView(id, label string, c whatif.Chance) picture.RateView {
	return picture.RateView{ID: id, Label: label, Made: c.Made, Of: c.Of, Low: c.Range.Low, High: c.Range.High}
}

func (c answerComparison) wingBallGroup() chanceGroup {
	g := chanceGroup{ID: "wing-ball", Title: "The wing ball, the " + c.now.Question.Setup.WingBall().String()}
	g.Rows = append(g.Rows, c.newChanceRow("in its own corner", whatif.WingMade))
	c.addChanceRow(&g, "in another pocket", whatif.WingElsewhere)
	for _, m := range []struct {
		met   breaksim.FirstMet
		words string
	}{
		{breaksim.MetSideRail, "up: side rail first"}, {breaksim.MetFootRail, "up: foot rail first"},
		{breaksim.MetBall, "up: kissed by another ball first"}, {breaksim.MetJaws, "up: rattled in the jaws"},
		{breaksim.MetHeadRail, "up: head rail first"}, {breaksim.MetPocket, "up: pocket first"}, {"", "up: met nothing"},
	} {
		c.addChanceRow(&g, m.words, whatif.WingStayed(m.met))
	}
	c.addChanceRow(&g, "off the table", whatif.WingOff)
	return g
}

func (c answerComparison) cueBallGroup() chanceGroup {
	g := chanceGroup{ID: "cue-ball", Title: "The cue ball"}
	g.Rows = []chanceRow{
		c.newChanceRow("stopped in the window", whatif.InWindow),
		c.newChanceRow("stopped in the head half, outside the window", whatif.CueHeadEnd),
		c.newChanceRow("stopped in the foot half, outside the window", whatif.CueFootEnd),
		c.newChanceRow("scratched", whatif.Scratched),
	}
	for _, p := range table.Pockets() {
		c.addChanceRow(&g, "scratched in "+p.Words(), whatif.ScratchedIn(p))
	}
	c.addChanceRow(&g, "off the table", whatif.CueOff)
	return g
}

func (c answerComparison) lowBallGroup() chanceGroup {
	g := chanceGroup{ID: "low-balls", Title: "The low balls"}
	q := c.now.Question
	if q.Setup.Game == rack.EightBall {
		g.Title = "The front balls"
	}
	if c.was != nil && fmt.Sprint(c.was.Question.LowBalls()) != fmt.Sprint(q.LowBalls()) {
		c.was = nil // other balls are followed there
	}
	for i, b := range q.LowBalls() {
		name := "the " + b.String()
		g.Rows = append(g.Rows, c.newChanceRow(name+" in the head half", whatif.LowHeadEnd(i)), c.newChanceRow(name+" in the foot half", whatif.LowFootEnd(i)))
		c.addChanceRow(&g, name+" pocketed", whatif.LowPocketed(i))
	}
	return g
}

func (c answerComparison) wholeBreakGroup() chanceGroup {
	g := chanceGroup{ID: "the-break", Title: "The break as a whole"}
	g.Rows = append(g.Rows, c.newChanceRow("dry: no ball pocketed", whatif.DryBreak))
	c.addChanceRow(&g, "a ball off the table", whatif.AnyOff)
	return g
}

// newCrowdMaps draws where the cue ball, the wing ball and the low balls ended.
func newCrowdMaps(id, title string, a whatif.Answer) crowdMaps {
	q := a.Question
	all := crowdMaps{Title: title}
	add := func(ball rack.Ball, name string, fate func(whatif.SimulatedBreak) whatif.BallFate) {
		v := picture.CrowdView{ID: fmt.Sprintf("map-%s-%d", id, ball), Kind: q.Kind, Ball: ball, Title: name, Of: len(a.Breaks)}
		if ball == 0 {
			v.Window = &q.Window
		}
		down := map[table.Pocket]int{}
		for _, b := range a.Breaks {
			switch f := fate(b); f.End {
			case breaksim.Stopped:
				v.Places = append(v.Places, f.Place)
			case breaksim.Dropped:
				down[f.Pocket]++
			}
		}
		for _, p := range table.Pockets() {
			v.Down = append(v.Down, picture.PocketCount{Pocket: p, Count: down[p]})
		}
		for _, area := range density.Areas(v.Places, q.Kind, 0.9, 0.5) {
			v.Areas = append(v.Areas, picture.CrowdArea(area))
		}
		all.Views = append(all.Views, v)
	}
	add(0, "Cue ball", func(b whatif.SimulatedBreak) whatif.BallFate { return b.Cue })
	wing := q.Setup.WingBall()
	add(wing, "Wing ball, the "+wing.String(), func(b whatif.SimulatedBreak) whatif.BallFate { return b.Wing })
	for i, ball := range q.LowBalls() {
		if ball != wing {
			add(ball, "The "+ball.String(), func(b whatif.SimulatedBreak) whatif.BallFate { return b.Low[i] })
		}
	}
	return all
}

package whatif

import (
	"fmt"
	"math"

	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/picture"
	"breakwright/web/sheet"
)

// seen is what the page shows of answers.
type seen struct {
	Answer string
	// Compared says that there is another setting to compare with.
	Compared bool
	Changes  []string
	Rates    []rate
	Groups   []group
	Maps     []crowds
	Play     play
}

// rate is one of the chances at the top.
type rate struct {
	Now picture.RateView
	Was *picture.RateView
}

// group is a table of chances that belong together.
type group struct {
	ID, Title string
	Rows      []row
}

// row is one event: its chance, and the change from another setting.
type row struct {
	Words    string
	Now, Was chance
	Change   change
}

// chance is a count and its range in words.
type chance struct{ Count, Range string }

// change is a difference in words.
type change struct {
	Words string
	Clear bool
}

// crowds are the maps of one setting.
type crowds struct {
	Title string
	Views []picture.CrowdView
}

func newSeen(a ask, answers []whatif.Answer) (*seen, error) {
	c := comparison{now: answers[len(answers)-1]}
	if a.Was != nil {
		c.was = &answers[0]
	}
	s := &seen{Compared: c.was != nil, Answer: c.sentence()}
	s.Rates = c.rates()
	s.Groups = []group{c.wing(), c.cue(), c.low(), c.rest()}
	s.Maps = append(s.Maps, mapsOf("now", "", c.now))
	if c.was != nil {
		s.Changes = sheet.ChangeWords(c.was.Question.Setup, c.now.Question.Setup, c.now.Question.Kind)
		s.Maps[0].Title = "Now"
		s.Maps = []crowds{mapsOf("was", "Before", *c.was), s.Maps[0]}
	}
	var err error
	s.Play, err = newPlay(a, c.now)
	return s, err
}

// comparison counts in one answer or in two.
type comparison struct {
	now whatif.Answer
	was *whatif.Answer
}

func (c comparison) row(words string, e whatif.Event) row {
	r := row{Words: words, Now: chanceOf(c.now.Count(e))}
	if c.was != nil {
		r.Was = chanceOf(c.was.Count(e))
		r.Change = changeOf(whatif.Compare(*c.was, c.now, e))
	}
	return r
}

// happens says whether an event is seen at all.
func (c comparison) happens(e whatif.Event) bool {
	return c.now.Count(e).Made > 0 || c.was != nil && c.was.Count(e).Made > 0
}

// add adds rows for events that happen.
func (c comparison) add(g *group, words string, e whatif.Event) {
	if c.happens(e) {
		g.Rows = append(g.Rows, c.row(words, e))
	}
}

func chanceOf(c whatif.Chance) chance {
	return chance{sheet.CountWords(c.Made, c.Of), fmt.Sprintf("%.0f–%.0f %%", 100*c.Range.Low, 100*c.Range.High)}
}

func changeOf(d whatif.Difference) change {
	return change{fmt.Sprintf("%s (%s to %s)", points(d.Share), points(d.Low), points(d.High)), d.Clear()}
}

// points writes a difference of shares in percentage points, with its sign.
func points(share float64) string {
	n := math.Round(100 * share)
	switch {
	case n > 0:
		return fmt.Sprintf("+%.0f", n)
	case n < 0:
		return fmt.Sprintf("−%.0f", -n)
	}
	return "0"
}

func (c comparison) rates() []rate {
	var all []rate
	for i, one := range []struct {
		label string
		event whatif.Event
	}{{"Wing ball in its corner", whatif.WingMade}, {"Cue ball in the window", whatif.InWindow}, {"Scratch", whatif.Scratched}} {
		r := rate{Now: rateOf(fmt.Sprintf("rate-%d-now", i), one.label, c.now.Count(one.event))}
		if c.was != nil {
			was := rateOf(fmt.Sprintf("rate-%d-was", i), one.label, c.was.Count(one.event))
			r.Was = &was
		}
		all = append(all, r)
	}
	return all
}

func rateOf(id, label string, c whatif.Chance) picture.RateView {
	return picture.RateView{ID: id, Label: label, Made: c.Made, Of: c.Of, Low: c.Range.Low, High: c.Range.High}
}

func (c comparison) wing() group {
	g := group{ID: "wing-ball", Title: "The wing ball, the " + c.now.Question.Setup.WingBall().String()}
	g.Rows = append(g.Rows, c.row("in its own corner", whatif.WingMade))
	c.add(&g, "in another pocket", whatif.WingElsewhere)
	for _, m := range []struct {
		met   breaksim.Met
		words string
	}{
		{breaksim.MetSideRail, "up: side rail first"}, {breaksim.MetFootRail, "up: foot rail first"},
		{breaksim.MetBall, "up: kissed by another ball first"}, {breaksim.MetJaws, "up: rattled in the jaws"},
		{breaksim.MetHeadRail, "up: head rail first"}, {breaksim.MetPocket, "up: pocket first"}, {"", "up: met nothing"},
	} {
		c.add(&g, m.words, whatif.WingStayed(m.met))
	}
	c.add(&g, "off the table", whatif.WingOff)
	return g
}

func (c comparison) cue() group {
	g := group{ID: "cue-ball", Title: "The cue ball"}
	g.Rows = []row{
		c.row("stopped in the window", whatif.InWindow),
		c.row("stopped at the head end, outside the window", whatif.CueHeadEnd),
		c.row("stopped at the foot end, outside the window", whatif.CueFootEnd),
		c.row("scratched", whatif.Scratched),
	}
	for _, p := range table.Pockets() {
		c.add(&g, "scratched in "+p.Words(), whatif.ScratchedIn(p))
	}
	c.add(&g, "off the table", whatif.CueOff)
	return g
}

func (c comparison) low() group {
	g := group{ID: "low-balls", Title: "The low balls"}
	q := c.now.Question
	if q.Setup.Game == rack.EightBall {
		g.Title = "The front balls"
	}
	if c.was != nil && fmt.Sprint(c.was.Question.Low()) != fmt.Sprint(q.Low()) {
		c.was = nil // other balls are followed there
	}
	for i, b := range q.Low() {
		name := "the " + b.String()
		g.Rows = append(g.Rows, c.row(name+" at the head end", whatif.LowHeadEnd(i)), c.row(name+" at the foot end", whatif.LowFootEnd(i)))
		c.add(&g, name+" pocketed", whatif.LowDown(i))
	}
	return g
}

func (c comparison) rest() group {
	g := group{ID: "the-break", Title: "The break as a whole"}
	g.Rows = append(g.Rows, c.row("dry: no ball pocketed", whatif.Dry))
	c.add(&g, "a ball off the table", whatif.AnyOff)
	return g
}

// mapsOf draws where the cue ball, the wing ball and the low balls ended.
func mapsOf(id, title string, a whatif.Answer) crowds {
	q := a.Question
	all := crowds{Title: title}
	add := func(ball rack.Ball, name string, fate func(whatif.Break) whatif.Fate) {
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
		for _, area := range whatif.Areas(v.Places, q.Kind, 0.9, 0.5) {
			v.Areas = append(v.Areas, picture.CrowdArea(area))
		}
		all.Views = append(all.Views, v)
	}
	add(0, "Cue ball", func(b whatif.Break) whatif.Fate { return b.Cue })
	wing := q.Setup.WingBall()
	add(wing, "Wing ball, the "+wing.String(), func(b whatif.Break) whatif.Fate { return b.Wing })
	for i, ball := range q.Low() {
		if ball != wing {
			add(ball, "The "+ball.String(), func(b whatif.Break) whatif.Fate { return b.Low[i] })
		}
	}
	return all
}

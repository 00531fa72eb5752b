package picture

import (
	"fmt"
	"strconv"
	"strings"

	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// titleWords is the picture's name for those who hear it.
func (t TableView) titleWords() string {
	if t.Title != "" {
		return t.Title
	}
	return KindWords(t.Kind)
}

// DescribeTable says in plain words what the picture shows.
func DescribeTable(t TableView, u say.Units) string {
	words := []string{KindWords(t.Kind) + ", the head end at the bottom."}
	add := func(s string) {
		if s != "" {
			words = append(words, say.Sentence(s))
		}
	}
	add(t.rackWords())
	add(t.cueWords(u))
	add(t.aimWords(u))
	add(t.beforeWords(u))
	add(t.windowWords(u))
	if t.Box > 0 {
		add("the break box reaches " + u.Length(t.Box) + " to each side of the long string")
	}
	add(t.stopWords())
	add(t.earlierWords())
	add(t.ballWords())
	if t.Tappable {
		add("tap where the cue ball stopped")
	}
	return strings.Join(words, " ")
}

func (t TableView) rackWords() string {
	if t.Rack == nil || t.Rack.Order.IsZero() {
		return ""
	}
	r := *t.Rack
	words := r.Game.Words() + " rack, head ball on the foot spot"
	if r.Spot == rack.CentreOnSpot {
		words = r.Game.Words() + " rack, centre ball on the foot spot"
	}
	wing, found := r.Order.BallAt(r.Game, r.Wing)
	if found {
		words += fmt.Sprintf(", the %s is the wing ball", wing)
	}
	if found && r.WingLine {
		words += " and goes to " + r.wingPocket().Words()
	}
	return words
}

// wingPocket is the foot corner on the wing ball's own side.
func (r RackedBalls) wingPocket() table.Pocket {
	if r.Wing == r.Game.WingSlot(table.Right) {
		return table.FootRight
	}
	return table.FootLeft
}

func (t TableView) cueWords(u say.Units) string {
	if t.Cue == nil {
		return ""
	}
	other := t.Cue.Place
	if t.Before != nil {
		other = t.Before.Place
	}
	return "cue ball " + CuePlaceWordsBeside(t.Cue.Place, other, t.Kind, u)
}

func (t TableView) aimWords(u say.Units) string {
	if t.Cue == nil || !t.Cue.Aim || t.Rack == nil {
		return ""
	}
	a, ok := FindAimLine(*t.Cue, *t.Rack, t.Kind)
	if !ok {
		return ""
	}
	words := "it meets the head ball " + ContactWords(t.Cue.Contact, u)
	if b, found := t.Rack.Order.BallAt(t.Rack.Game, a.Target); found {
		words += fmt.Sprintf("; the line runs on to the %s at the rear", b)
	}
	return words
}

func (t TableView) beforeWords(u say.Units) string {
	if t.Before == nil {
		return ""
	}
	now := t.Before.Place
	if t.Cue != nil {
		now = t.Cue.Place
	}
	return "before the change it stood " + CuePlaceWordsBeside(t.Before.Place, now, t.Kind, u)
}

func (t TableView) windowWords(u say.Units) string {
	if t.Window == nil || t.countBreaks() > 0 {
		return ""
	}
	return "the cue ball should stop in the light window: " + windowWords(*t.Window, t.Kind, u)
}

// windowWords places the window: from 25 to 50 inches from the head rail…
func windowWords(w table.Window, k table.Kind, u say.Units) string {
	if w == k.StandardWindow() {
		return "from the head string to the centre, across the middle half"
	}
	return fmt.Sprintf("from %s to %s from the head rail, and from %s to %s",
		u.Number(say.Place, float64(w.Head)), u.Length(w.Foot), shortAcross(w.Left, u), shortAcross(w.Right, u))
}

// shortAcross is a label: "18 in left", "on the long string".
func shortAcross(x table.Inches, u say.Units) string {
	if formatUnits(float64(x)) == "0" {
		return "the long string"
	}
	return u.WithShort(say.Place, float64(absInches(x))) + " " + string(table.SideOf(x))
}

// shortAlong is a label: "on the head string", "4 in behind it".
func shortAlong(p table.Place, k table.Kind, u say.Units) string {
	behind := k.HeadString() - p.Y
	switch {
	case formatUnits(float64(behind)) == "0":
		return "on the head string"
	case behind < 0:
		return u.WithShort(say.Place, float64(-behind)) + " past the string"
	}
	return u.WithShort(say.Place, float64(behind)) + " behind the string"
}

// stopWords counts the cue balls: "cue ball stopped in the window 6 of 10; four
// stopped outside it in the foot half".
func (t TableView) stopWords() string {
	n := t.countBreaks()
	if n == 0 {
		return ""
	}
	inside, footHalf, headHalf := 0, 0, 0
	for _, s := range t.Stops {
		switch {
		case t.Window != nil && t.Window.Contains(s.Place):
			inside++
		case s.Place.Y > t.Kind.CentreSpot().Y:
			footHalf++
		default:
			headHalf++
		}
	}
	first := fmt.Sprintf("cue ball stopped on the table %d of %d", len(t.Stops), n)
	where := "stopped"
	if t.Window != nil {
		first = fmt.Sprintf("cue ball stopped in the window %d of %d", inside, n)
		where += " outside it"
	}
	var rest []string
	for _, part := range []struct {
		n    int
		what string
	}{
		{footHalf, where + " in the foot half"}, {headHalf, where + " in the head half"},
		{len(t.Scratches), t.scratchWords()}, {len(t.Off), "left the table"},
	} {
		if part.n > 0 {
			rest = append(rest, say.Number(part.n)+" "+part.what)
		}
	}
	if len(rest) == 0 {
		return first
	}
	return first + "; " + say.Join(rest)
}

// scratchWords names the pockets: "scratched (the left side pocket)".
func (t TableView) scratchWords() string {
	var names []string
	for _, p := range table.Pockets() {
		n := 0
		for _, s := range t.Scratches {
			if s.Pocket == p {
				n++
			}
		}
		switch {
		case n == 1:
			names = append(names, p.Words())
		case n > 1:
			names = append(names, p.Words()+" "+strconv.Itoa(n)+" times")
		}
	}
	return "scratched, in " + say.Join(names)
}

func (t TableView) earlierWords() string {
	if len(t.Earlier) == 0 {
		return ""
	}
	if t.Window == nil {
		return "small rings show where it stopped before the change"
	}
	inside := 0
	for _, p := range t.Earlier {
		if t.Window.Contains(p) {
			inside++
		}
	}
	return fmt.Sprintf("before the change, shown as small rings, it stopped in the window %d of %d stops", inside, len(t.Earlier))
}

func (t TableView) ballWords() string {
	var parts []string
	for _, b := range t.Balls {
		parts = append(parts, fmt.Sprintf("the %s %s", b.Ball, t.Kind.ZoneWords(b.Place)))
	}
	if len(parts) == 0 {
		return ""
	}
	return "balls stopped: " + strings.Join(parts, "; ")
}

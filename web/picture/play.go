package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// PlayView is one computed break that can be played: a still picture with the
// ways of the cue ball and the wing ball, data for a script that moves the
// balls, and stills of chosen moments.
type PlayView struct {
	ID      string
	Kind    table.Kind
	Title   string
	Balls   []MovingBall
	Wing    rack.Ball // its way is drawn beside that of the cue ball
	Seconds float64
	// Stills are moments in seconds from the stroke, growing.
	Stills []float64
}

// MovingBall is a ball on its way. Ball 0 is the cue ball.
type MovingBall struct {
	Ball rack.Ball
	Home table.Place // where it stood before the stroke
	Path breaksim.BallPath
	// End reports whether it is gone after its path, and Pocket where.
	End    breaksim.EndKind
	Pocket table.Pocket
}

// NewPlayView returns the view of a break computed with paths.
func NewPlayView(id string, r breaksim.BreakResult, wing rack.Slot, k table.Kind) PlayView {
	v := PlayView{ID: id, Kind: k, Seconds: r.Seconds}
	for _, b := range r.Balls {
		m := MovingBall{Ball: b.Ball, Home: b.Place, Path: b.Path, End: b.End, Pocket: b.Pocket}
		if len(b.Path) > 0 {
			m.Home = b.Path[0].From
		}
		v.Balls = append(v.Balls, m)
		if b.Slot == wing {
			v.Wing = b.Ball
		}
	}
	return v
}

// placeAt returns where the ball is, and false when it is on the table no longer.
func (m MovingBall) placeAt(seconds float64) (table.Place, bool) {
	if len(m.Path) == 0 || seconds <= m.Path[0].Start {
		return m.Home, true
	}
	if m.End != breaksim.Stopped && seconds >= m.endSeconds() {
		return table.Place{}, false
	}
	p, _ := m.Path.PlaceAt(seconds)
	return p, true
}

// endSeconds is when the ball's path ends.
func (m MovingBall) endSeconds() float64 {
	if len(m.Path) == 0 {
		return 0
	}
	return m.Path[len(m.Path)-1].End
}

// formatLegs writes the path for a script: for each leg start and end in
// milliseconds, then the three points of its curve in user units, legs parted
// by semicolons.
func (m MovingBall) formatLegs() string {
	parts := make([]string, len(m.Path))
	for i, l := range m.Path {
		parts[i] = strings.Join([]string{
			formatMilliseconds(l.Start), formatMilliseconds(l.End), formatPlace(l.From), formatPlace(l.Control), formatPlace(l.To),
		}, " ")
	}
	return strings.Join(parts, ";")
}

// formatMilliseconds keep a tenth: the rack breaks up in a few.
func formatMilliseconds(seconds float64) string {
	return strconv.FormatFloat(math.Round(seconds*1e4)/10, 'f', -1, 64)
}

// goneMilliseconds is when a script must take the ball off, "" when it stays.
func (m MovingBall) goneMilliseconds() string {
	if m.End == breaksim.Stopped {
		return ""
	}
	return formatMilliseconds(m.endSeconds())
}

// wayPath is the ball's path between two moments, exactly, as curves.
func (m MovingBall) wayPath(from, to float64) string {
	var b strings.Builder
	for _, l := range m.Path {
		start, end := max(l.Start, from), min(l.End, to)
		if !(end > start) {
			continue
		}
		long := l.End - l.Start
		a, z := (start-l.Start)/long, (end-l.Start)/long
		if b.Len() == 0 {
			b.WriteString("M" + formatPlace(blendLeg(l, a, a)))
		}
		b.WriteString("Q" + formatPlace(blendLeg(l, a, z)) + " " + formatPlace(blendLeg(l, z, z)))
	}
	return b.String()
}

// blendLeg is the blossom of a leg's curve: with both arguments alike it is the
// place at that share of its time, with two it is the control point between.
func blendLeg(l breaksim.PathLeg, a, b float64) table.Place {
	mix := func(p, q, r table.Inches) table.Inches {
		return table.Inches((1-a)*(1-b)*float64(p) + (a*(1-b)+b*(1-a))*float64(q) + a*b*float64(r))
	}
	return table.Place{X: mix(l.From.X, l.Control.X, l.To.X), Y: mix(l.From.Y, l.Control.Y, l.To.Y)}
}

// drawsWayOf reports whether the ball's whole way is drawn.
func (v PlayView) drawsWayOf(m MovingBall) bool { return m.Ball == 0 || m.Ball == v.Wing }

// stillStartSeconds is the moment before a still, from which ways are drawn in it.
func (v PlayView) stillStartSeconds(still int) float64 {
	if still == 0 {
		return 0
	}
	return v.Stills[still-1]
}

func (v PlayView) stillID(i int) string { return v.ID + "-still-" + strconv.Itoa(i) }

// DescribePlay says how the break went.
func DescribePlay(v PlayView) string {
	words := fmt.Sprintf("%s, the head end at the bottom. One break of the model from the stroke to rest in %.1f seconds.", KindWords(v.Kind), v.Seconds)
	return words + " In the end: " + v.stateWords(v.Seconds)
}

// DescribeStill says where things are at a moment.
func DescribeStill(v PlayView, i int) string {
	return fmt.Sprintf("After %.2f seconds: ", v.Stills[i]) + v.stateWords(v.Stills[i])
}

func (v PlayView) stateWords(seconds float64) string {
	var words, down, off []string
	for _, m := range v.Balls {
		p, there := m.placeAt(seconds)
		switch {
		case m.Ball == 0 && there:
			words = append(words, "the cue ball is "+v.Kind.ZoneWords(p))
		case m.Ball == 0 && m.End == breaksim.Dropped:
			words = append(words, "the cue ball is in "+m.Pocket.Words())
		case m.Ball == 0:
			words = append(words, "the cue ball is off the table")
		case !there && m.End == breaksim.Dropped:
			down = append(down, "the "+m.Ball.String()+" in "+m.Pocket.Words())
		case !there:
			off = append(off, "the "+m.Ball.String())
		}
	}
	if len(down) > 0 {
		words = append(words, "down: "+say.Join(down))
	}
	if len(off) > 0 {
		words = append(words, "off the table: "+say.Join(off))
	}
	return strings.Join(words, "; ") + "."
}

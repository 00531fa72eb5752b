package picture

import (
	"fmt"
	"strings"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// CloudView is many places on a table, drawn so small or so dense that none is
// numbered: where a student's cue balls stopped, or a whole class's.
type CloudView struct {
	ID    string
	Title string
	Kind  table.Kind
	// Places are where cue balls stopped. Scratches and Off count those that did
	// not stop: they are only said, not drawn.
	Places         []table.Place
	Scratches, Off int
	Window         *table.Window
	// InWindow counts the places that are in the window of their own set.
	InWindow int
	// Mean or, of many places, Areas say where most stop; the largest area first.
	Mean  *Ellipse
	Areas []CrowdArea
	// From is where the cue ball stood before the break.
	From *table.Place
	// Words is said instead of "Where the cue ball stopped".
	Words string
}

// cloudEdge is how much of the cushions is drawn.
const cloudEdge = cushionWidth

// viewBox is the cloth with a little cushion, in user units.
func (c CloudView) viewBox() string {
	w, l := c.Kind.Width()/2+cloudEdge, c.Kind.Length()
	return strings.Join([]string{formatX(-w), formatY(l + cloudEdge), formatX(2 * w), formatX(l + 2*cloudEdge)}, " ")
}

// placeDotsPath draws round caps of empty lines: the shortest way to write many dots.
func placeDotsPath(places []table.Place) string {
	var b strings.Builder
	b.Grow(14 * len(places))
	for _, p := range places {
		b.WriteString("M" + formatPlace(p) + "h0")
	}
	return b.String()
}

func holePath(k table.Kind) string {
	places := make([]table.Place, 0, 6)
	for _, h := range holeOutlines(k) {
		places = append(places, h.at)
	}
	return placeDotsPath(places)
}

// countBreaks is how many breaks the picture stands for.
func (c CloudView) countBreaks() int { return len(c.Places) + c.Scratches + c.Off }

// dotWidth is smaller where there are many, so that areas are seen through them.
func (c CloudView) dotWidth() string {
	if len(c.Areas) > 0 || len(c.Places) > 400 {
		return "13"
	}
	return "22"
}

// DescribeCloud says how many there are and how many stopped in the window.
func DescribeCloud(c CloudView) string {
	if c.countBreaks() == 0 {
		return "No breaks yet."
	}
	words := c.Words
	if words == "" {
		words = "Where the cue ball stopped"
	}
	words += fmt.Sprintf(" in %s.", say.Count(c.countBreaks(), "break", "breaks"))
	if c.Window != nil {
		words += fmt.Sprintf(" In the window: %d of %d.", c.InWindow, c.countBreaks())
	}
	if c.Scratches > 0 {
		words += fmt.Sprintf(" Scratches: %d of %d.", c.Scratches, c.countBreaks())
	}
	if c.Off > 0 {
		words += fmt.Sprintf(" Off the table: %d of %d.", c.Off, c.countBreaks())
	}
	return words
}

// CloudLegend lists the marks that the picture has.
func CloudLegend(c CloudView) []LegendItem {
	var key []LegendItem
	if len(c.Places) > 0 {
		key = append(key, LegendItem{MarkDot, "where a cue ball stopped"})
	}
	if c.From != nil {
		key = append(key, LegendItem{MarkCue, "where it stood"})
	}
	if c.Window != nil {
		key = append(key, LegendItem{MarkWindow, "cue-ball window"})
	}
	if c.Mean != nil {
		key = append(key, LegendItem{MarkMean, "where most stop"})
	}
	if len(c.Areas) > 0 {
		key = append(key, LegendItem{MarkAreas, areasWords})
	}
	return key
}

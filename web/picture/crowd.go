package picture

import (
	"fmt"
	"strconv"
	"strings"

	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// CrowdView is where one ball ended in many breaks.
type CrowdView struct {
	ID    string
	Kind  table.Kind
	Title string // "Cue ball"
	// Ball is 0 for the cue ball.
	Ball   rack.Ball
	Window *table.Window
	// Of counts the breaks; Places are where the ball stopped, Down the pockets
	// it dropped into.
	Of     int
	Places []table.Place
	Down   []PocketCount
	// Areas hold a share of the places each, the largest share first.
	Areas []CrowdArea
}

// PocketCount is how often a ball dropped into a pocket.
type PocketCount struct {
	Pocket table.Pocket
	Count  int
}

// CrowdArea is an area that holds a share (0 to 1) of the places: closed loops,
// those of its holes running the other way round.
type CrowdArea struct {
	Share float64
	Loops [][]table.Place
}

// areasWords say what the lines of two areas hold.
const areasWords = "inner line: half of the stops; outer line: nine in ten"

// maxDots is how many places are drawn: more would hide one another.
const maxDots = 300

func (c CrowdView) drawnPlaces() []table.Place { return c.Places[:min(len(c.Places), maxDots)] }

func (a CrowdArea) areaPath() string {
	var b strings.Builder
	for _, loop := range a.Loops {
		for i, p := range loop {
			if i == 0 {
				b.WriteString("M" + formatPlace(p))
			} else {
				b.WriteString("L" + formatPlace(p))
			}
		}
		b.WriteString("z")
	}
	return b.String()
}

// fillOpacity is the stronger the smaller the area.
func (a CrowdArea) fillOpacity() string {
	if a.Share > 0.7 {
		return ".28"
	}
	return ".45"
}

// downFill marks a scratch as lost and an object ball pocketed as light.
func (c CrowdView) downFill() (class, fill, figures string) {
	if c.Ball == 0 {
		return "pic-lost", lostColour, ivory
	}
	return "pic-made", ivory, ink
}

func (p PocketCount) countWords() string { return strconv.Itoa(p.Count) }

func (c CrowdView) ballName() string {
	if c.Ball == 0 {
		return "the cue ball"
	}
	return "the " + c.Ball.String()
}

// DescribeCrowd says in plain words where the ball ended.
func DescribeCrowd(c CrowdView) string {
	head, inside := 0, 0
	for _, p := range c.Places {
		if p.Y <= c.Kind.CentreSpot().Y {
			head++
		}
		if c.Window != nil && c.Window.Contains(p) {
			inside++
		}
	}
	words := fmt.Sprintf("%s, the head end at the bottom. In %d breaks of the model %s stopped in the head half %s and in the foot half %s.",
		KindWords(c.Kind), c.Of, c.ballName(), say.Times(head), say.Times(len(c.Places)-head))
	if c.Window != nil {
		words += fmt.Sprintf(" It stopped in the window %s.", say.Times(inside))
	}
	var down []string
	for _, p := range c.Down {
		if p.Count > 0 {
			down = append(down, p.Pocket.Words()+" "+p.countWords())
		}
	}
	if len(down) > 0 {
		words += " It dropped: " + say.Join(down) + "."
	}
	return words
}

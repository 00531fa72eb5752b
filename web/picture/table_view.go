package picture

import (
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// TableView is a picture of a table. Everything but ID and Kind may be left
// out. Places are inches of the table's own coordinates.
type TableView struct {
	// ID is unique on the page and begins the ids inside the picture.
	ID   string
	Kind table.Kind
	// Title names the picture for those who hear it; empty means the kind of
	// table: "Nine-foot table".
	Title string

	Rack   *RackedBalls
	Cue    *CueBall
	Before *CueBall // where the cue ball stood before a change, drawn as a ghost
	Window *table.Window
	// Box is how far from the long string the break box reaches; 0 draws none.
	Box table.Inches

	// The breaks of a set: each break's cue ball is in one of the three.
	Stops     []Stop
	Scratches []Scratch
	Off       []int // break numbers of cue balls that left the table
	// Earlier are places where the cue ball stopped before a change, unnumbered.
	Earlier []table.Place
	Mean    *Ellipse
	Paths   []Path
	Balls   []RestBall

	// DiamondNumbers numbers the sights; Distances measures the cue ball's place.
	DiamondNumbers, Distances bool
	// CueIsMoved says that a handle lies over the cue ball: the distances are written
	// on the other side, where it hides nothing.
	CueIsMoved bool
	// Tappable adds what a script needs to turn a tap into inches: see the
	// package comment. Off is not drawn then, so that the extent is always ExtentOf.
	Tappable bool
}

// RackedBalls is a rack on the table.
type RackedBalls struct {
	Game  rack.Game
	Spot  rack.Spot
	Order rack.Order
	// Wing is the slot of the wing ball being played; "" marks none.
	Wing rack.Slot
	// WingLine draws the wing ball's way to the foot corner on its own side.
	WingLine bool
}

// CueBall is the cue ball before the break.
type CueBall struct {
	Place table.Place
	// Contact is how far from a full hit it is sent, positive to the right as
	// the breaker sees it.
	Contact table.Inches
	// Aim draws the line to the head ball and on through the rack.
	Aim bool
}

// Stop is where a break's cue ball stopped. Break 0 draws no number.
type Stop struct {
	Break int
	Place table.Place
}

// Scratch is a break whose cue ball went into a pocket.
type Scratch struct {
	Break  int
	Pocket table.Pocket
}

// RestBall is an object ball where it stopped.
type RestBall struct {
	Ball  rack.Ball
	Place table.Place
}

// Path is a way over the cloth, from its first place to its last.
type Path struct {
	Places []table.Place
}

// Ellipse is the mean of several places and how they scatter around it.
type Ellipse struct {
	Centre table.Place
	// Major and Minor are half axes.
	Major, Minor table.Inches
	// AngleRadians turns the major axis from the x axis towards the foot rail.
	AngleRadians float64
}

// viewExtent is what the picture shows.
func (t TableView) viewExtent() Extent {
	e := ExtentOf(t.Kind)
	if len(t.drawnOffTable()) > 0 {
		e = e.withOutside()
	}
	return e
}

// drawnOffTable are the cue balls off the table that are drawn.
func (t TableView) drawnOffTable() []int {
	if t.Tappable {
		return nil
	}
	return t.Off
}

// countBreaks counts the breaks whose cue ball is drawn.
func (t TableView) countBreaks() int { return len(t.Stops) + len(t.Scratches) + len(t.Off) }

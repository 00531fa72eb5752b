package drill

import (
	"fmt"

	"breakwright/internal/table"
)

// Drill is a setup, a number of breaks, what to watch and what counts as good.
type Drill struct {
	Name  string
	Kind  table.Kind // the kind of table it is written for
	Setup Setup
	// Breaks in a set; ten unless the coach says otherwise.
	Breaks  int
	Window  table.Window
	Targets Targets
	// House is what the room asks of a break, beyond the rule book.
	House HouseRules
	// Watch says what to look for, in the coach's words.
	Watch string
	// WatchList says what is asked of each break.
	WatchList WatchList
}

// Limits of a drill.
const (
	UsualBreaks = 10
	MaxBreaks   = 50
	MaxName     = 120 // characters
	MaxWatch    = 500 // characters
)

// StandardTargets: about half the breaks is good for the wing ball on a
// 9-foot table, more on smaller ones (common practice, no source).
func StandardTargets(k table.Kind) Targets {
	t := Targets{Wing: 0.5, Window: 0.5}
	switch k.Feet {
	case 8:
		t.Wing = 0.55
	case 7:
		t.Wing = 0.6
	}
	return t
}

// ForSide returns the drill the right way round for a student who breaks from side.
func (d Drill) ForSide(side table.Side) Drill {
	if d.Setup.Side == side {
		return d
	}
	d.Setup = d.Setup.Mirror()
	d.Window = d.Window.Mirror()
	return d
}

// CarryToKind carries the drill to another kind of table: its setup as Setup.OnKind
// does, its window in proportion to the length. What counts as good stays, and so
// does the break box, as far as the table is wide.
func (d Drill) CarryToKind(k table.Kind) Drill {
	scale := k.Length() / d.Kind.Length()
	d.Window = d.Window.Scale(scale)
	d.Setup = d.Setup.CarryToKind(d.Kind, k)
	d.House.BreakBox = min(d.House.BreakBox, OutermostCue(k))
	d.Setup = d.Setup.KeepInBox(d.House.BreakBox)
	d.Kind = k
	return d
}

// Check says what in the drill cannot be asked of anyone.
func (d Drill) Check() error {
	var p Problems
	if err := CheckName(d.Name); err != "" {
		p.Add("name", err)
	}
	if d.Breaks < 1 || d.Breaks > MaxBreaks {
		p.Add("breaks", fmt.Sprintf("a set has from 1 to %d breaks; %d is usual", MaxBreaks, UsualBreaks))
	}
	if err := d.Window.Check(d.Kind); err != nil {
		p.Add("window", err.Error())
	}
	d.Targets.addProblems(&p)
	d.checkHouse(&p)
	if says := CheckNote(d.Watch, MaxWatch); says != "" {
		p.Add("watch", says)
	}
	if d.WatchList.CueOnly && d.WatchList.WingPath {
		p.Add("watch_cue_only", "only the cue ball is watched, and the wing ball is asked about: choose one of the two")
	}
	if err := d.Setup.Check(d.Kind); err != nil {
		if inSetup, ok := err.(Problems); ok {
			p = append(p, inSetup...)
		}
	}
	return p.Err()
}

func (d Drill) checkHouse(p *Problems) {
	if err, wrong := d.House.CheckBox(d.Kind).(Problems); wrong {
		*p = append(*p, err...)
	} else if !d.Setup.InBox(d.House.BreakBox) {
		p.Add("cue_x", fmt.Sprintf("the break box reaches %s inches to each side of the long string: place the cue ball in it", d.House.BreakBox))
	}
}

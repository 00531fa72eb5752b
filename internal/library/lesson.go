package library

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Lesson is one thing to learn about the break.
type Lesson struct {
	// Key names the lesson in an address: small letters and hyphens.
	Key  string
	Name string
	// Purpose says to a coach when to give it; Watch says at the table what to
	// look for.
	Purpose, Watch string
	// List is the same as questions at the table.
	List drill.WatchList
	// Games are those that have it, the usual one first.
	Games []rack.Game

	aim   lessonAim
	racks map[rack.Game]string // for a break from the left; none is the practice rack
}

// lessonAim is what a lesson asks for, for a break from the left.
type lessonAim struct {
	out     float64      // the cue ball's place: a share of the table's width from the long string
	contact table.Inches // from full, to the right
	tip     drill.RadiusFraction
	speed   table.Mph // 0: the student's own
	wing    float64   // more or less than the table's usual target
	window  float64   // the share of breaks
	shot    float64   // the share of breaks with an open shot; 0 asks for none
}

// AllLessons lists the lessons in the order in which they are best given.
func AllLessons() []Lesson { return append([]Lesson(nil), lessons...) }

// FindLesson returns the lesson of that key, and false when there is none.
func FindLesson(key string) (Lesson, bool) {
	for _, l := range lessons {
		if l.Key == key {
			return l, true
		}
	}
	return Lesson{}, false
}

// FindLessonNamed returns the lesson of that name, and false when there is none.
func FindLessonNamed(name string) (Lesson, bool) {
	for _, l := range lessons {
		if l.Name == name {
			return l, true
		}
	}
	return Lesson{}, false
}

// HasGame reports whether the game has the lesson.
func (l Lesson) HasGame(g rack.Game) bool {
	for _, has := range l.Games {
		if has == g {
			return true
		}
	}
	return false
}

// DrillFor makes the lesson a drill of ten breaks from the left on this kind of
// table; a student who breaks from the right is shown it the other way round.
// Only for games that Has; the result passes drill.Check.
func (l Lesson) DrillFor(g rack.Game, k table.Kind) drill.Drill {
	d := drill.Drill{
		Name: l.Name, Kind: k, Setup: drill.StandardSetup(g, table.Left, k), Breaks: drill.UsualBreaks,
		Window: k.StandardWindow(), Targets: drill.StandardTargets(k), Watch: l.Watch, WatchList: l.List,
	}
	if g != rack.NineBall {
		d.Name += ", " + g.Words()
	}
	d.Setup.Cue.X = -table.Inches(math.Round(float64(k.Width()) * l.aim.out))
	d.Setup.Contact, d.Setup.Tip, d.Setup.Speed = l.aim.contact, l.aim.tip, l.aim.speed
	if order := l.racks[g]; order != "" {
		d.Setup.Order = mustOrder(g, order)
	}
	d.Targets.Wing += l.aim.wing
	d.Targets.Window, d.Targets.Shot = l.aim.window, l.aim.shot
	return d
}

// mustOrder reads an order that is written in this package.
func mustOrder(g rack.Game, s string) rack.Order {
	order, err := rack.ParseOrder(g, s)
	if err != nil {
		panic("library: " + err.Error())
	}
	return order
}

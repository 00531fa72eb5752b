package drills

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// readDrill makes a drill of what was typed. What cannot be read or cannot be
// asked of anyone is refused beside its field; where nothing was refused the
// drill is good to save.
func readDrill(f *page.Form) drill.Drill {
	d := drill.Drill{Name: readText(f, fieldName), Watch: readText(f, fieldWatch), Kind: readTableKind(f)}
	d.WatchList = drill.WatchList{WingPath: f.Text(fieldAskWing) != "", CuePath: f.Text(fieldAskPath) != ""}
	d.Breaks = f.WholeNumber(fieldBreaks, "type the number of breaks as a whole number, for example 10")
	d.Setup = readSetup(f, d.Kind)
	edge := "type the edge of the window in inches, for example 12.5"
	d.Window = table.Window{
		Left: table.Inches(f.NumberOrNaN(fieldLeft, edge)), Right: table.Inches(f.NumberOrNaN(fieldRight, edge)),
		Head: table.Inches(f.NumberOrNaN(fieldHead, edge)), Foot: table.Inches(f.NumberOrNaN(fieldFoot, edge)),
	}
	d.Targets = drill.Targets{Wing: readTarget(f, fieldWings), Window: readTarget(f, fieldStops), Shot: readWanted(f, fieldShots), RanOut: readWanted(f, fieldRuns)}
	d.House.ThreePoints = f.Text(fieldPoints) != ""
	if f.Text(fieldBox) != "" {
		d.House.BreakBox = table.Inches(f.NumberOrNaN(fieldBox, "type the inches to each side of the long string, for example 8, or leave it empty"))
	}
	rejectInvalid(f, d)
	return d
}

func readTableKind(f *page.Form) table.Kind {
	feet, _ := strconv.Atoi(f.Text(fieldFeet))
	corner, _ := peekNumber(f, fieldCorner) // hidden: what is no mouth becomes the standard one
	middle, _ := peekNumber(f, fieldMiddle)
	k, err := table.NewKind(feet, table.Inches(corner), table.Inches(middle))
	if err != nil {
		k, err = table.NewKind(feet, 0, 0)
	}
	if err != nil {
		f.Reject(fieldFeet, "choose a table of seven, eight or nine feet")
		return table.NineFoot()
	}
	return k
}

func readSetup(f *page.Form, k table.Kind) drill.Setup {
	var s drill.Setup
	var err error
	if s.Game, err = rack.ParseGame(f.Text(fieldGame)); err != nil {
		f.Reject(fieldGame, "choose one of the games")
		s.Game = rack.NineBall
	}
	if s.Side, err = table.ParseSide(f.Text(fieldSide)); err != nil {
		f.Reject(fieldSide, "choose the side of the table to break from")
		s.Side = table.Left
	}
	if s.Order, err = rack.ParseTypedOrder(s.Game, f.Text(fieldOrder)); err != nil {
		f.Reject(fieldOrder, orderErrorWords(err))
	}
	s.Spot, s.Wing = rack.Spot(f.Text(fieldSpot)), rack.Slot(f.Text(fieldWing))
	s.Cue = readCuePlace(f, s.Side, k)
	s.Contact = table.Inches(f.NumberOrNaN(fieldTouch, "type the contact in inches from full, for example -0.1; 0 is full"))
	s.Tip = drill.RadiusFraction(f.NumberOrNaN(fieldTip, "type the height as a part of the radius, for example -0.1; 0 is centre"))
	s.Spin = drill.RadiusFraction(f.NumberOrNaN(fieldSpin, "type the side spin as a part of the radius; 0 is none"))
	if f.Text(fieldSpeed) != "" {
		s.Speed = table.Mph(f.NumberOrNaN(fieldSpeed, "type the speed in miles an hour, or leave it empty"))
	}
	return s.Rounded()
}

// readCuePlace reads where the cue ball is placed, in the words of the form: how far
// from the long string on the break side, and how far behind the head string.
func readCuePlace(f *page.Form, side table.Side, k table.Kind) table.Place {
	across := table.Inches(f.NumberOrNaN(fieldAcross, "type the inches from the long string, for example 18"))
	behind := table.Inches(f.NumberOrNaN(fieldBehind, "type the inches behind the head string; 0 is on it"))
	switch edge := drill.OutermostCue(k); {
	case across < 0:
		f.Reject(fieldAcross, fmt.Sprintf("a break from the %s has the cue ball on the %s of the long string: type 0 or more, or change the side", side, side))
	case across > edge:
		f.Reject(fieldAcross, fmt.Sprintf("at most %s inches on this table: a ball's width off the side rail", edge))
	}
	if behind < 0 || behind > drill.FurthestBehind {
		f.Reject(fieldBehind, fmt.Sprintf("from 0, on the head string, to %s inches behind it", drill.FurthestBehind))
	}
	return table.Place{X: side.Sign() * across, Y: k.HeadString() - behind}
}

// readTarget reads a target in percent, to a tenth.
func readTarget(f *page.Form, name string) float64 {
	return math.Round(f.NumberOrNaN(name, "type the target in percent, for example 50")*10) / 1000
}

// readWanted reads a target that a drill need not have.
func readWanted(f *page.Form, name string) float64 {
	if f.Text(name) == "" {
		return 0
	}
	share := readTarget(f, name)
	if share == 0 {
		f.Reject(name, "type a share from 1 to 100 percent, or leave it empty")
	}
	return share
}

// rejectInvalid adds what the drill itself refuses, where the field has no
// sentence yet.
func rejectInvalid(f *page.Form, d drill.Drill) {
	var problems drill.Problems
	if !errors.As(d.Check(), &problems) {
		return
	}
	for _, p := range problems {
		if f.ErrorFor(p.Field) == "" && !(p.Field == fieldWindow && hasRejectedEdge(f)) {
			f.Reject(p.Field, p.Message)
		}
	}
}

func hasRejectedEdge(f *page.Form) bool {
	return f.ErrorFor(fieldLeft)+f.ErrorFor(fieldRight)+f.ErrorFor(fieldHead)+f.ErrorFor(fieldFoot) != ""
}

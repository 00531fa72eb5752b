package whatif

import (
	"slices"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/component"
	"breakwright/web/page"
)

// readQuestion makes a question of what was typed; fields that were not sent are
// as on the page's first sight. The form is read as it was shown, then made to
// follow a change of side, game or table: everything mirrored, the practice rack
// of the other game, the places carried over in proportion. What cannot be read
// or asked is refused beside its field.
func readQuestion(f *page.Form) whatif.Question {
	fillMissingFields(f)
	q := whatif.Question{Kind: readTableKind(f, shownChoice(f, shownFeet, fieldFeet)), Scatter: readScatter(f)}
	q.Setup = readSetup(f, q.Kind)
	q.Window = readWindow(f, q.Kind)
	q.Breaks = f.WholeNumber(fieldBreakCount, "choose how many breaks")
	q = followChoices(f, q)
	component.AddFieldProblems(f, q.Check())
	return q.Canonical()
}

// fillMissingFields fills in the fields that were not sent.
func fillMissingFields(f *page.Form) {
	usual := initialQuestion()
	game, side := usual.Setup.Game, usual.Setup.Side
	if g, err := rack.ParseGame(shownChoice(f, shownGame, fieldGame)); err == nil {
		game = g
	}
	if s, err := table.ParseSide(shownChoice(f, shownSide, fieldSide)); err == nil {
		side = s
	}
	if k, err := table.ParseSize(shownChoice(f, shownFeet, fieldFeet)); err == nil {
		usual.Kind, usual.Window = k, k.StandardWindow()
	}
	usual.Setup = drill.StandardSetup(game, side, usual.Kind)
	for name, values := range questionValues(usual, f.Units) {
		if !f.Has(name) {
			f.Values[name] = values
		}
	}
}

// shownChoice is what a choice was when the page was drawn, else what it is now.
func shownChoice(f *page.Form, before, now string) string {
	if was := f.Text(before); was != "" {
		return was
	}
	return f.Text(now)
}

func readTableKind(f *page.Form, feet string) table.Kind {
	k, err := table.ParseSize(feet)
	if err != nil {
		f.Reject(fieldFeet, "choose a table of seven, eight or nine feet")
		k = table.NineFoot()
	}
	mouth := func(name string) table.Inches {
		u := f.Units
		v := table.Inches(f.Measure(name, say.Mouth, "type the mouth in "+u.Long(say.Mouth)+", for example "+u.Number(say.Mouth, float64(table.StandardCornerMouth))))
		if v == v && !(v >= table.TightestMouth && v <= table.WidestMouth) {
			f.Reject(name, "from "+mouthRange(u)+" "+u.Long(say.Mouth))
		}
		return v
	}
	wanted := k
	wanted.CornerMouth, wanted.SideMouth = mouth(fieldCornerMouth), mouth(fieldSideMouth)
	if made, err := wanted.Checked(); err == nil {
		return made
	}
	return k
}

// mouthRange says how wide a mouth may be.
func mouthRange(u say.Units) string {
	return u.Number(say.Mouth, float64(table.TightestMouth)) + " to " + u.Number(say.Mouth, float64(table.WidestMouth))
}

func readSetup(f *page.Form, k table.Kind) drill.Setup {
	s := component.ReadChoices(f, shownChoice(f, shownGame, fieldGame), shownChoice(f, shownSide, fieldSide))
	s.Order = s.Game.PracticeOrder(s.Side)
	if !slices.Contains(s.Game.Spots(), s.Spot) {
		s.Spot = s.Game.Spots()[0]
	}
	if s.Wing != s.Game.WingSlot(s.Side) && s.Wing != s.Game.WingSlot(s.Side.Mirror()) {
		s.Wing = s.Game.WingSlot(s.Side)
	}
	s = component.ReadSetup(f, s, k)
	if f.Text(fieldSpeed) == "" {
		f.Reject(fieldSpeed, "type the speed in "+f.Units.Long(say.Speed)+", for example "+f.Units.Number(say.Speed, float64(drill.UsualSpeed)))
	}
	return s
}

// readBox reads the break box that is carried along; what is none, or is as wide as the
// table, becomes no box.
func readBox(f *page.Form, k table.Kind) table.Inches {
	reach, err := strconv.ParseFloat(f.Text(fieldBox), 64)
	box := drill.HouseRules{BreakBox: table.Inches(reach)}
	if err != nil || box.CheckBox(k) != nil {
		return 0
	}
	return box.BreakBox
}

// readWindow reads the window that is carried along; what is none becomes the
// usual one.
func readWindow(f *page.Form, k table.Kind) table.Window {
	var edges [4]table.Inches
	for i, part := range strings.SplitN(f.Text(fieldWindow), ",", 4) {
		v, err := strconv.ParseFloat(part, 64)
		if err != nil {
			return k.StandardWindow()
		}
		edges[i] = table.Inches(v)
	}
	w := table.Window{Left: edges[0], Right: edges[1], Head: edges[2], Foot: edges[3]}
	if w.Check(k) != nil {
		return k.StandardWindow()
	}
	return w
}

// followChoices makes a question follow the choices that were changed since the page
// was drawn. Nothing follows while something else is refused.
func followChoices(f *page.Form, q whatif.Question) whatif.Question {
	game, errGame := rack.ParseGame(f.Text(fieldGame))
	side, errSide := table.ParseSide(f.Text(fieldSide))
	to, errFeet := table.ParseSize(f.Text(fieldFeet))
	if !f.IsValid() || errGame != nil || errSide != nil || errFeet != nil {
		return q
	}
	if side != q.Setup.Side {
		q = q.Mirror()
	}
	if game != q.Setup.Game {
		usual := drill.StandardSetup(game, side, q.Kind)
		q.Setup.Game, q.Setup.Order, q.Setup.Spot, q.Setup.Wing = game, usual.Order, usual.Spot, usual.Wing
	}
	if !to.SameSize(q.Kind) {
		to.CornerMouth, to.SideMouth = q.Kind.CornerMouth, q.Kind.SideMouth
		q.Setup = q.Setup.CarryToKind(q.Kind, to)
		q.Kind, q.Window = to, to.StandardWindow()
	}
	return q
}

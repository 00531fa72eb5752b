package drills

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// followChoices makes the rest of the form follow a choice of side, game or table that
// was made since the page was drawn, and says what it did. Of the other fields
// nothing is touched that was not said.
func followChoices(f *page.Form) (did []string) {
	game, errGame := rack.ParseGame(f.Text(fieldGame))
	before, errBefore := rack.ParseGame(f.Text(shownGame))
	if errGame != nil || errBefore != nil {
		return nil
	}
	side, errSide := table.ParseSide(f.Text(fieldSide))
	if from, err := table.ParseSide(f.Text(shownSide)); errSide == nil && err == nil && side != from {
		followSide(f, before)
		did = append(did, "Everything is mirrored: the break is now from the "+string(side)+".")
	}
	if game != before && errSide == nil {
		followGame(f, game, side)
		did = append(did, "The rack is the practice order of "+game.Words()+".")
	}
	if words := followTable(f); words != "" {
		did = append(did, words)
	}
	return did
}

func followSide(f *page.Form, g rack.Game) {
	for _, name := range []string{fieldOrder, shownOrder} {
		if o, err := rack.ParseTypedOrder(g, f.Text(name)); err == nil {
			f.Values.Set(name, o.Mirror(g).String())
		}
	}
	f.Values.Set(fieldWing, string(rack.Slot(f.Text(fieldWing)).Mirror()))
	for _, name := range []string{fieldTouch, fieldSpin} {
		if v, ok := peekNumber(f, name); ok {
			f.Values.Set(name, say.Hundredths(table.FlipSign(v)))
		}
	}
	left, okLeft := peekNumber(f, fieldLeft)
	right, okRight := peekNumber(f, fieldRight)
	if okLeft && okRight {
		f.Values.Set(fieldLeft, say.Hundredths(-right))
		f.Values.Set(fieldRight, say.Hundredths(-left))
	}
}

func followGame(f *page.Form, g rack.Game, side table.Side) {
	f.Values.Set(fieldOrder, g.PracticeOrder(side).String())
	f.Values.Set(shownOrder, g.PracticeOrder(side).String())
	f.Values.Set(fieldWing, string(g.WingSlot(side)))
	f.Values.Set(fieldSpot, string(g.Spots()[0]))
	f.Values.Del(fieldPicked)
}

// followTable carries the places to another size of table in proportion, and
// targets that were the usual ones to the usual ones there.
func followTable(f *page.Form) string {
	to, errTo := table.ParseSize(f.Text(fieldFeet))
	from, errFrom := table.ParseSize(f.Text(shownFeet))
	if errTo != nil || errFrom != nil || to == from {
		return ""
	}
	scale := float64(to.Length() / from.Length())
	outermost := float64(drill.OutermostCue(to))
	if box, has := peekNumber(f, fieldBox); has && f.Text(fieldBox) != "" { // a box is as wide on every table that holds it
		outermost = min(f.Units.ReadTyped(say.Place, box), outermost)
		f.Values.Set(fieldBox, f.Units.Typed(say.Place, outermost))
	}
	limits := map[string]float64{fieldAcross: outermost, fieldBehind: float64(drill.FurthestBehind)}
	for _, name := range []string{fieldAcross, fieldBehind, fieldLeft, fieldRight, fieldHead, fieldFoot} {
		v, ok := peekNumber(f, name)
		if !ok {
			continue
		}
		v = f.Units.ReadTyped(say.Place, v) * scale
		if limit, has := limits[name]; has {
			v = min(v, limit)
		}
		f.Values.Set(name, f.Units.Typed(say.Place, v))
	}
	followTargets(f, drill.StandardTargets(from), drill.StandardTargets(to))
	return "The places are carried to the " + to.Size() + "-foot table in proportion."
}

func followTargets(f *page.Form, from, to drill.Targets) {
	if f.Text(fieldWings) == formatOfTen(from.Wing) {
		f.Values.Set(fieldWings, formatOfTen(to.Wing))
	}
	if f.Text(fieldStops) == formatOfTen(from.Window) {
		f.Values.Set(fieldStops, formatOfTen(to.Window))
	}
}

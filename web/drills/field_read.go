package drills

import (
	"errors"
	"math"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
)

// readDrill makes a drill of what was typed. What cannot be read or cannot be
// asked of anyone is refused beside its field; where nothing was refused the
// drill is good to save.
func readDrill(f *page.Form) drill.Drill {
	d := drill.Drill{Name: readText(f, fieldName), Watch: readText(f, fieldWatch), Kind: readTableKind(f)}
	d.WatchList = drill.WatchList{WingPath: f.Text(fieldAskWing) != "", CuePath: f.Text(fieldAskPath) != "", CueOnly: f.Text(fieldCueOnly) != ""}
	d.Breaks = f.WholeNumber(fieldBreaks, "type the number of breaks as a whole number, for example 10")
	d.Setup = component.ReadSetup(f, component.ReadChoices(f, f.Text(fieldGame), f.Text(fieldSide)), d.Kind)
	d.Window = table.Window{Left: readEdge(f, fieldLeft), Right: readEdge(f, fieldRight), Head: readEdge(f, fieldHead), Foot: readEdge(f, fieldFoot)}
	for _, kind := range drill.TargetKinds() {
		*kind.Of(&d.Targets) = readTarget(f, kind)
	}
	d.House.ThreePoints = f.Text(fieldPoints) != ""
	if f.Text(fieldBox) != "" {
		d.House.BreakBox = table.Inches(f.Measure(fieldBox, say.Place,
			"type the "+f.Units.Long(say.Place)+" to each side of the long string, for example "+f.Units.Number(say.Place, 8)+", or leave it empty"))
		d.House.BreakBox = table.Inches(f.Units.SettleAt(say.Place, float64(d.House.BreakBox), float64(table.BallDiameter), float64(drill.OutermostCue(d.Kind))))
	}
	if d.House.CheckBox(d.Kind) == nil {
		component.RefuseOutsideBox(f, d.Setup, d.House.BreakBox)
	}
	rejectInvalid(f, d)
	return d
}

func readTableKind(f *page.Form) table.Kind {
	k, err := table.ParseSize(f.Text(fieldFeet))
	if err != nil {
		f.Reject(fieldFeet, "choose a table of seven, eight or nine feet")
		return table.NineFoot()
	}
	corner, _ := peekNumber(f, fieldCorner) // hidden: what is no mouth becomes the standard one
	middle, _ := peekNumber(f, fieldMiddle)
	wanted := k
	wanted.CornerMouth, wanted.SideMouth = table.Inches(corner), table.Inches(middle)
	if made, err := wanted.Checked(); err == nil {
		return made
	}
	return k
}

// readTarget reads a target as so many of ten breaks, to a hundredth; 0 for one that is
// not asked for.
func readTarget(f *page.Form, kind drill.TargetKind) float64 {
	name := kind.Field()
	if kind.Optional && f.Text(name) == "" {
		return 0
	}
	share := math.Round(f.NumberOrNaN(name, "type how many of ten breaks, for example 4.5")*100) / 1000
	if kind.Optional && share == 0 {
		f.Reject(name, "type how many of ten breaks, or leave it empty")
	}
	return share
}

// rejectInvalid adds what the drill itself refuses, where the field has no sentence
// yet.
func rejectInvalid(f *page.Form, d drill.Drill) {
	err := d.Check()
	var problems drill.Problems
	if hasRejectedEdge(f) && errors.As(err, &problems) {
		err = slices.DeleteFunc(problems, func(p drill.Problem) bool { return p.Field == fieldWindow })
	}
	component.AddFieldProblems(f, err)
}

func readEdge(f *page.Form, name string) table.Inches {
	return table.Inches(f.Measure(name, say.Place, "type the edge of the window in "+f.Units.Long(say.Place)+", for example "+f.Units.Typed(say.Place, 12.5)))
}

func hasRejectedEdge(f *page.Form) bool {
	return f.ErrorFor(fieldLeft)+f.ErrorFor(fieldRight)+f.ErrorFor(fieldHead)+f.ErrorFor(fieldFoot) != ""
}

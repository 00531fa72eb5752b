package paper

import (
	"strings"

	"breakwright/internal/say"
	"breakwright/internal/shorthand"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// paperSheet is one sheet of paper: a drill for one student, or for whoever
// writes their name on it.
type paperSheet struct {
	// ID is unique on the page.
	ID      string
	Club    string
	Drill   string
	Student string // "" is left open, to be written in
	Table   string // likewise
	Due     string // "" for none
	Note    string // the coach's, to the students
	Watch   string
	Kind    table.Kind
	Next    store.Instruction
}

// clubLine names the club and the due day.
func (s paperSheet) clubLine() string {
	if s.Due == "" {
		return s.Club
	}
	return s.Club + ", due " + s.Due
}

// setupPicture are the pictures of what to do.
func (s paperSheet) setupPicture() picture.TableView {
	view := picture.SetupTable(s.ID+"-table", s.Next.Setup, s.Kind)
	window := s.Next.Window
	view.Window, view.Title = &window, "The setup"
	return view
}

func (s paperSheet) rackPicture() picture.RackView {
	setup := s.Next.Setup
	view := picture.RackView{ID: s.ID + "-rack", Game: setup.Game, Order: setup.Order, Wing: setup.Wing}
	cue := picture.CueBall{Place: setup.Cue, Contact: setup.Contact}
	if aim, ok := picture.FindAimLine(cue, picture.RackedBalls{Game: setup.Game, Spot: setup.Spot, Order: setup.Order}, s.Kind); ok {
		view.Target = aim.Target
	}
	return view
}

// squaresPicture is the table to mark.
func (s paperSheet) squaresPicture() picture.SquaresView {
	window := s.Next.Window
	view := picture.SquaresView{ID: s.ID + "-squares", Kind: s.Kind, Window: &window}
	for i := range shorthand.ColumnCount {
		view.Columns = append(view.Columns, shorthand.ColumnName(i))
	}
	for i := range shorthand.RowCount {
		view.Rows = append(view.Rows, shorthand.RowName(i))
	}
	return view
}

func (s paperSheet) setupParts(u say.Units) []component.SetupPart {
	return component.ListSetupParts(s.Next.Setup, s.Kind, u)
}

// rowNumbers are those of the rows to fill.
func (s paperSheet) rowNumbers() []int {
	all := make([]int, s.Next.Breaks)
	for i := range all {
		all[i] = i + 1
	}
	return all
}

// legendEntry says what the letters of a row mean.
type legendEntry struct{ Sign, Words string }

// wingLegend is for what the wing ball did.
func (s paperSheet) wingLegend() []legendEntry {
	all := []legendEntry{{shorthand.MadeSign, "in " + s.Next.Setup.WingPocket().Words()}}
	for _, k := range shorthand.MissSigns {
		all = append(all, legendEntry{k.Sign, component.MissWords(k.Means)})
	}
	return all
}

func pathLegend() []legendEntry {
	var all []legendEntry
	for _, k := range shorthand.PathSigns {
		all = append(all, legendEntry{k.Sign, component.PathWords(k.Means)})
	}
	return all
}

func shotLegend() []legendEntry {
	words := map[string]string{"+": "an open shot", "=": "a hard one", "-": "none"}
	var all []legendEntry
	for _, k := range shorthand.ShotSigns {
		all = append(all, legendEntry{k.Sign, words[k.Sign]})
	}
	return all
}

func pocketLegend() []legendEntry {
	var all []legendEntry
	for _, k := range shorthand.PocketSigns {
		all = append(all, legendEntry{k.Sign, k.Means.Name()})
	}
	return all
}

// legendWords writes a legend as a line: "s side rail first, f foot rail first".
func legendWords(all []legendEntry) string {
	parts := make([]string, len(all))
	for i, l := range all {
		parts[i] = l.Sign + " " + l.Words
	}
	return strings.Join(parts, ", ")
}

package drills

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
)

// editorView is the page on which a drill is written.
type editorView struct {
	Frame page.Frame
	Form  *page.Form
	// Drawn is what the pictures show: legal, whatever was typed.
	Drawn drill.Drill
	// Drill is the one being changed; zero for a new one.
	Drill    store.Drill
	Feedback feedback
	// Followed says what changed by itself since the coach last saw the page.
	Followed []string
	// Overtaken: somebody else saved the drill meanwhile.
	Overtaken bool
	// Saving says that the form was meant to be saved and was not.
	Saving bool
}

// canSave reports whether the drill may be saved: nothing is refused, and the coach
// has seen all of it.
func (v *editorView) canSave() bool {
	return v.Form.IsValid() && len(v.Followed) == 0 && !v.Overtaken
}

func (v *editorView) isNewDrill() bool { return store.IsZero(v.Drill.ID) }

// savePath is where the form is saved.
func (v *editorView) savePath() string {
	if v.isNewDrill() {
		return "/drills"
	}
	return route.DrillPath(v.Drill.ID)
}

func (v *editorView) pageHeading() string {
	if v.isNewDrill() {
		return "New drill"
	}
	return v.Drill.Name
}

func (v *editorView) pageHead() page.Head {
	h := drillsHead(v.pageHeading())
	h.Scripts = []string{"vendor/htmx-2.0.11.min.js", "js/drawn.js", "js/rack.js", "js/editor.js", "js/unsaved.js"}
	return h
}

func (v *editorView) pickedSlot() rack.Slot { return rack.Slot(v.Form.Text(fieldPicked)) }

func (v *editorView) tablePicture() picture.TableView { return picture.DrillTable("look", v.Drawn) }

func (v *editorView) rackPicture() picture.RackView {
	s := v.Drawn.Setup
	view := picture.RackView{ID: "rack-close", Game: s.Game, Order: s.Order, Wing: s.Wing, SlotNames: true}
	cue := picture.CueBall{Place: s.Cue, Contact: s.Contact}
	if aim, ok := picture.FindAimLine(cue, picture.RackedBalls{Game: s.Game, Spot: s.Spot, Order: s.Order}, v.Drawn.Kind); ok {
		view.Target = aim.Target
	}
	if v.pickedSlot() != "" {
		view.Selected = []rack.Slot{v.pickedSlot()}
	}
	return view
}

// movableSlotOptions are the slots whose balls can be moved, for the two lists.
func (v *editorView) movableSlotOptions() []page.Option {
	var options []page.Option
	for _, s := range component.ListSlotButtons(v.Drawn.Setup) {
		if !s.Fixed {
			options = append(options, page.Option{Value: string(s.Slot), Words: "slot " + string(s.Slot) + ", the " + s.Ball.String()})
		}
	}
	return options
}

// drawn are the pictures that write into the form.
func (v *editorView) drawn() component.DrawnSetup {
	return component.DrawnSetup{
		ID: "drawn", Setup: v.Drawn.Setup, Kind: v.Drawn.Kind, Table: v.tablePicture(),
		Window: component.WindowFields{Left: fieldLeft, Right: fieldRight, Head: fieldHead, Foot: fieldFoot},
	}
}

// unsavedState says to the script whether what is shown is saved.
func (v *editorView) unsavedState() string {
	if v.Saving {
		return "yes"
	}
	return "no"
}

// setupParts says the setup in words.
func (v *editorView) setupParts() []component.SetupPart {
	return component.ListSetupParts(v.Drawn.Setup, v.Drawn.Kind, v.Form.Units)
}

// setupInputs are the fields of cue ball and stroke, with the hints that the drill as it
// is drawn asks for.
func (v *editorView) setupInputs() component.SetupInputs {
	return component.NewSetupInputs(v.Drawn.Setup, v.Drawn.Kind, v.Drawn.House.BreakBox, v.Form.Units)
}

// acrossInput is the field whose hint says how far out the cue ball may be.
func (v *editorView) acrossInput() editorInput { return setupInput(v.setupInputs().Across) }

package plan

import (
	"github.com/a-h/templ"

	"breakwright/internal/drill"
)

// editorPath is where the editor's buttons post the form to.
const editorPath = "/drills/editor"

const behindHint = "0 is on it; up to 10 behind."

// press makes a button of the editor: without a script it sends the form and
// gets the whole page, with one only the part that changed.
func press(action string) templ.Attributes {
	return templ.Attributes{"name": fieldAction, "value": action, "formaction": editorPath, "hx-post": editorPath}
}

// outOfBand tells htmx to put an element in the place of the one with its id.
func outOfBand(apart bool) templ.Attributes {
	if !apart {
		return nil
	}
	return templ.Attributes{"hx-swap-oob": "true"}
}

func acrossHint(d drill.Drill) string {
	return "On the " + string(d.Setup.Side) + "; up to " + drill.OutermostCue(d.Kind).String() + ", a ball's width off the side rail."
}

func saveWords(v *editorView) string {
	switch {
	case v.isNew():
		return "Save the drill"
	case v.Drill.Assigned:
		return "Save as a new version"
	}
	return "Save the change"
}

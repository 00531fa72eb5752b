package drills

import "github.com/a-h/templ"

// editorPath is where the editor's buttons post the form to.
const editorPath = "/drills/editor"

// actionButton makes a button of the editor: without a script it sends the form and
// gets the whole page, with one only the part that changed.
func actionButton(action string) templ.Attributes {
	return templ.Attributes{"name": fieldAction, "value": action, "formaction": editorPath, "hx-post": editorPath}
}

// outOfBandSwap tells htmx to put an element in the place of the one with its id.
func outOfBandSwap(apart bool) templ.Attributes {
	if !apart {
		return nil
	}
	return templ.Attributes{"hx-swap-oob": "true"}
}

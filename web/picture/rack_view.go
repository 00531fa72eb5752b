package picture

import (
	"breakwright/internal/rack"
)

// RackView is a rack seen from close up and from above, the head ball at the
// bottom as the breaker stands.
type RackView struct {
	ID    string
	Title string // empty means the game: "Nine-ball rack"
	Game  rack.Game
	Order rack.Order
	// Wing is the slot of the wing ball being played; "" marks none.
	Wing rack.Slot
	// SlotNames writes each slot's name on its ball.
	SlotNames bool
	// Target marks the ball at the rear that the aim points at; "" marks none.
	Target rack.Slot
	// Selected slots are drawn raised, for an editor.
	Selected []rack.Slot

	// Editable makes each slot a button for a script: a group with the class
	// pic-slot, the id ID-slot-SLOT, data-slot and data-ball, and data-fixed
	// where the game allows only one ball.
	Editable bool
	// Link, when set, wraps each slot in a link instead, for pages without
	// script; an empty address leaves the slot unlinked.
	Link func(rack.Slot) string
}

package store

import "context"

// UnitChoice is what a club has lengths and speeds shown in.
type UnitChoice string

// The units a club may choose.
const (
	Inches      UnitChoice = "inches"      // and miles an hour
	Centimetres UnitChoice = "centimetres" // and kilometres an hour
)

// Theme is light or dark pages, by choice.
type Theme string

// The themes a person may choose.
const (
	AsDevice Theme = ""
	Light    Theme = "light"
	Dark     Theme = "dark"
)

// SetTheme keeps the actor's own choice.
func (s *Store) SetTheme(ctx context.Context, v Actor, theme Theme) error {
	switch theme {
	case AsDevice, Light, Dark:
	default:
		return fieldProblem("theme", "choose light, dark, or as the device has it")
	}
	return s.inTransaction(ctx, v, "set the theme", func(t *tx) error { return t.Queries.SetTheme(ctx, string(theme)) })
}

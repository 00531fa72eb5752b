package store

import (
	"context"

	"breakwright/internal/store/internal/query"
)

// UnitChoice is what a club, or a student for themselves, has lengths and speeds shown in.
type UnitChoice string

// The units a club may choose, and a student's own choice of those.
const (
	AsClub      UnitChoice = ""            // a student's alone
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

// GetOwnUnits returns the actor's own choice, [AsClub] for none.
func (s *Store) GetOwnUnits(ctx context.Context, v Actor) (UnitChoice, error) {
	return readInTransaction(ctx, s, v, "get the units", func(t *tx) (UnitChoice, error) {
		own, err := t.Queries.GetOwnUnits(ctx, query.GetOwnUnitsParams{Club: v.Club.UUID, Person: v.Person.UUID})
		return UnitChoice(own), err
	})
}

// SetUnits keeps the actor's own choice.
func (s *Store) SetUnits(ctx context.Context, v Actor, units UnitChoice) error {
	switch units {
	case AsClub, Inches, Centimetres:
	default:
		return fieldProblem("units", "choose inches, centimetres, or as the club has them")
	}
	return s.inTransaction(ctx, v, "set the units", func(t *tx) error { return t.Queries.SetUnits(ctx, string(units)) })
}

// SetTheme keeps the actor's own choice.
func (s *Store) SetTheme(ctx context.Context, v Actor, theme Theme) error {
	switch theme {
	case AsDevice, Light, Dark:
	default:
		return fieldProblem("theme", "choose light, dark, or as the device has it")
	}
	return s.inTransaction(ctx, v, "set the theme", func(t *tx) error { return t.Queries.SetTheme(ctx, string(theme)) })
}

package drill

import (
	"time"

	"breakwright/internal/table"
)

// Set is the breaks a student recorded in one go under one setup on one table.
type Set struct {
	Student string
	// Name tells a student's sets apart.
	Name string
	// Table is the name of the table; sets on different tables are never pooled.
	Table  string
	Kind   table.Kind
	Setup  Setup
	Breaks []Break
	Plan   SetPlan
}

// FirstBreakTime is the time of the first break that has one, or the zero time.
func (s Set) FirstBreakTime() time.Time {
	for _, b := range s.Breaks {
		if !b.At.IsZero() {
			return b.At
		}
	}
	return time.Time{}
}

// Mirror returns the set as it would have been from the other side.
func (s Set) Mirror() Set {
	m := s
	m.Setup, m.Plan = s.Setup.Mirror(), s.Plan.Mirror()
	m.Breaks = make([]Break, len(s.Breaks))
	for i, b := range s.Breaks {
		m.Breaks[i] = b.Mirror()
	}
	return m
}

// Check says what in the set cannot be: its setup, a break, or a number that
// is missing or there twice.
func (s Set) Check() error {
	var p Problems
	if err := s.Setup.CheckPossible(s.Kind); err != nil {
		return err
	}
	for i, b := range s.Breaks {
		if b.Number != i+1 {
			p.Add("break", "breaks are numbered 1, 2, 3 … without gaps or repeats")
			break
		}
		if err := b.Check(s.Setup, s.Kind); err != nil {
			return err
		}
	}
	return p.Err()
}

// Stint is all of a student's sets in a row under the same setup and table:
// what evidence is pooled over.
type Stint struct {
	Table string
	Kind  table.Kind
	// Setup is that of the stint's latest set.
	Setup Setup
	Sets  []Set
}

// GroupStints groups a student's sets, oldest first, into stints. Sets without
// breaks are left out.
func GroupStints(sets []Set) []Stint {
	var stints []Stint
	for _, set := range sets {
		if len(set.Breaks) == 0 {
			continue
		}
		if n := len(stints); n > 0 && stints[n-1].acceptsSet(set) {
			stints[n-1].Sets = append(stints[n-1].Sets, set)
			stints[n-1].Setup = set.Setup
			continue
		}
		stints = append(stints, Stint{Table: set.Table, Kind: set.Kind, Setup: set.Setup, Sets: []Set{set}})
	}
	return stints
}

// acceptsSet compares with the stint's first set, so that a slow drift of speed
// does not chain sets together that are far apart.
func (s Stint) acceptsSet(set Set) bool {
	return s.Table == set.Table && s.Kind == set.Kind && s.Sets[0].Setup.SameAs(set.Setup)
}

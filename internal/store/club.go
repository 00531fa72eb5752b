package store

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Club is whose everything is.
//
// Everybody of the club reads it, a coach changes it ([ErrNotAllowed] for a
// student), and to everybody else it is [ErrNotFound]. It is kept until it is erased.
type Club struct {
	ID   ClubID
	Name string
	// Zone is the IANA name of the club's time zone, for due days and names of
	// sets; empty means UTC.
	Zone string
	// Units are what the club speaks in; empty means inches.
	Units UnitChoice
}

// Location is the club's zone; UTC when the name is unknown on this machine.
func (c Club) Location() *time.Location {
	zone, err := time.LoadLocation(c.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}

func (c *Club) validate() error {
	var p drill.Problems
	if says := drill.CheckName(c.Name); says != "" {
		p.Add("name", says)
	}
	if c.Zone == "" {
		c.Zone = "UTC"
	}
	if _, err := time.LoadLocation(c.Zone); err != nil || c.Zone == "Local" {
		p.Add("zone", "choose a time zone from the list, for example Europe/Paris")
	}
	if c.Units == "" {
		c.Units = Inches
	}
	if c.Units != Inches && c.Units != Centimetres {
		p.Add("units", "choose inches or centimetres")
	}
	return p.Err()
}

// GetClub returns the actor's club.
func (s *Store) GetClub(ctx context.Context, v Actor) (Club, error) {
	return readInTransaction(ctx, s, v, "get the club", func(t *tx) (Club, error) { return t.loadClub(ctx) })
}

func (t *tx) loadClub(ctx context.Context) (Club, error) {
	row, err := t.GetClub(ctx)
	return Club{ID: ClubID{row.ID}, Name: row.Name, Zone: row.Zone, Units: UnitChoice(row.Units)}, err
}

// ChangeClub gives the actor's club another name, zone and units. Coaches only.
func (s *Store) ChangeClub(ctx context.Context, v Actor, c Club) error {
	return s.inTransaction(ctx, v, "change the club", func(t *tx) error {
		if err := v.requireCoach(); err != nil {
			return err
		}
		if err := c.validate(); err != nil {
			return err
		}
		return requireChangedRow(t.UpdateClub(ctx, query.UpdateClubParams{Name: c.Name, Zone: c.Zone, Units: string(c.Units), ID: v.Club.UUID}))
	})
}

package store

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// ClassPicture is what a class broke lately, for drawing.
type ClassPicture struct {
	Class    Class
	Students []PictureStudent
	// Tried are the class's latest changes that were tried or are, one a
	// student, newest first, at most MaxTriedChanges.
	Tried []TriedChange
}

// MaxTriedChanges is how many changes a class picture offers to look at.
const MaxTriedChanges = 12

// PictureStudent is one student of a class picture.
type PictureStudent struct {
	Person
	// Sets are the latest MaxPictureSets of their latest stint, oldest first; none
	// before the first closed set.
	Sets []PictureSet
}

// PictureSet is a set with its breaks as they were broken, not mirrored.
type PictureSet struct {
	Kind   table.Kind
	Setup  drill.Setup
	Window table.Window
	Breaks []drill.Break
}

// GetClassPicture returns what the class's students broke in their latest stints:
// as many queries whatever the class. Coaches only.
func (s *Store) GetClassPicture(ctx context.Context, v Actor, id ClassID) (ClassPicture, error) {
	return readInTransaction(ctx, s, v, "get the class's picture", func(t *tx) (ClassPicture, error) {
		if err := v.requireCoach(); err != nil {
			return ClassPicture{}, err
		}
		c, all, ids, err := t.loadMembers(ctx, id)
		if err != nil {
			return ClassPicture{}, err
		}
		p := ClassPicture{Class: c, Students: make([]PictureStudent, len(all))}
		place := make(map[PersonID]*PictureStudent, len(all))
		for i, one := range all {
			p.Students[i].Person = one.Person
			place[one.ID] = &p.Students[i]
		}
		if err := t.fillPicture(ctx, ids, place); err != nil {
			return ClassPicture{}, err
		}
		tried, err := t.ListLatestTriedChanges(ctx, query.ListLatestTriedChangesParams{Students: plainUUIDs(ids), Most: MaxTriedChanges})
		if err != nil {
			return ClassPicture{}, err
		}
		for _, r := range tried {
			one, err := triedFromRow(r.Prescription, r.Setup, r.Setup_2)
			if err != nil {
				return ClassPicture{}, err
			}
			p.Tried = append(p.Tried, one)
		}
		return p, nil
	})
}

func (t *tx) fillPicture(ctx context.Context, ids []PersonID, place map[PersonID]*PictureStudent) error {
	rows, err := t.ListPictureSets(ctx, query.ListPictureSetsParams{Students: plainUUIDs(ids), Most: MaxPictureSets})
	if err != nil {
		return err
	}
	bySet, err := t.loadBreaksOfSets(ctx, plainUUIDs(mapRows(rows, func(r query.ListPictureSetsRow) SetID { return SetID{r.SetID} })))
	if err != nil {
		return err
	}
	for _, r := range rows {
		setup, err := setupFromRow(r.Setup)
		if err != nil {
			return err
		}
		one := place[PersonID{r.StudentID}]
		one.Sets = append(one.Sets, PictureSet{
			Kind:  table.Kind{Feet: r.Feet, Small: r.Small, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)},
			Setup: setup, Breaks: bySet[r.SetID],
			Window: table.Window{
				Left: table.Inches(r.WindowLeft), Right: table.Inches(r.WindowRight),
				Head: table.Inches(r.WindowHead), Foot: table.Inches(r.WindowFoot),
			},
		})
	}
	return nil
}

// TriedChangeStints are a change's two stints: the one it was proposed in, and the
// first later one under the changed setup on the same table. After is nil until
// a set of it is closed.
type TriedChangeStints struct {
	Prescription  Prescription
	StudentName   string
	Before, After *ShownStint
}

// GetTriedChange returns a prescription with the stints before and after it. Coaches
// only.
func (s *Store) GetTriedChange(ctx context.Context, v Actor, id PrescriptionID) (TriedChangeStints, error) {
	return readInTransaction(ctx, s, v, "get the tried change", func(t *tx) (TriedChangeStints, error) {
		if err := v.requireCoach(); err != nil {
			return TriedChangeStints{}, err
		}
		r, err := t.GetPrescription(ctx, id.UUID)
		if err != nil {
			return TriedChangeStints{}, err
		}
		p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
		if err != nil {
			return TriedChangeStints{}, err
		}
		who, err := t.loadPerson(ctx, p.Student)
		if err != nil {
			return TriedChangeStints{}, err
		}
		change := TriedChangeStints{Prescription: p, StudentName: who.Name}
		return change, t.loadTriedStints(ctx, &change)
	})
}

func (t *tx) loadTriedStints(ctx context.Context, change *TriedChangeStints) error {
	rows, err := t.ListStintsAroundChange(ctx, change.Prescription.ID.UUID)
	if err != nil {
		return err
	}
	for _, r := range rows {
		stint, err := stintFromRow(r.Stint, r.Setup, r.PoolTable)
		if err != nil {
			return err
		}
		shown := ShownStint{Stint: stint}
		if shown.Breaks, shown.Window, err = t.loadStintBreaks(ctx, stint); err != nil {
			return err
		}
		if r.Part == "before" {
			change.Before = &shown
		} else {
			change.After = &shown
		}
	}
	return nil
}

// daysAgo is the moment some days before another.
func daysAgo(now time.Time, days int) time.Time { return now.AddDate(0, 0, -days) }

package store

import (
	"context"
	"errors"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// How much of a student's story one page holds.
const (
	MaxProgressStints   = 8  // stints at once
	MaxProgressSets     = 30 // sets of a stint, and sets on the control chart
	MaxProgressMessages = 6
	// MaxPictureSets is how many of a stint's latest sets are drawn.
	MaxPictureSets = 5
)

// StudentProgress is a student's way so far: as many queries, and about as much to read,
// however long it is.
type StudentProgress struct {
	Student Person
	// Sets and Breaks count all closed sets ever.
	Sets, Breaks int
	// Stints are the latest ones before the moment asked for, newest first.
	// Earlier is the moment to ask for next, zero when there are no more.
	Stints  []ProgressStint
	Earlier time.Time
	// Open are the sets that are not closed, newest first.
	Open []OpenSet
	// Recent are the latest closed sets of all, oldest first.
	Recent []RecentSet
	// Advice is what was said after the latest closed set; nil before.
	Advice   *Advice
	Messages []ProgressMessage // newest first
	Cards    []BreakCard       // those in force, newest first
	// Shown is the stint that is drawn, with the breaks of its latest sets; nil
	// before the first.
	Shown *ShownStint
}

// ProgressStint is a stint with its sets and what was proposed after them.
type ProgressStint struct {
	Stint
	List    []ProgressSet  // newest first, at most MaxProgressSets
	Changes []Prescription // newest first
}

// ProgressSet is a set in a stint's list.
type ProgressSet struct {
	ID                                  SetID
	Name, DrillName, Verdict            string
	Started                             time.Time
	Breaks, Watched, WingMade, InWindow int
	Messages                            int
	WordBack                            WordBack
}

// ProgressMessage is a message with the time at which its set was begun, zero for none.
type ProgressMessage struct {
	Message
	SetStarted time.Time
}

// ShownStint is a stint with breaks to draw, from its latest sets, oldest
// first, and the window of the last of them.
type ShownStint struct {
	Stint
	Breaks []drill.Break
	Window table.Window
}

// ProgressFilter says which part of a story is wanted; the zero one is the latest.
type ProgressFilter struct {
	Before time.Time // stints begun before; zero for all
	Show   StintID   // the stint to draw; zero for the newest of the page
}

// GetStudentProgress returns a student's story: a coach's of anyone, a student's their own.
// [ErrNotFound] for somebody who is no student, or for a stint of another.
func (s *Store) GetStudentProgress(ctx context.Context, v Actor, student PersonID, filter ProgressFilter) (StudentProgress, error) {
	return readInTransaction(ctx, s, v, "get the story", func(t *tx) (StudentProgress, error) {
		who, err := t.loadStudent(ctx, student)
		if err != nil {
			return StudentProgress{}, err
		}
		story := StudentProgress{Student: who}
		if err := t.loadProgressStints(ctx, &story, filter); err != nil {
			return StudentProgress{}, err
		}
		if err := t.loadShownStint(ctx, &story, filter.Show); err != nil {
			return StudentProgress{}, err
		}
		return story, t.loadProgressTotals(ctx, &story)
	})
}

func (t *tx) loadProgressStints(ctx context.Context, story *StudentProgress, filter ProgressFilter) error {
	before := filter.Before
	if before.IsZero() {
		before = time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	rows, err := t.Queries.ListStints(ctx, query.ListStintsParams{
		StudentID: story.Student.ID.UUID, Before: before, Most: MaxProgressStints + 1,
	})
	if err != nil {
		return err
	}
	if len(rows) > MaxProgressStints {
		rows = rows[:MaxProgressStints]
		story.Earlier = rows[MaxProgressStints-1].Stint.FirstStartedAt.UTC()
	}
	ids := make([]StintID, len(rows))
	for i, r := range rows {
		stint, err := stintFromRow(r.Stint, r.Setup, r.PoolTable)
		if err != nil {
			return err
		}
		stint.applyTargets(r.TargetWing, r.TargetWindow, r.TargetShot, r.TargetRanOut)
		ids[i] = stint.ID
		story.Stints = append(story.Stints, ProgressStint{Stint: stint})
	}
	if err := t.loadProgressSets(ctx, story, ids); err != nil {
		return err
	}
	return t.loadProgressChanges(ctx, story, ids)
}

func (t *tx) loadProgressSets(ctx context.Context, story *StudentProgress, ids []StintID) error {
	rows, err := t.ListStintSets(ctx, query.ListStintSetsParams{Stints: plainUUIDs(ids), Most: MaxProgressSets})
	for _, r := range rows {
		for i := range story.Stints {
			if story.Stints[i].ID.UUID == r.StintID {
				story.Stints[i].List = append(story.Stints[i].List, ProgressSet{
					ID: SetID{r.SetID}, Name: r.Name, DrillName: r.DrillName, Verdict: r.Verdict, Started: r.StartedAt.UTC(),
					Breaks: r.Breaks, Watched: r.Watched, WingMade: r.WingMade, InWindow: r.InWindow, Messages: r.Messages, WordBack: WordBack(r.WordBack),
				})
			}
		}
	}
	return err
}

func (t *tx) loadProgressChanges(ctx context.Context, story *StudentProgress, ids []StintID) error {
	rows, err := t.ListChangesOfStints(ctx, query.ListChangesOfStintsParams{
		StudentID: story.Student.ID.UUID, Stints: plainUUIDs(ids),
	})
	if err != nil {
		return err
	}
	for _, r := range rows {
		p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
		if err != nil {
			return err
		}
		for i := range story.Stints {
			if story.Stints[i].ID.UUID == r.StintID {
				story.Stints[i].Changes = append(story.Stints[i].Changes, p)
			}
		}
	}
	return nil
}

// loadShownStint adds the stint to draw, wherever in the story it is.
func (t *tx) loadShownStint(ctx context.Context, story *StudentProgress, id StintID) error {
	if IsZero(id) {
		if len(story.Stints) == 0 {
			return nil
		}
		id = story.Stints[0].ID
	}
	row, err := t.Queries.GetStint(ctx, id.UUID)
	if err != nil {
		return err
	}
	stint, err := stintFromRow(row.Stint, row.Setup, row.PoolTable)
	if err != nil {
		return err
	}
	if stint.Student != story.Student.ID {
		return ErrNotFound
	}
	stint.applyTargets(row.TargetWing, row.TargetWindow, row.TargetShot, row.TargetRanOut)
	shown := ShownStint{Stint: stint}
	shown.Breaks, shown.Window, err = t.loadStintBreaks(ctx, stint)
	story.Shown = &shown
	return err
}

// loadStintBreaks returns the breaks of a stint's latest sets, oldest first, and the
// window of its latest set.
func (t *tx) loadStintBreaks(ctx context.Context, stint Stint) ([]drill.Break, table.Window, error) {
	rows, err := t.ListStintTallies(ctx, query.ListStintTalliesParams{StintID: uuidOrNull(stint.ID), Most: MaxPictureSets})
	if err != nil {
		return nil, table.Window{}, err
	}
	ids := mapRows(rows, func(r query.SetTally) SetID { return SetID{r.SetID} })
	bySet, err := t.loadBreaksOfSets(ctx, plainUUIDs(ids))
	if err != nil {
		return nil, table.Window{}, err
	}
	var breaks []drill.Break
	for i := len(rows) - 1; i >= 0; i-- {
		breaks = append(breaks, bySet[rows[i].SetID]...)
	}
	if len(rows) == 0 {
		return nil, stint.Table.Kind.StandardWindow(), nil
	}
	return breaks, windowFromRow(rows[0]), nil
}

// loadProgressTotals adds what does not depend on the part that is shown.
func (t *tx) loadProgressTotals(ctx context.Context, story *StudentProgress) error {
	id := story.Student.ID
	open, err := t.ListOpenSets(ctx, id.UUID)
	if err != nil {
		return err
	}
	story.Open = mapRows(open, openSetFromRow)
	recent, err := t.loadRecentSets(ctx, []PersonID{id}, MaxProgressSets)
	if err != nil {
		return err
	}
	story.Recent = recent[id]
	given, err := t.GetStudentTotals(ctx, id.UUID)
	switch {
	case err == nil:
		story.Sets, story.Breaks = given.Sets, given.Breaks
		if given.Verdict != nil {
			story.Advice = &Advice{Verdict: *given.Verdict, JSON: given.Advice, RulesVersion: valueOrZero(given.RulesVersion), At: utcOrZero(given.CreatedAt)}
		}
	case !errors.Is(err, pgx.ErrNoRows):
		return err
	}
	messages, err := t.ListLatestMessages(ctx, query.ListLatestMessagesParams{StudentID: id.UUID, Most: MaxProgressMessages})
	if err != nil {
		return err
	}
	story.Messages = mapRows(messages, func(r query.ListLatestMessagesRow) ProgressMessage {
		return ProgressMessage{messageFromRow(r.Message), utcOrZero(r.SetStartedAt)}
	})
	story.Cards, err = t.loadCards(ctx, id)
	return err
}

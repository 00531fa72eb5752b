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
	StoryStints   = 8  // stints at once
	StorySets     = 30 // sets of a stint, and sets on the control chart
	StoryMessages = 6
	// PictureSets is how many of a stint's latest sets are drawn.
	PictureSets = 5
)

// Story is a student's way so far: as many queries, and about as much to read,
// however long it is.
type Story struct {
	Student Person
	// Sets and Breaks count all closed sets ever.
	Sets, Breaks int
	// Stints are the latest ones before the moment asked for, newest first.
	// Earlier is the moment to ask for next, zero when there are no more.
	Stints  []StoryStint
	Earlier time.Time
	// Open are the sets that are not closed, newest first.
	Open []OpenSet
	// Recent are the latest closed sets of all, oldest first.
	Recent []RecentSet
	// Advice is what was said after the latest closed set; nil before.
	Advice   *Advice
	Messages []StoryMessage // newest first
	Cards    []BreakCard    // those in force, newest first
	// Shown is the stint that is drawn, with the breaks of its latest sets; nil
	// before the first.
	Shown *ShownStint
}

// StoryStint is a stint with its sets and what was proposed after them.
type StoryStint struct {
	Stint
	List    []StorySet     // newest first, at most StorySets
	Changes []Prescription // newest first
}

// StorySet is a set in a stint's list.
type StorySet struct {
	ID                         SetID
	Name, DrillName, Verdict   string
	Started                    time.Time
	Breaks, WingMade, InWindow int
	Messages                   int
}

// StoryMessage is a message with the name of its set.
type StoryMessage struct {
	Message
	SetName string
}

// ShownStint is a stint with breaks to draw, from its latest sets, oldest
// first, and the window of the last of them.
type ShownStint struct {
	Stint
	Breaks []drill.Break
	Window table.Window
}

// Ask says which part of a story is wanted; the zero Ask is the latest.
type Ask struct {
	Before time.Time // stints begun before; zero for all
	Show   StintID   // the stint to draw; zero for the newest of the page
}

// GetStory gives a student's story: a coach's of anyone, a student's their own.
// [ErrNotFound] for somebody who is no student, or for a stint of another.
func (s *Store) GetStory(ctx context.Context, v Viewer, student PersonID, ask Ask) (Story, error) {
	return read(ctx, s, v, "get the story", func(t *tx) (Story, error) {
		who, err := t.student(ctx, student)
		if err != nil {
			return Story{}, err
		}
		story := Story{Student: who}
		if err := t.storyStints(ctx, &story, ask); err != nil {
			return Story{}, err
		}
		if err := t.storyShown(ctx, &story, ask.Show); err != nil {
			return Story{}, err
		}
		return story, t.aroundStory(ctx, &story)
	})
}

func (t *tx) storyStints(ctx context.Context, story *Story, ask Ask) error {
	before := ask.Before
	if before.IsZero() {
		before = time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	rows, err := t.Queries.ListStints(ctx, query.ListStintsParams{
		StudentID: story.Student.ID.UUID, Before: before, Most: StoryStints + 1,
	})
	if err != nil {
		return err
	}
	if len(rows) > StoryStints {
		rows = rows[:StoryStints]
		story.Earlier = rows[StoryStints-1].Stint.FirstStartedAt.UTC()
	}
	ids := make([]StintID, len(rows))
	for i, r := range rows {
		stint, err := stintOf(r.Stint, r.Setup, r.PoolTable)
		if err != nil {
			return err
		}
		stint.judgedBy(r.TargetWing, r.TargetWindow)
		ids[i] = stint.ID
		story.Stints = append(story.Stints, StoryStint{Stint: stint})
	}
	if err := t.storySets(ctx, story, ids); err != nil {
		return err
	}
	return t.storyChanges(ctx, story, ids)
}

func (t *tx) storySets(ctx context.Context, story *Story, ids []StintID) error {
	rows, err := t.ListStintSets(ctx, query.ListStintSetsParams{Stints: uuids(ids), Most: StorySets})
	for _, r := range rows {
		for i := range story.Stints {
			if story.Stints[i].ID.UUID == r.StintID {
				story.Stints[i].List = append(story.Stints[i].List, StorySet{
					ID: SetID{r.SetID}, Name: r.Name, DrillName: r.DrillName, Verdict: r.Verdict, Started: r.StartedAt.UTC(),
					Breaks: r.Breaks, WingMade: r.WingMade, InWindow: r.InWindow, Messages: r.Messages,
				})
			}
		}
	}
	return err
}

func (t *tx) storyChanges(ctx context.Context, story *Story, ids []StintID) error {
	rows, err := t.ListChangesOfStints(ctx, query.ListChangesOfStintsParams{
		StudentID: story.Student.ID.UUID, Stints: uuids(ids),
	})
	if err != nil {
		return err
	}
	for _, r := range rows {
		p, err := prescription(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
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

// storyShown adds the stint to draw, wherever in the story it is.
func (t *tx) storyShown(ctx context.Context, story *Story, id StintID) error {
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
	stint, err := stintOf(row.Stint, row.Setup, row.PoolTable)
	if err != nil {
		return err
	}
	if stint.Student != story.Student.ID {
		return ErrNotFound
	}
	shown := ShownStint{Stint: stint}
	shown.Breaks, shown.Window, err = t.stintBreaks(ctx, stint)
	story.Shown = &shown
	return err
}

// stintBreaks gives the breaks of a stint's latest sets, oldest first, and the
// window of its latest set.
func (t *tx) stintBreaks(ctx context.Context, stint Stint) ([]drill.Break, table.Window, error) {
	rows, err := t.ListWindows(ctx, query.ListWindowsParams{StintID: orNull(stint.ID), Most: PictureSets})
	if err != nil {
		return nil, table.Window{}, err
	}
	ids := each(rows, func(r query.SetTally) SetID { return SetID{r.SetID} })
	bySet, err := t.breaksOf(ctx, uuids(ids))
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
	return breaks, windowOfRow(rows[0]), nil
}

// aroundStory adds what does not depend on the part that is shown.
func (t *tx) aroundStory(ctx context.Context, story *Story) error {
	id := story.Student.ID
	open, err := t.ListOpenSets(ctx, id.UUID)
	if err != nil {
		return err
	}
	story.Open = each(open, openSet)
	recent, err := t.recentSets(ctx, []PersonID{id}, StorySets)
	if err != nil {
		return err
	}
	story.Recent = recent[id]
	given, err := t.LatestAdvice(ctx, id.UUID)
	switch {
	case err == nil:
		story.Sets, story.Breaks = given.Sets, given.Breaks
		if given.Verdict != nil {
			story.Advice = &Advice{Verdict: *given.Verdict, JSON: given.Advice, RulesVersion: orZero(given.RulesVersion), At: utc(given.CreatedAt)}
		}
	case !errors.Is(err, pgx.ErrNoRows):
		return err
	}
	messages, err := t.ListLatestMessages(ctx, query.ListLatestMessagesParams{StudentID: id.UUID, Most: StoryMessages})
	if err != nil {
		return err
	}
	story.Messages = each(messages, func(r query.ListLatestMessagesRow) StoryMessage {
		return StoryMessage{message(r.Message), r.SetName}
	})
	story.Cards, err = t.cards(ctx, id)
	return err
}

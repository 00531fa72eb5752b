package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
)

// How far back the desk looks, in days.
const (
	deskOffDays   = 14  // balls off the table
	deskIdleDays  = 28  // due days that passed
	deskActive    = 30  // sets that a chart or a card may speak of
	deskTriedDays = 60  // changes tried to the end
	deskSeenDays  = 200 // longer than all of these
	deskWeek      = 7
	deskOffMost   = 20
	DeskChartSets = 30 // sets of a student given for a chart
)

// Desk is what may need a decision of a coach. What is a slump, or stuck, is
// for others to judge: their sets and changes are given.
type Desk struct {
	Proposals []PendingPrescription // oldest first
	Questions []Question            // oldest first
	Off       []OffTable            // newest first
	// Tried are the latest two changes of each student that were tried to the
	// end, the later one first.
	Tried []TriedPair
	// Active are students who closed a set lately, with their latest sets.
	Active []ActiveStudent
	Cards  []CardFound
	Idle   []Idle
	Week   Week
	// Seen says what a coach has marked as looked at, of what Tried and Active
	// may lead to.
	Seen map[Seen]bool
}

// Reason is why a line stands on the desk.
type Reason string

// The reasons that a coach can mark as looked at. What each is about: a set, the
// later of two changes, the set that a chart signals at, an assignment, a stint.
const (
	SeenOff   Reason = "off the table"
	SeenStuck Reason = "stuck"
	SeenSlump Reason = "slump"
	SeenIdle  Reason = "idle"
	SeenCard  Reason = "card"
)

// Seen names a line of the desk.
type Seen struct {
	Student PersonID
	Reason  Reason
	About   string // the id, as text
}

// OffTable is a set in which a ball left the table.
type OffTable struct {
	Student    PersonID
	Name       string
	Set        SetID
	Started    time.Time
	Breaks, Of int // of so many breaks
}

// TriedPair is a student's latest two changes that were tried to the end; Before
// is nil when there was only one.
type TriedPair struct {
	Name   string
	Last   Trial
	Before *Trial
}

// ActiveStudent is a student with their latest sets, oldest first.
type ActiveStudent struct {
	Student PersonID
	Name    string
	Sets    []RecentSet
}

// CardFound is a stint whose setup the adviser holds for the student's own break
// for that table, and no card of it was issued.
type CardFound struct {
	Name  string
	Stint Stint
	// Breaks, WingMade and InWindow count all they broke under the setup on the
	// table, in this stint and before.
	Breaks, WingMade, InWindow int
}

// Idle is a student who has not closed a set by the due day.
type Idle struct {
	Student    PersonID
	Name       string
	Assignment AssignmentID
	DrillName  string
	Due        time.Time // midnight UTC of the day
}

// Week is what was recorded in the last seven days.
type Week struct{ Students, Sets, Breaks int }

// GetDesk gives what may need a decision; now is the present, and today its day
// in the club's zone, as midnight UTC. As many queries however many students and
// sets there are. Coaches only.
func (s *Store) GetDesk(ctx context.Context, v Viewer, now, today time.Time) (Desk, error) {
	return read(ctx, s, v, "get the desk", func(t *tx) (Desk, error) {
		if err := v.mustCoach(); err != nil {
			return Desk{}, err
		}
		var d Desk
		for _, part := range []func(context.Context, *Desk, time.Time) error{
			t.deskWaiting, t.deskOff, t.deskTried, t.deskActive, t.deskCards, t.deskWeek, t.deskSeen,
		} {
			if err := part(ctx, &d, now); err != nil {
				return Desk{}, err
			}
		}
		return d, t.deskIdle(ctx, &d, today)
	})
}

func (t *tx) deskWaiting(ctx context.Context, d *Desk, _ time.Time) (err error) {
	if d.Proposals, err = t.pending(ctx); err != nil {
		return err
	}
	rows, err := t.ListWaiting(ctx)
	d.Questions = each(rows, question)
	return err
}

func (t *tx) deskOff(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListOffTable(ctx, query.ListOffTableParams{Since: daysAgo(now, deskOffDays), Most: deskOffMost})
	d.Off = each(rows, func(r query.ListOffTableRow) OffTable {
		return OffTable{
			Student: PersonID{r.StudentID}, Name: r.StudentName, Set: SetID{r.SetID}, Started: r.StartedAt.UTC(),
			Breaks: r.BallsOff, Of: r.Breaks,
		}
	})
	return err
}

func (t *tx) deskTried(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListLastTried(ctx, daysAgo(now, deskTriedDays))
	for _, r := range rows {
		one := Trial{
			ID: PrescriptionID{r.ID}, Student: PersonID{r.StudentID}, Set: SetID{r.SetID}, State: State(r.State),
			Variable: r.Variable, From: r.FromValue, To: r.ToValue, Unit: r.Unit, Decided: r.DecidedAt.UTC(),
		}
		if n := len(d.Tried); n > 0 && d.Tried[n-1].Last.Student == one.Student {
			d.Tried[n-1].Before = &one
		} else {
			d.Tried = append(d.Tried, TriedPair{Name: r.StudentName, Last: one})
		}
	}
	return err
}

func (t *tx) deskActive(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListActive(ctx, daysAgo(now, deskActive))
	if err != nil {
		return err
	}
	ids := each(rows, func(r query.ListActiveRow) PersonID { return PersonID{r.StudentID} })
	sets, err := t.recentSets(ctx, ids, DeskChartSets)
	for i, r := range rows {
		d.Active = append(d.Active, ActiveStudent{Student: ids[i], Name: r.StudentName, Sets: sets[ids[i]]})
	}
	return err
}

func (t *tx) deskCards(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListCardsFound(ctx, daysAgo(now, deskActive))
	if err != nil {
		return err
	}
	for _, r := range rows {
		stint, err := stintOf(r.Stint, r.Setup, r.PoolTable)
		if err != nil {
			return err
		}
		d.Cards = append(d.Cards, CardFound{
			Name: r.StudentName, Stint: stint, Breaks: r.Breaks, WingMade: r.WingMade, InWindow: r.InWindow,
		})
	}
	return nil
}

func (t *tx) deskWeek(ctx context.Context, d *Desk, now time.Time) error {
	r, err := t.CountWeek(ctx, daysAgo(now, deskWeek))
	d.Week = Week{Students: r.Students, Sets: r.Sets, Breaks: r.Breaks}
	return err
}

func (t *tx) deskIdle(ctx context.Context, d *Desk, today time.Time) error {
	rows, err := t.ListIdle(ctx, query.ListIdleParams{Today: today, Since: daysAgo(today, deskIdleDays)})
	d.Idle = each(rows, func(r query.ListIdleRow) Idle {
		return Idle{
			Student: PersonID{r.StudentID}, Name: r.StudentName, Assignment: AssignmentID{r.AssignmentID},
			DrillName: r.DrillName, Due: r.DueOn.UTC(),
		}
	})
	return err
}

func (t *tx) deskSeen(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListSeen(ctx, query.ListSeenParams{
		Reasons: []string{string(SeenStuck), string(SeenSlump)}, Since: daysAgo(now, deskSeenDays),
	})
	d.Seen = make(map[Seen]bool, len(rows))
	for _, r := range rows {
		d.Seen[Seen{PersonID{r.StudentID}, Reason(r.Reason), r.AboutID.String()}] = true
	}
	return err
}

// SeeOnDesk takes a line off the desk: a coach has looked at it. Repeating it is
// harmless. [ErrNotFound] when there is no such student or reason, or About is no
// id.
// Coaches only.
func (s *Store) SeeOnDesk(ctx context.Context, v Viewer, seen Seen) error {
	return s.change(ctx, v, "note that it was looked at", func(t *tx) error {
		about, err := ParseID[SetID](seen.About)
		if err != nil {
			return err
		}
		switch seen.Reason {
		case SeenOff, SeenStuck, SeenSlump, SeenIdle, SeenCard:
		default:
			return ErrNotFound
		}
		if _, err := t.student(ctx, seen.Student); err != nil {
			return err
		}
		return t.Queries.SeeOnDesk(ctx, query.SeeOnDeskParams{
			ClubID: v.Club.UUID, StudentID: seen.Student.UUID, Reason: string(seen.Reason), AboutID: about.UUID, SeenBy: v.Person.UUID,
		})
	})
}

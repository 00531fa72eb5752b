package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
)

// How far back the desk looks, in days.
const (
	deskOffDays     = 14  // balls off the table
	deskHurtDays    = 60  // a student who said that it hurts
	deskIdleDays    = 28  // due days that passed
	deskActive      = 30  // sets that a chart or a card may speak of
	deskTriedDays   = 60  // changes tried to the end
	dismissedDays   = 200 // longer than all of these
	deskWeek        = 7
	maxOffTableSets = 20
	DeskChartSets   = 30 // sets of a student given for a chart
)

// Desk is what may need a decision of a coach. What is a slump, or stuck, is
// for others to judge: their sets and changes are given.
type Desk struct {
	Hurts     []HurtStudent         // newest first
	Proposals []PendingPrescription // oldest first
	Questions []StudentQuestion     // oldest first
	Off       []OffTableSet         // newest first
	// Tried are the latest two changes of each student that were tried to the
	// end, the later one first.
	Tried []TriedPair
	// Active are students who closed a set lately, with their latest sets.
	Active []ActiveStudent
	// Unanswered are students whose latest advice asks for a coach's look.
	Unanswered []UnansweredStudent
	Cards      []FoundCard
	Idle       []IdleStudent
	Week       WeekTotals
	// Locked are whom too many wrong secrets have locked out.
	Locked []LockedPerson
	// Dismissed says what a coach has marked as looked at, of what Tried and Active
	// may lead to.
	Dismissed map[DismissedLine]bool
}

// DismissReason is why a line stands on the desk.
type DismissReason string

// The reasons that a coach can mark as looked at. What each is about: a set, the
// later of two changes, the set that a chart signals at, an assignment, a stint.
const (
	DismissOffTable   DismissReason = "off the table"
	DismissStuck      DismissReason = "stuck"
	DismissSlump      DismissReason = "slump"
	DismissIdle       DismissReason = "idle"
	DismissCard       DismissReason = "card"
	DismissUnanswered DismissReason = "asked"
	DismissHurts      DismissReason = "hurts"
)

// DismissedLine names a line of the desk.
type DismissedLine struct {
	Student PersonID
	Reason  DismissReason
	About   string // the id, as text
}

// OffTableSet is a set in which a ball left the table.
type OffTableSet struct {
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
	Last   TriedChange
	Before *TriedChange
}

// ActiveStudent is a student with their latest sets, oldest first.
type ActiveStudent struct {
	Student PersonID
	Name    string
	Sets    []RecentSet
}

// FoundCard is a stint whose setup the adviser holds for the student's own break
// for that table, and no card of it was issued.
type FoundCard struct {
	Name  string
	Stint Stint
	// Breaks, WingMade, of the Watched, and InWindow count all they broke under the
	// setup on the table, in this stint and before.
	Breaks, Watched, WingMade, InWindow int
}

// UnansweredStudent is a student whose breaks leave the rules without an answer, with
// their latest set and what was said of it.
type UnansweredStudent struct {
	Student    PersonID
	Name       string
	Set        SetID
	TableLabel string
	Advice     Advice
}

// IdleStudent is a student who has not closed a set by the due day.
type IdleStudent struct {
	Student    PersonID
	Name       string
	Assignment AssignmentID
	DrillName  string
	Due        time.Time // midnight UTC of the day
}

// WeekTotals is what was recorded in the last seven days.
type WeekTotals struct{ Students, Sets, Breaks int }

// GetDesk returns what may need a decision; now is the present, and today its day
// in the club's zone, as midnight UTC. As many queries however many students and
// sets there are. Coaches only.
func (s *Store) GetDesk(ctx context.Context, v Actor, now, today time.Time) (Desk, error) {
	return readInTransaction(ctx, s, v, "get the desk", func(t *tx) (Desk, error) {
		if err := v.requireCoach(); err != nil {
			return Desk{}, err
		}
		var d Desk
		for _, part := range []func(context.Context, *Desk, time.Time) error{
			t.loadDeskWaiting, t.loadDeskHurts, t.loadDeskOffTable, t.loadDeskTriedChanges, t.loadDeskActive, t.loadDeskUnanswered, t.loadDeskCards, t.countDeskWeek, t.loadDeskDismissed,
		} {
			if err := part(ctx, &d, now); err != nil {
				return Desk{}, err
			}
		}
		return d, t.loadDeskIdle(ctx, &d, today)
	})
}

func (t *tx) loadDeskWaiting(ctx context.Context, d *Desk, _ time.Time) (err error) {
	if d.Proposals, err = t.loadPendingPrescriptions(ctx); err != nil {
		return err
	}
	if d.Locked, err = t.loadLockedPeople(ctx); err != nil {
		return err
	}
	rows, err := t.ListUnreadQuestions(ctx)
	d.Questions = mapRows(rows, questionFromRow)
	return err
}

func (t *tx) loadDeskOffTable(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListOffTableSets(ctx, query.ListOffTableSetsParams{Since: daysAgo(now, deskOffDays), Most: maxOffTableSets})
	d.Off = mapRows(rows, func(r query.ListOffTableSetsRow) OffTableSet {
		return OffTableSet{
			Student: PersonID{r.StudentID}, Name: r.StudentName, Set: SetID{r.SetID}, Started: r.StartedAt.UTC(),
			Breaks: r.BallsOff, Of: r.Breaks,
		}
	})
	return err
}

func (t *tx) loadDeskTriedChanges(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListLastTriedChanges(ctx, daysAgo(now, deskTriedDays))
	if err != nil {
		return err
	}
	for _, r := range rows {
		one, err := triedFromRow(r.Prescription, r.Setup, r.Setup_2)
		if err != nil {
			return err
		}
		if n := len(d.Tried); n > 0 && d.Tried[n-1].Last.Student == one.Student {
			d.Tried[n-1].Before = &one
		} else {
			d.Tried = append(d.Tried, TriedPair{Name: r.StudentName, Last: one})
		}
	}
	return nil
}

func (t *tx) loadDeskActive(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListActiveStudents(ctx, daysAgo(now, deskActive))
	if err != nil {
		return err
	}
	ids := mapRows(rows, func(r query.ListActiveStudentsRow) PersonID { return PersonID{r.StudentID} })
	sets, err := t.loadRecentSets(ctx, ids, DeskChartSets)
	for i, r := range rows {
		d.Active = append(d.Active, ActiveStudent{Student: ids[i], Name: r.StudentName, Sets: sets[ids[i]]})
	}
	return err
}

func (t *tx) loadDeskUnanswered(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListAskedStudents(ctx, daysAgo(now, deskActive))
	d.Unanswered = mapRows(rows, func(r query.ListAskedStudentsRow) UnansweredStudent {
		return UnansweredStudent{
			Student: PersonID{r.StudentID}, Name: r.StudentName, Set: SetID{r.LastSetID}, TableLabel: tableFromRow(r.PoolTable).Label(),
			Advice: adviceFromRow(r.Advice),
		}
	})
	return err
}

func (t *tx) loadDeskCards(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListFoundCards(ctx, daysAgo(now, deskActive))
	if err != nil {
		return err
	}
	for _, r := range rows {
		stint, err := stintFromRow(r.Stint, r.Setup, r.PoolTable)
		if err != nil {
			return err
		}
		d.Cards = append(d.Cards, FoundCard{
			Name: r.StudentName, Stint: stint, Breaks: r.Breaks, Watched: r.Watched, WingMade: r.WingMade, InWindow: r.InWindow,
		})
	}
	return nil
}

func (t *tx) countDeskWeek(ctx context.Context, d *Desk, now time.Time) error {
	r, err := t.CountRecordedSince(ctx, daysAgo(now, deskWeek))
	d.Week = WeekTotals{Students: r.Students, Sets: r.Sets, Breaks: r.Breaks}
	return err
}

func (t *tx) loadDeskIdle(ctx context.Context, d *Desk, today time.Time) error {
	rows, err := t.ListIdleStudents(ctx, query.ListIdleStudentsParams{Today: today, Since: daysAgo(today, deskIdleDays)})
	d.Idle = mapRows(rows, func(r query.ListIdleStudentsRow) IdleStudent {
		return IdleStudent{
			Student: PersonID{r.StudentID}, Name: r.StudentName, Assignment: AssignmentID{r.AssignmentID},
			DrillName: r.DrillName, Due: r.DueOn.UTC(),
		}
	})
	return err
}

func (t *tx) loadDeskDismissed(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListDismissedLines(ctx, query.ListDismissedLinesParams{
		Reasons: []string{string(DismissStuck), string(DismissSlump), string(DismissUnanswered)}, Since: daysAgo(now, dismissedDays),
	})
	d.Dismissed = make(map[DismissedLine]bool, len(rows))
	for _, r := range rows {
		d.Dismissed[DismissedLine{PersonID{r.StudentID}, DismissReason(r.Reason), r.AboutID.String()}] = true
	}
	return err
}

// DismissDeskLine takes a line off the desk: a coach has looked at it. Repeating it is
// harmless. [ErrNotFound] when there is no such student or reason, or About is no
// id.
// Coaches only.
func (s *Store) DismissDeskLine(ctx context.Context, v Actor, seen DismissedLine) error {
	return s.changeAsCoach(ctx, v, "note that it was looked at", func(t *tx) error {
		about, err := t.checkDeskLine(ctx, seen)
		if err != nil {
			return err
		}
		// A line that came back is marked anew, with the present as its moment.
		if err := t.Queries.RestoreDeskLine(ctx, query.RestoreDeskLineParams{
			StudentID: seen.Student.UUID, Reason: string(seen.Reason), AboutID: about.UUID,
		}); err != nil {
			return err
		}
		return t.Queries.DismissDeskLine(ctx, query.DismissDeskLineParams{
			ClubID: v.Club.UUID, StudentID: seen.Student.UUID, Reason: string(seen.Reason), AboutID: about.UUID, SeenBy: v.Person.UUID,
		})
	})
}

// RestoreDeskLine puts a line back that was marked as looked at. Repeating it is
// harmless. [ErrNotFound] as for DismissDeskLine. Coaches only.
func (s *Store) RestoreDeskLine(ctx context.Context, v Actor, seen DismissedLine) error {
	return s.changeAsCoach(ctx, v, "put the line back", func(t *tx) error {
		about, err := t.checkDeskLine(ctx, seen)
		if err != nil {
			return err
		}
		return t.Queries.RestoreDeskLine(ctx, query.RestoreDeskLineParams{
			StudentID: seen.Student.UUID, Reason: string(seen.Reason), AboutID: about.UUID,
		})
	})
}

func (t *tx) checkDeskLine(ctx context.Context, seen DismissedLine) (SetID, error) {
	about, err := ParseID[SetID](seen.About)
	if err != nil {
		return SetID{}, err
	}
	switch seen.Reason {
	case DismissOffTable, DismissStuck, DismissSlump, DismissIdle, DismissCard, DismissUnanswered, DismissHurts:
	default:
		return SetID{}, ErrNotFound
	}
	_, err = t.loadStudent(ctx, seen.Student)
	return about, err
}

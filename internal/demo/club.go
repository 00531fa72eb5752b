package demo

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// The club. Its id is the mark by which a demo is known in a database.
const (
	clubName       = "Lantern Street Cue Club"
	unfinishedName = "Lantern Street Cue Club (being filled)"
	clubZone       = "Europe/London"
	className      = "Thursday evening"

	coachName  = "Oona Brandelid"
	coachLogin = "coach"
	passphrase = "chalk the cue first"
)

var (
	clubID  = store.ClubID{UUID: uuid.MustParse("01990000-de30-7000-8000-000000000001")}
	coachID = store.PersonID{UUID: uuid.MustParse("01990000-de30-7000-8000-000000000002")}
	// classForm is the form on which the class was entered: sent again, it gives
	// the same people.
	classForm = uuid.MustParse("01990000-de30-7000-8000-000000000003")
)

var coach = store.Viewer{Club: clubID, Person: coachID, Role: store.Coach}

func viewerOf(p store.Person) store.Viewer {
	return store.Viewer{Club: clubID, Person: p.ID, Role: store.Student}
}

// tables of the club, by what the cast calls them.
func tables() map[string]store.Table {
	tight := table.NineFoot()
	tight.CornerMouth = 4.25
	return map[string]store.Table{
		north1: {Name: north1, Kind: table.NineFoot()},
		north2: {Name: north2, Kind: tight},
		south:  {Name: south, Kind: table.EightFoot()},
		barBox: {Name: barBox, Kind: table.SevenFoot()},
	}
}

const (
	north1 = "North 1"
	north2 = "North 2, tight pockets"
	south  = "South"
	barBox = "Bar box"
)

// founded is the club before anyone has broken.
type founded struct {
	students    []store.Person // as the cast has them
	tables      map[string]store.Table
	assignments map[string]store.AssignmentID // by the name of the drill
}

// found makes the club as its coach does.
func found(ctx context.Context, s *store.Store, secrets *account.Keeper, today time.Time) (f founded, err error) {
	_, link := account.NewToken()
	if err := s.SetFirstRun(ctx, link); err != nil {
		return f, err
	}
	hash, err := secrets.Hash(ctx, passphrase)
	if err != nil {
		return f, err
	}
	_, err = s.CreateClubWithCoach(ctx, link, store.Club{ID: clubID, Name: unfinishedName, Zone: clubZone},
		store.NewCoach{ID: coachID, Name: coachName, Login: coachLogin, SecretHash: hash})
	if err != nil {
		return f, err
	}
	f.tables = map[string]store.Table{}
	for name, t := range tables() {
		if f.tables[name], err = s.SaveTable(ctx, coach, t); err != nil {
			return f, err
		}
	}
	class, err := s.SaveClass(ctx, coach, store.Class{Name: className})
	if err != nil {
		return f, err
	}
	if f.students, err = enrol(ctx, s, class); err != nil {
		return f, err
	}
	f.assignments, err = assign(ctx, s, class, f.students, today)
	return f, err
}

// enrol enters the class. Done again, with no class, it only gives the people.
func enrol(ctx context.Context, s *store.Store, class store.ClassID) ([]store.Person, error) {
	var wanted []store.NewStudent
	for _, p := range cast() {
		wanted = append(wanted, store.NewStudent{Name: p.name, Side: p.side})
	}
	return s.AddStudents(ctx, coach, classForm, class, wanted)
}

// assign writes the drills and gives them out: one is due soon, one was due
// and not everybody has done it, one has no day.
func assign(ctx context.Context, s *store.Store, class store.ClassID, students []store.Person, today time.Time) (map[string]store.AssignmentID, error) {
	given := map[string]store.AssignmentID{}
	for _, g := range []struct {
		homework
		due time.Time
	}{
		{cutBreak(), today.AddDate(0, 0, 3)},
		{quietCueBall(), today.AddDate(0, 0, -4)},
		{barBoxBreak(), time.Time{}},
	} {
		d, err := s.SaveDrill(ctx, coach, store.DrillID{}, g.drill)
		if err != nil {
			return nil, fmt.Errorf("drill %s: %w", g.drill.Name, err)
		}
		a := store.Assignment{Drill: d.ID, Class: class, Due: g.due, Note: g.note}
		if g.drill.Name == barBoxDrill {
			a.Class, a.Students = store.ClassID{}, []store.PersonID{students[0].ID, students[6].ID, students[10].ID}
		}
		if given[g.drill.Name], err = s.Assign(ctx, coach, a); err != nil {
			return nil, err
		}
	}
	return given, nil
}

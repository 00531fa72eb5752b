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

var demoCoach = store.Actor{Club: clubID, Person: coachID, Role: store.Coach}

func actorOf(p store.Person) store.Actor {
	return store.Actor{Club: clubID, Person: p.ID, Role: store.Student}
}

// clubTables of the club, by what the cast calls them.
func clubTables() map[string]store.Table {
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

// clubRecords is the club before anyone has broken.
type clubRecords struct {
	students    []store.Person // as the cast has them
	tables      map[string]store.Table
	assignments map[string]store.AssignmentID // by the name of the drill
}

// createClub makes the club as its coach does.
func createClub(ctx context.Context, s *store.Store, secrets *account.Hasher, today time.Time) (f clubRecords, err error) {
	_, link := account.NewToken()
	if err := s.SetFirstRun(ctx, link); err != nil {
		return f, err
	}
	hash, err := secrets.HashSecret(ctx, passphrase)
	if err != nil {
		return f, err
	}
	_, err = s.CreateClubWithCoach(ctx, link, store.Club{ID: clubID, Name: unfinishedName, Zone: clubZone},
		store.NewCoach{ID: coachID, Name: coachName, Login: coachLogin, SecretHash: hash})
	if err != nil {
		return f, err
	}
	f.tables = map[string]store.Table{}
	for name, t := range clubTables() {
		if f.tables[name], err = s.SaveTable(ctx, demoCoach, t); err != nil {
			return f, err
		}
	}
	class, err := s.SaveClass(ctx, demoCoach, store.Class{Name: className})
	if err != nil {
		return f, err
	}
	if f.students, err = enrolStudents(ctx, s, class); err != nil {
		return f, err
	}
	f.assignments, err = assignDrills(ctx, s, class, f.students, today)
	return f, err
}

// enrolStudents enters the class. Done again, with no class, it only gives the people.
func enrolStudents(ctx context.Context, s *store.Store, class store.ClassID) ([]store.Person, error) {
	var wanted []store.NewStudent
	for _, p := range listParts() {
		wanted = append(wanted, store.NewStudent{Name: p.name, Side: p.side})
	}
	return s.AddStudents(ctx, demoCoach, classForm, class, wanted)
}

// assignDrills writes the drills and gives them out: one is due soon, one was due
// and not everybody has done it, one has no day.
func assignDrills(ctx context.Context, s *store.Store, class store.ClassID, students []store.Person, today time.Time) (map[string]store.AssignmentID, error) {
	given := map[string]store.AssignmentID{}
	for _, g := range []struct {
		drillHomework
		due time.Time
	}{
		{cutBreak(), today.AddDate(0, 0, 3)},
		{quietCueBall(), today.AddDate(0, 0, -4)},
		{barBoxBreak(), time.Time{}},
	} {
		d, err := s.SaveDrill(ctx, demoCoach, store.DrillID{}, g.drill)
		if err != nil {
			return nil, fmt.Errorf("drill %s: %w", g.drill.Name, err)
		}
		a := store.Assignment{Drill: d.ID, Class: class, Due: g.due, Note: g.note}
		if g.drill.Name == barBoxDrill {
			a.Class, a.Students = store.ClassID{}, []store.PersonID{students[0].ID, students[6].ID, students[10].ID}
		}
		if given[g.drill.Name], err = s.AssignDrill(ctx, demoCoach, a); err != nil {
			return nil, err
		}
	}
	return given, nil
}

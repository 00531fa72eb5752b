package demo

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/progress"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// now is a morning, when the day's evening has not been.
var now = time.Date(2026, 3, 12, 9, 30, 0, 0, time.UTC)

// filled is a demo in a database of the test's own.
func filled(t *testing.T) (ownerDSN string, s *store.Store, l Logins) {
	t.Helper()
	ownerDSN = storetest.Database(t)
	return ownerDSN, storetest.Open(t, ownerDSN), prepared(t, ownerDSN, false)
}

func prepared(t *testing.T, ownerDSN string, fresh bool) Logins {
	t.Helper()
	l, err := Prepare(t.Context(), ownerDSN, Options{Fresh: fresh, Now: now, Say: func(string) {}})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func must[T any](value T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

// A club as it was filled, looked at in all the ways that leave it as it is.
func TestClub(t *testing.T) {
	t.Parallel()
	_, s, _ := filled(t)
	for name, look := range map[string]func(*testing.T, *store.Store){
		"the desk has something of everything": theDeskHasSomethingOfEverything,
		"every state is there":                 everyStateIsThere,
		"the same now gives the same sets":     theSameNowGivesTheSameSets,
		"the mind is like the store":           theMindIsLikeTheStore,
		"breaks are possible":                  breaksArePossible,
		"breaks look like the model":           breaksLookLikeTheModel,
	} {
		t.Run(name, func(t *testing.T) { look(t, s) })
	}
}

func theDeskHasSomethingOfEverything(t *testing.T, s *store.Store) {
	ctx := t.Context()
	desk := must(s.GetDesk(ctx, coach, now, now.Truncate(24*time.Hour)))(t)
	waiting := map[string]bool{}
	for _, p := range desk.Proposals {
		waiting[p.StudentName] = true
	}
	if q := desk.Questions; len(waiting) != 3 || len(q) != 1 || !waiting[q[0].StudentName] {
		t.Errorf("proposals of %v and %d questions wait, want three students, one with a question", waiting, len(q))
	}
	if len(desk.Off) == 0 || len(desk.Cards) == 0 || len(desk.Idle) == 0 {
		t.Errorf("balls off the table in %d sets, %d cards, %d idle: want some of each", len(desk.Off), len(desk.Cards), len(desk.Idle))
	}
	if who := stuckOn(desk); !slices.Contains(who, "Farid Golvand") {
		t.Errorf("stuck are %v, want Farid too", who)
	}
	if who := slumpingOn(desk); !slices.Contains(who, "Siobhán Devarrow") {
		t.Errorf("the chart signals a slump of %v, want Siobhán too", who)
	}
	var soon, late int
	for _, a := range must(s.ListAssignments(ctx, coach, store.Live))(t) {
		switch {
		case a.Due.IsZero():
		case a.Due.After(now):
			soon++
		case a.Done < a.For:
			late++
		}
	}
	if soon != 1 || late != 1 {
		t.Errorf("%d assignments are due soon and %d overdue, want one each", soon, late)
	}
	kinds := map[table.Kind]bool{}
	for _, tt := range must(s.ListTables(ctx, coach, store.Live))(t) {
		kinds[tt.Kind] = true
	}
	if len(kinds) != 4 || len(must(s.ListDrills(ctx, coach, store.Live))(t)) != 3 {
		t.Errorf("%d kinds of table, want 4, or not 3 drills", len(kinds))
	}
}

// stuckOn names students whose latest two changes did not help.
func stuckOn(d store.Desk) (names []string) {
	for _, pair := range d.Tried {
		if pair.Before != nil && pair.Before.State != store.Helped && pair.Last.State != store.Helped {
			names = append(names, pair.Name)
		}
	}
	return names
}

// slumpingOn names students whose chart falls. They broke on one kind of table
// for at least as long as the chart looks back.
func slumpingOn(d store.Desk) (names []string) {
	for _, active := range d.Active {
		var counts []evidence.Count
		for _, set := range active.Sets {
			if set.Kind == active.Sets[len(active.Sets)-1].Kind {
				counts = append(counts, evidence.Count{Made: set.WingMade, Tried: set.Breaks})
			}
		}
		if chart, charted := progress.Watch(counts); charted && chart.Course() == progress.Falling {
			names = append(names, active.Name)
		}
	}
	return names
}

func everyStateIsThere(t *testing.T, s *store.Store) {
	states, sides, verdicts := map[store.State]int{}, map[table.Side]int{}, map[string]int{}
	var open []store.ListedSet
	for _, p := range must(s.ListStudents(t.Context(), coach, store.Live))(t) {
		sides[p.Side]++
		for _, set := range must(s.ListSets(t.Context(), coach, p.ID))(t) {
			states[set.State]++
			verdicts[set.Verdict]++
			if set.Closed.IsZero() {
				open = append(open, set)
			}
			if set.Started.After(now) || set.Closed.After(now) || set.Started.Before(now.AddDate(0, -3, 0)) {
				t.Errorf("a set of %s is from %s to %s", p.Name, set.Started, set.Closed)
			}
		}
	}
	for _, want := range []store.State{store.Proposed, store.Approved, store.Changed, store.Declined,
		store.InTrial, store.Helped, store.NoDifference, store.Hurt} {
		if states[want] == 0 {
			t.Errorf("no prescription is %s: %v", want, states)
		}
	}
	if verdicts["keep"] == 0 || verdicts["more"] == 0 {
		t.Errorf("verdicts %v: no setup is good, or none is too early to say", verdicts)
	}
	if len(open) != 1 || open[0].Breaks != 5 {
		t.Errorf("open sets %v, want one, half recorded", open)
	}
	if sides[table.Left] < 4 || sides[table.Right] < 4 || sides[table.Left]+sides[table.Right] != 12 {
		t.Errorf("sides %v", sides)
	}
}

func TestPrepare_KeepsWhatIsThereUntilFresh(t *testing.T) {
	t.Parallel()
	dsn, s, first := filled(t)
	class := must(s.SaveClass(t.Context(), coach, store.Class{Name: "A visitor's class"}))(t)
	again := prepared(t, dsn, false)
	if again.Students[0] != first.Students[0] || again.Students[1] != first.Students[1] || again.Coach != first.Coach {
		t.Errorf("the logins were %v and are %v", first, again)
	}
	if _, _, err := s.GetClass(t.Context(), coach, class); err != nil {
		t.Errorf("what a visitor did is gone: %v", err)
	}
	fresh := prepared(t, dsn, true)
	if fresh.Students[0].Who == first.Students[0].Who {
		t.Error("a fresh club has the codes of the old one")
	}
	if _, _, err := s.GetClass(t.Context(), coach, class); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a fresh club still has what a visitor did: %v", err)
	}
}

func TestPrepare_LeavesOtherClubsAlone(t *testing.T) {
	t.Parallel()
	dsn := storetest.Database(t)
	s := storetest.Open(t, dsn)
	other := storetest.AddScene(t, s)
	for _, fresh := range []bool{false, true} {
		_, err := Prepare(t.Context(), dsn, Options{Fresh: fresh, Now: now, Say: func(string) {}})
		if !errors.Is(err, ErrOtherClub) {
			t.Errorf("fresh %v: %v", fresh, err)
		}
	}
	if _, students, err := s.GetClass(t.Context(), other.Coach, other.Class); err != nil || len(students) != 3 {
		t.Errorf("the other club has %d students (%v), not 3", len(students), err)
	}
}

func TestPrepare_AClubBesideTheDemoIsNeverWiped(t *testing.T) {
	t.Parallel()
	dsn, s, first := filled(t)
	other := storetest.AddScene(t, s)
	if again := prepared(t, dsn, false); again.Students[0] != first.Students[0] {
		t.Errorf("the demo beside another club changed: %v, %v", first, again)
	}
	if _, err := Prepare(t.Context(), dsn, Options{Fresh: true, Now: now, Say: func(string) {}}); !errors.Is(err, ErrOtherClub) {
		t.Errorf("fresh beside another club: %v", err)
	}
	if _, err := s.GetClub(t.Context(), other.Coach); err != nil {
		t.Errorf("the other club: %v", err)
	}
}

// Whoever waits for a first start is told why, and at the second nothing.
func TestPrepare_SaysWhatTakesItsTime(t *testing.T) {
	t.Parallel()
	dsn := storetest.Database(t)
	for _, want := range []int{2, 0} {
		var said []string
		say := func(sentence string) { said = append(said, sentence) }
		if _, err := Prepare(t.Context(), dsn, Options{Now: now, Say: say}); err != nil {
			t.Fatal(err)
		}
		if len(said) != want || want > 0 && !strings.HasPrefix(said[0], "Filling the demo's club") {
			t.Errorf("it says %q, want %d sentences", said, want)
		}
	}
}

func TestPrepare_MakesAgainWhatWasCutShort(t *testing.T) {
	t.Parallel()
	dsn, s, first := filled(t)
	// The name comes last, so this is how a club looks that was not finished.
	if err := s.ChangeClub(t.Context(), coach, store.Club{ID: clubID, Name: unfinishedName, Zone: clubZone}); err != nil {
		t.Fatal(err)
	}
	again := prepared(t, dsn, false)
	if again.Club != clubName || again.Students[0].Who == first.Students[0].Who {
		t.Errorf("the unfinished club was kept: %+v", again)
	}
	if n := len(must(s.WaitingQuestions(t.Context(), coach))(t)); n != 1 {
		t.Errorf("%d questions wait, want 1", n)
	}
}

// The same now gives the same sets, whatever ids and codes they have.
func theSameNowGivesTheSameSets(t *testing.T, s *store.Store) {
	_, again, _ := filled(t)
	one, two := exported(t, s), exported(t, again)
	if len(one) != 11 || len(two) != 11 {
		t.Fatalf("%d and %d students have sets, want all but the newcomer", len(one), len(two))
	}
	for name, sets := range one {
		if !reflect.DeepEqual(sets, two[name]) {
			t.Errorf("%s differs:\n%+v\n%+v", name, sets, two[name])
		}
	}
}

// exported gives all sets by student.
func exported(t *testing.T, s *store.Store) map[string][]drill.Set {
	t.Helper()
	all := map[string][]drill.Set{}
	err := s.Export(t.Context(), coach, store.Scope{}, func(p store.Person, sets []drill.Set) error {
		all[p.Name] = sets
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestPrepare_LoginsLetInOrSayThatTheyChanged(t *testing.T) {
	t.Parallel()
	dsn, s, l := filled(t)
	if l.Coach.Changed || len(l.Students) != 2 || l.Students[0].Side != table.Left || l.Students[1].Side != table.Right {
		t.Fatalf("%+v", l)
	}
	code, _ := account.ReadCode(l.Students[0].Who)
	left := must(s.FindStudent(t.Context(), code))(t)
	secrets := must(account.NewKeeper(account.TestCost(), 1))(t)
	if same := must(secrets.Matches(t.Context(), l.Students[0].Secret, left.SecretHash))(t); !same {
		t.Error("the left-side student's PIN does not let in")
	}
	if _, err := s.NewCode(t.Context(), coach, left.Person); err != nil {
		t.Fatal(err)
	}
	again := prepared(t, dsn, false)
	if !again.Students[0].Changed || again.Students[1].Changed || again.Coach.Changed {
		t.Errorf("after a new code for the first student: %+v", again)
	}
}

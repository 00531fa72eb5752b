//go:build !quick

package demo

import (
	"archive/zip"
	"bytes"
	"errors"
	"io/fs"
	"reflect"
	"slices"
	"strings"
	"sync"
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

// testTime is a morning, when the day's evening has not been.
var testTime = time.Date(2026, 3, 12, 9, 30, 0, 0, time.UTC)

// filledOnce is the demo that tests have copies of.
var filledOnce struct {
	sync.Mutex
	ownerDSN string
	logins   Logins
	said     []string
}

// fillDatabase is a demo in a database of the test's own, a copy of the one that is
// filled once.
func fillDatabase(t *testing.T) (ownerDSN string, s *store.Store, l Logins) {
	t.Helper()
	filledOnce.Lock()
	defer filledOnce.Unlock()
	if filledOnce.logins.Club == "" {
		filledOnce.ownerDSN = storetest.NewDatabase(t)
		filledOnce.logins, filledOnce.said = prepareDemo(t, filledOnce.ownerDSN, false)
	}
	ownerDSN = storetest.CopyDatabase(t, filledOnce.ownerDSN)
	return ownerDSN, storetest.Open(t, ownerDSN), filledOnce.logins
}

// prepareDemo returns the demo's logins, and what is said meanwhile.
func prepareDemo(t *testing.T, ownerDSN string, fresh bool) (l Logins, said []string) {
	t.Helper()
	l, err := Prepare(t.Context(), ownerDSN, Options{Fresh: fresh, Now: testTime, Say: func(sentence string) { said = append(said, sentence) }})
	if err != nil {
		t.Fatal(err)
	}
	return l, said
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
	owner, s, _ := fillDatabase(t)
	for name, look := range map[string]func(*testing.T, *store.Store){
		"the desk has something of everything": checkDeskHasEverything,
		"every state is there":                 checkEveryState,
		"the mind is like the store":           checkMemoryIsLikeStore,
		"breaks are possible":                  checkBreaksPossible,
		"breaks look like the model":           checkBreaksLikeModel,
		"exports say what the pages say":       checkExportsSayThePage,
		"its file comes back row for row":      func(t *testing.T, s *store.Store) { checkFileComesBack(t, owner, s) },
	} {
		t.Run(name, func(t *testing.T) { look(t, s) })
	}
}

// checkFileComesBack takes the club's file into a database of its own, and writes it
// there again: the same rows in every table.
func checkFileComesBack(t *testing.T, owner string, s *store.Store) {
	to := storetest.NewDatabase(t)
	var first, second bytes.Buffer
	want := must(store.ExportClub(t.Context(), owner, "", &first))(t)
	must(store.ImportClub(t.Context(), to, bytes.NewReader(first.Bytes()), int64(first.Len())))(t)
	got := must(storetest.Open(t, to).WriteClubFile(t.Context(), demoCoach, &second))(t)
	for i, part := range want.Tables {
		if part.Table != got.Tables[i].Table || part.Rows != got.Tables[i].Rows || !slices.Equal(sortedRows(t, first, part), sortedRows(t, second, part)) {
			t.Errorf("%s does not come back as it was: %d rows of %d", part.Table, got.Tables[i].Rows, part.Rows)
		}
	}
	if breaks := must(s.CountBreaks(t.Context(), demoCoach, store.ExportScope{}))(t); got.RowsOf("break") < int64(breaks) || breaks == 0 {
		t.Errorf("%d breaks are in the file, %d in the club", got.RowsOf("break"), breaks)
	}
}

// sortedRows are the lines of a table in a club's file.
func sortedRows(t *testing.T, file bytes.Buffer, part store.BackupPart) []string {
	t.Helper()
	parts := must(zip.NewReader(bytes.NewReader(file.Bytes()), int64(file.Len())))(t)
	rows := strings.Split(string(must(fs.ReadFile(parts, part.Table+".jsonl"))(t)), "\n")
	slices.Sort(rows)
	return rows
}

func checkDeskHasEverything(t *testing.T, s *store.Store) {
	ctx := t.Context()
	desk := must(s.GetDesk(ctx, demoCoach, testTime, testTime.Truncate(24*time.Hour)))(t)
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
	if who := listStuck(desk); !slices.Contains(who, "Farid Golvand") {
		t.Errorf("stuck are %v, want Farid too", who)
	}
	if who := listSlumping(desk); !slices.Contains(who, "Siobhán Devarrow") {
		t.Errorf("the chart signals a slump of %v, want Siobhán too", who)
	}
	var soon, late int
	for _, a := range must(s.ListAssignments(ctx, demoCoach, store.ActiveOnly))(t) {
		switch {
		case a.Due.IsZero():
		case a.Due.After(testTime):
			soon++
		case a.Done < a.For:
			late++
		}
	}
	if soon != 1 || late != 1 {
		t.Errorf("%d assignments are due soon and %d overdue, want one each", soon, late)
	}
	kinds := map[table.Kind]bool{}
	for _, tt := range must(s.ListTables(ctx, demoCoach, store.ActiveOnly))(t) {
		kinds[tt.Kind] = true
	}
	if len(kinds) != 4 || len(must(s.ListDrills(ctx, demoCoach, store.ActiveOnly))(t)) != 3 {
		t.Errorf("%d kinds of table, want 4, or not 3 drills", len(kinds))
	}
}

// listStuck names students whose latest two changes did not help.
func listStuck(d store.Desk) (names []string) {
	for _, pair := range d.Tried {
		if pair.Before != nil && pair.Before.State != store.Helped && pair.Last.State != store.Helped {
			names = append(names, pair.Name)
		}
	}
	return names
}

// listSlumping names students whose chart falls. They broke on one kind of table
// for at least as long as the chart looks back.
func listSlumping(d store.Desk) (names []string) {
	for _, active := range d.Active {
		var counts []evidence.Count
		for _, set := range active.Sets {
			if set.Kind == active.Sets[len(active.Sets)-1].Kind {
				counts = append(counts, evidence.Count{Made: set.WingMade, Tried: set.Breaks})
			}
		}
		if chart, charted := progress.ChartSets(counts); charted && chart.CurrentTrend() == progress.Falling {
			names = append(names, active.Name)
		}
	}
	return names
}

func checkEveryState(t *testing.T, s *store.Store) {
	states, sides, verdicts := map[store.State]int{}, map[table.Side]int{}, map[string]int{}
	var open []store.ListedSet
	for _, p := range must(s.ListStudents(t.Context(), demoCoach, store.ActiveOnly))(t) {
		sides[p.Side]++
		for _, set := range must(s.ListSets(t.Context(), demoCoach, p.ID))(t) {
			states[set.State]++
			verdicts[set.Verdict]++
			if set.Closed.IsZero() {
				open = append(open, set)
			}
			if set.Started.After(testTime) || set.Closed.After(testTime) || set.Started.Before(testTime.AddDate(0, -3, 0)) {
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
	dsn, s, first := fillDatabase(t)
	class := must(s.SaveClass(t.Context(), demoCoach, store.Class{Name: "A visitor's class"}))(t)
	sets := exportSets(t, s)
	again, _ := prepareDemo(t, dsn, false)
	if again.Students[0] != first.Students[0] || again.Students[1] != first.Students[1] || again.Coach != first.Coach {
		t.Errorf("the logins were %v and are %v", first, again)
	}
	if _, _, err := s.GetClass(t.Context(), demoCoach, class); err != nil {
		t.Errorf("what a visitor did is gone: %v", err)
	}
	fresh, _ := prepareDemo(t, dsn, true)
	requireSameSets(t, sets, exportSets(t, s))
	if fresh.Students[0].SignInName == first.Students[0].SignInName {
		t.Error("a fresh club has the codes of the old one")
	}
	if _, _, err := s.GetClass(t.Context(), demoCoach, class); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a fresh club still has what a visitor did: %v", err)
	}
}

func TestPrepare_LeavesOtherClubsAlone(t *testing.T) {
	t.Parallel()
	dsn := storetest.NewDatabase(t)
	s := storetest.Open(t, dsn)
	other := storetest.AddScene(t, s)
	for _, fresh := range []bool{false, true} {
		_, err := Prepare(t.Context(), dsn, Options{Fresh: fresh, Now: testTime, Say: func(string) {}})
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
	dsn, s, first := fillDatabase(t)
	other := storetest.AddScene(t, s)
	if again, _ := prepareDemo(t, dsn, false); again.Students[0] != first.Students[0] {
		t.Errorf("the demo beside another club changed: %v, %v", first, again)
	}
	if _, err := Prepare(t.Context(), dsn, Options{Fresh: true, Now: testTime, Say: func(string) {}}); !errors.Is(err, ErrOtherClub) {
		t.Errorf("fresh beside another club: %v", err)
	}
	if _, err := s.GetClub(t.Context(), other.Coach); err != nil {
		t.Errorf("the other club: %v", err)
	}
}

// Whoever waits for a first start is told why, and at the second nothing.
func TestPrepare_SaysWhatTakesItsTime(t *testing.T) {
	t.Parallel()
	dsn, _, _ := fillDatabase(t)
	if said := filledOnce.said; len(said) != 2 || !strings.HasPrefix(said[0], "Filling the demo's club") {
		t.Errorf("the first start says %q", said)
	}
	if _, said := prepareDemo(t, dsn, false); len(said) > 0 {
		t.Errorf("the second start says %q", said)
	}
}

func TestPrepare_MakesAgainWhatWasCutShort(t *testing.T) {
	t.Parallel()
	dsn, s, first := fillDatabase(t)
	// The name comes last, so this is how a club looks that was not finished.
	if err := s.ChangeClub(t.Context(), demoCoach, store.Club{ID: clubID, Name: unfinishedName, Zone: clubZone}); err != nil {
		t.Fatal(err)
	}
	again, _ := prepareDemo(t, dsn, false)
	if again.Club != clubName || again.Students[0].SignInName == first.Students[0].SignInName {
		t.Errorf("the unfinished club was kept: %+v", again)
	}
	if n := len(must(s.ListUnreadQuestions(t.Context(), demoCoach))(t)); n != 1 {
		t.Errorf("%d questions wait, want 1", n)
	}
}

// requireSameSets compares the sets of two clubs that lived up to the same now, whatever
// ids and codes they have.
func requireSameSets(t *testing.T, one, two map[string][]drill.Set) {
	t.Helper()
	if len(one) != 11 || len(two) != 11 {
		t.Fatalf("%d and %d students have sets, want all but the newcomer", len(one), len(two))
	}
	for name, sets := range one {
		if !reflect.DeepEqual(sets, two[name]) {
			t.Errorf("%s differs:\n%+v\n%+v", name, sets, two[name])
		}
	}
}

// exportSets returns all sets by student.
func exportSets(t *testing.T, s *store.Store) map[string][]drill.Set {
	t.Helper()
	all := map[string][]drill.Set{}
	err := s.ExportSets(t.Context(), demoCoach, store.ExportScope{}, func(p store.Person, sets []drill.Set) error {
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
	dsn, s, l := fillDatabase(t)
	if l.Coach.Changed || len(l.Students) != 2 || l.Students[0].Side != table.Left || l.Students[1].Side != table.Right {
		t.Fatalf("%+v", l)
	}
	code, _ := account.ParseCode(l.Students[0].SignInName)
	left := must(s.FindStudent(t.Context(), code))(t)
	secrets := must(account.NewHasher(account.TestCost(), 1))(t)
	if same := must(secrets.Matches(t.Context(), l.Students[0].Secret, left.SecretHash))(t); !same {
		t.Error("the left-side student's PIN does not let in")
	}
	if _, err := s.ReplaceCode(t.Context(), demoCoach, left.Person); err != nil {
		t.Fatal(err)
	}
	again, _ := prepareDemo(t, dsn, false)
	if !again.Students[0].Changed || again.Students[1].Changed || again.Coach.Changed {
		t.Errorf("after a new code for the first student: %+v", again)
	}
}

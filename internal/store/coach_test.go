package store_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func TestAssignmentProgress(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	first := sc.RecordBreaks(t, sc.StudentActor(0), 10)
	sc.CloseSet(t, sc.StudentActor(0), first, -16)
	second := sc.RecordBreaks(t, sc.StudentActor(0), 4)
	rows := must(s.GetAssignmentProgress(ctx, sc.Coach, sc.Assignment))(t)
	if len(rows) != 3 {
		t.Fatalf("%d rows for a class of three", len(rows))
	}
	odile := rows[1] // Bram, Odile, Wen
	if odile.Student != sc.StudentActor(0).Person || odile.Sets != 1 || odile.Breaks != 14 || odile.Last != second ||
		!odile.LastClosed.IsZero() || odile.Verdict != "change" || odile.State != store.Proposed {
		t.Errorf("Odile: %+v", odile)
	}
	if bram := rows[0]; bram.Sets != 0 || bram.Breaks != 0 || !store.IsZero(bram.Last) || bram.Verdict != "" || bram.State != "" {
		t.Errorf("Bram: %+v", bram)
	}
	listed := must(s.ListAssignments(ctx, sc.Coach, store.ActiveOnly))(t)
	if len(listed) != 1 || listed[0].For != 3 || listed[0].Done != 1 || listed[0].ClassName != "Thursday evening" {
		t.Errorf("listed: %+v", listed)
	}
	if _, err := s.GetAssignmentProgress(ctx, sc.StudentActor(0), sc.Assignment); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student asks: %v", err)
	}
	if _, err := s.GetAssignmentProgress(ctx, storetest.AddScene(t, s).Coach, sc.Assignment); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another club asks: %v", err)
	}
}

func TestAssign_DueDayAndNote(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	friday := time.Date(2026, 3, 6, 0, 0, 0, 0, time.UTC)
	id := must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Class: sc.Class, Due: friday, Note: "Slowly."}))(t)
	got := must(s.GetAssignment(ctx, sc.StudentActor(0), id))(t)
	if !got.Due.Equal(friday) || got.Note != "Slowly." || got.By != sc.Coach.Person {
		t.Errorf("%+v", got)
	}
	if tasks := must(s.GetToday(ctx, sc.StudentActor(0)))(t).Tasks; len(tasks) != 2 || tasks[0].Assignment != id {
		t.Errorf("the one with a due day is not first: %+v", tasks)
	}
	for name, bad := range map[string]store.Assignment{
		"nobody": {Drill: sc.Drill.ID},
		"both":   {Drill: sc.Drill.ID, Class: sc.Class, Students: []store.PersonID{sc.StudentActor(0).Person}},
	} {
		var p drill.Problems
		if _, err := s.AssignDrill(ctx, sc.Coach, bad); !errors.As(err, &p) || p.MessageFor("students") == "" {
			t.Errorf("assigned to %s: %v", name, err)
		}
	}
	other := storetest.AddScene(t, s)
	stolen := store.Assignment{Drill: sc.Drill.ID, Students: []store.PersonID{other.StudentActor(0).Person}}
	if _, err := s.AssignDrill(ctx, sc.Coach, stolen); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("assigned to another club's student: %v", err)
	}
	if err := s.ArchiveClass(ctx, sc.Coach, sc.Class); err != nil {
		t.Fatal(err)
	}
	if tasks := must(s.GetToday(ctx, sc.StudentActor(0)))(t).Tasks; len(tasks) != 0 {
		t.Errorf("the class was put away, its drills not: %+v", tasks)
	}
}

func TestToday_OpenSetsAndLastTable(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	if today := must(sc.Store.GetToday(ctx, odile))(t); len(today.Open) != 0 || !store.IsZero(today.LastTable) || len(today.Tables) != 1 {
		t.Errorf("before the first set: %+v", today)
	}
	set := sc.RecordBreaks(t, odile, 3)
	own := must(sc.Store.StartSet(ctx, odile, store.NewSet{Table: sc.Table.ID, Training: "Closer in", Setup: sc.Drill.Setup}))(t)
	if open := must(sc.Store.GetToday(ctx, odile))(t).Open; len(open) != 2 || open[0].Title != "Closer in" || open[1].Title != sc.Drill.Name {
		t.Errorf("open are %+v", open)
	}
	sc.CloseSet(t, odile, own.ID, own.Setup.Cue.X)
	today := must(sc.Store.GetToday(ctx, odile))(t)
	if len(today.Open) != 1 || today.Open[0].ID != set || today.Open[0].Breaks != 3 || today.LastTable != sc.Table.ID {
		t.Errorf("with a set begun: %+v", today)
	}
	sc.CloseSet(t, odile, set, -18)
	if today := must(sc.Store.GetToday(ctx, odile))(t); len(today.Open) != 0 || today.Tasks[0].Closed != 1 {
		t.Errorf("with the set closed: %+v", today)
	}
	if _, err := sc.Store.GetToday(ctx, sc.Coach); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a coach's today: %v", err)
	}
}

func TestSay_QuestionAndAnswer(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 1)
	if err := s.PostMessage(ctx, odile, store.MessageID{}, set, " Further out? "); err != nil {
		t.Fatal(err)
	}
	waiting := must(s.ListUnreadQuestions(ctx, sc.Coach))(t)
	if len(waiting) != 1 || waiting[0].Body != "Further out?" || waiting[0].StudentName != "Odile" || waiting[0].FromCoach {
		t.Fatalf("waiting: %+v", waiting)
	}
	if listed := must(s.ListSets(ctx, sc.Coach, odile.Person))(t); listed[0].Questions != 1 || listed[0].Answers != 0 {
		t.Errorf("listed: %+v", listed)
	}
	if err := s.PostMessage(ctx, sc.Coach, store.MessageID{}, set, "An inch."); err != nil {
		t.Fatal(err)
	}
	if waiting := must(s.ListUnreadQuestions(ctx, sc.Coach))(t); len(waiting) != 0 {
		t.Errorf("answered, it still waits: %+v", waiting)
	}
	if today := must(s.GetToday(ctx, odile))(t); today.Answers != 1 {
		t.Errorf("%d answers unread", today.Answers)
	}
	if err := s.MarkRead(ctx, odile, set); err != nil {
		t.Fatal(err)
	}
	if today := must(s.GetToday(ctx, odile))(t); today.Answers != 0 {
		t.Errorf("read, %d answers unread", today.Answers)
	}
	messages := must(s.GetSet(ctx, odile, set))(t).Messages
	if len(messages) != 2 || !messages[1].FromCoach || messages[1].ReadByStudent.IsZero() {
		t.Errorf("messages: %+v", messages)
	}
	var p drill.Problems
	if err := s.PostMessage(ctx, odile, store.MessageID{}, set, " \n"); !errors.As(err, &p) {
		t.Errorf("nothing said: %v", err)
	}
}

// A message to several students stands in the latest set of each of them, and beside none for
// who has none yet.
func TestPostToStudents_InEachLatestSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, id := t.Context(), sc.Store, store.NewID[store.MessageID]()
	sets := map[store.SetID]store.Actor{}
	for i := range 2 {
		sc.CloseSet(t, sc.StudentActor(i), sc.RecordBreaks(t, sc.StudentActor(i), 1), -16)
		sets[sc.RecordBreaks(t, sc.StudentActor(i), 1)] = sc.StudentActor(i)
	}
	all := []store.PersonID{sc.StudentActor(0).Person, sc.StudentActor(1).Person, sc.StudentActor(2).Person}
	for range 2 { // a second click says nothing twice
		if sent := must(s.PostToStudents(ctx, sc.Coach, id, all, "Thursday at seven."))(t); sent != 3 {
			t.Errorf("%d have it", sent)
		}
	}
	for set, student := range sets {
		if messages := must(s.GetSet(ctx, student, set))(t).Messages; len(messages) != 1 || messages[0].Body != "Thursday at seven." {
			t.Errorf("the latest set has %+v", messages)
		}
		if today := must(s.GetToday(ctx, student))(t); today.Answers != 1 || len(today.Messages) != 0 {
			t.Errorf("who has a set: %+v", today)
		}
	}
	if today := must(s.GetToday(ctx, sc.StudentActor(2)))(t); today.Answers != 0 || len(today.Messages) != 1 || today.Messages[0].Body != "Thursday at seven." {
		t.Errorf("who has none: %+v", today)
	}
}

// A message beside no set is read by its student alone, and stays among what was written;
// until then its coach takes it back. Who has left gets none.
func TestReadMessage_BesideNoSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	post := func(body string) store.MessageID {
		t.Helper()
		id := store.NewID[store.MessageID]()
		if sent := must(s.PostToStudents(ctx, sc.Coach, id, []store.PersonID{odile.Person}, body))(t); sent != 1 {
			t.Fatalf("%d have it", sent)
		}
		messages := must(s.GetToday(ctx, odile))(t).Messages
		return messages[len(messages)-1].ID
	}
	welcome, mistake := post("Welcome. Bring your cue."), post("At six.")
	for name, v := range map[string]store.Actor{"the coach": sc.Coach, "another student": sc.StudentActor(1)} {
		if _, err := s.ReadMessage(ctx, v, welcome); !errors.Is(err, store.ErrNotFound) && !errors.Is(err, store.ErrNotAllowed) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for range 2 {
		if read := must(s.ReadMessage(ctx, odile, welcome))(t); read.ReadByStudent.IsZero() || !store.IsZero(read.Set) {
			t.Errorf("read: %+v", read)
		}
	}
	if taken, kept, err := s.TakeBackMessage(ctx, sc.Coach, mistake); taken != 1 || kept != 0 || err != nil {
		t.Errorf("%d taken back, %d kept (%v)", taken, kept, err)
	}
	if taken, kept, err := s.TakeBackMessage(ctx, sc.Coach, welcome); taken != 0 || kept != 1 || err != nil {
		t.Errorf("read: %d taken back, %d kept (%v)", taken, kept, err)
	}
	if left := must(s.GetToday(ctx, odile))(t).Messages; len(left) != 0 {
		t.Errorf("not read: %+v", left)
	}
	if all := must(s.GetStudentProgress(ctx, sc.Coach, odile.Person, store.ProgressFilter{}))(t).Messages; len(all) != 1 || !all[0].SetStarted.IsZero() {
		t.Errorf("written: %+v", all)
	}
	sc.ChangeStudents(t, store.RosterChange{Kind: store.ArchiveMany}, odile.Person)
	if sent := must(s.PostToStudents(ctx, sc.Coach, store.MessageID{}, []store.PersonID{odile.Person}, "Come back."))(t); sent != 0 {
		t.Errorf("%d who have left have it", sent)
	}
}

// Several proposals are approved together, all or none: not where a coach has declined one.
// So are decisions taken back.
func TestApprovePrescriptions_AllOrNone(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	var ids []store.PrescriptionID
	for i := range 3 {
		set := sc.RecordBreaks(t, sc.StudentActor(i), 10)
		sc.CloseSet(t, sc.StudentActor(i), set, -16)
		ids = append(ids, must(s.GetSet(ctx, sc.Coach, set))(t).Prescription.ID)
	}
	states := func() (all []store.State) {
		for _, id := range ids {
			all = append(all, must(s.GetPrescription(ctx, sc.Coach, id))(t).State)
		}
		return all
	}
	if err := s.DecidePrescription(ctx, sc.Coach, ids[2], store.Decision{Answer: store.Declined, Note: "Too early."}); err != nil {
		t.Fatal(err)
	}
	if err := s.ApprovePrescriptions(ctx, sc.Coach, ids); !errors.Is(err, store.ErrConflict) {
		t.Errorf("with one that was declined: %v", err)
	}
	if got := states(); !slices.Equal(got, []store.State{store.Proposed, store.Proposed, store.Declined}) {
		t.Errorf("then they are %v", got)
	}
	if err := s.ApprovePrescriptions(ctx, sc.Coach, ids[:2]); err != nil {
		t.Fatal(err)
	}
	if got := states(); !slices.Equal(got, []store.State{store.Approved, store.Approved, store.Declined}) {
		t.Errorf("without it they are %v", got)
	}
	sc.RecordBreaks(t, sc.StudentActor(1), 1) // which carries the second
	if err := s.ReopenDecisions(ctx, sc.Coach, ids[:2], storetest.ProposeMove(-16)); !errors.Is(err, store.ErrConflict) {
		t.Errorf("taken back with one that a set has carried: %v", err)
	}
	if got := states(); !slices.Equal(got, []store.State{store.Approved, store.InTrial, store.Declined}) {
		t.Errorf("then they are %v", got)
	}
	if err := s.ReopenDecisions(ctx, sc.Coach, []store.PrescriptionID{ids[0], ids[2]}, storetest.ProposeMove(-16)); err != nil {
		t.Fatal(err)
	}
	if got := states(); !slices.Equal(got, []store.State{store.Proposed, store.InTrial, store.Proposed}) {
		t.Errorf("taken back they are %v", got)
	}
	if p := must(s.GetPrescription(ctx, sc.Coach, ids[2]))(t); p.DecisionNote != "Too early." || p.ShownNote() != "" {
		t.Errorf("the word of a decision that was taken back is kept as %q and told as %q", p.DecisionNote, p.ShownNote())
	}
}

// A coach sees the drills of a student as the student does, and no student those of
// another.
func TestListTasksOf_AsTheStudentHasThem(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	tasks, own := must(s.ListTasksOf(ctx, sc.Coach, odile.Person))(t), must(s.GetToday(ctx, odile))(t).Tasks
	if len(tasks) != 1 || len(own) != 1 || tasks[0].Assignment != own[0].Assignment || tasks[0].Name() != own[0].Name() {
		t.Errorf("the coach sees %+v, the student %+v", tasks, own)
	}
	if theirs := must(s.ListTasksOf(ctx, odile, odile.Person))(t); len(theirs) != 1 || theirs[0].Assignment != own[0].Assignment {
		t.Errorf("the student sees %+v of their own", theirs)
	}
	if _, err := s.ListTasksOf(ctx, odile, sc.Students[1].ID); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("of another student: %v", err)
	}
	for name, who := range map[string]store.PersonID{"a coach": sc.Coach.Person, "another club's student": storetest.AddScene(t, s).Students[0].ID} {
		if _, err := s.ListTasksOf(ctx, sc.Coach, who); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("of %s: %v", name, err)
		}
	}
}

// The mark of a class's progress is another when a set is closed, and the same while only
// an open set grows.
func TestClassProgressMark_ChangesWithWhatIsTold(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	mark := func() string { return must(sc.Store.GetClassProgressMark(t.Context(), sc.Coach, sc.Class))(t) }
	before := mark()
	set := sc.RecordBreaks(t, sc.StudentActor(0), 2)
	if mark() != before {
		t.Error("breaks of an open set change the mark")
	}
	sc.CloseSet(t, sc.StudentActor(0), set, -16)
	if mark() == before {
		t.Error("a closed set does not change the mark")
	}
	if _, err := sc.Store.GetClassProgressMark(t.Context(), sc.StudentActor(0), sc.Class); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student: %v", err)
	}
}

func TestClass_MembersComeAndGo(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	other := storetest.AddScene(t, s)
	for who, id := range map[string]store.PersonID{"another club's student": other.StudentActor(0).Person, "a coach": sc.Coach.Person} {
		made := must(s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.AddToClass, Class: sc.Class}, []store.PersonID{id}))(t)
		if made.Students != 0 {
			t.Errorf("%s joins", who)
		}
	}
	class, students, err := s.GetClass(ctx, sc.Coach, sc.Class)
	if err != nil || class.Name != "Thursday evening" || len(students) != 3 || students[0].Name != "Bram" {
		t.Errorf("%+v, %+v, %v", class, students, err)
	}
	if listed := must(s.ListClasses(ctx, sc.Coach, store.ActiveOnly))(t); len(listed) != 1 || listed[0].Students != 3 {
		t.Errorf("listed: %+v", listed)
	}
}

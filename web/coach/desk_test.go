package coach_test

import (
	"fmt"
	"net/http"
	"net/url"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

var htmx = map[string]string{"Sec-Fetch-Site": "same-origin", "HX-Request": "true"}

// scored closes a set of ten with so many wing balls made, begun at a time.
func scored(t *testing.T, site *webtest.Site, which, made int, at time.Time, off bool) store.SetID {
	t.Helper()
	who := site.StudentActor(which)
	set, err := site.Store.StartSet(t.Context(), who, store.NewSet{Assignment: site.Assignment, Table: site.Table.ID, At: at})
	if err != nil {
		t.Fatal(err)
	}
	for n := range 10 {
		b := drill.Break{Number: n + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 1, Y: 40}}, WingMiss: drill.MissSideRail}
		if n < made {
			b.WingMiss = ""
			b.Pocketed = []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}
		}
		if off && n == 9 {
			b.Cue = drill.CueEnd{How: drill.OffTable}
		}
		if _, err := site.Store.SaveBreak(t.Context(), who, set.ID, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}); err != nil {
			t.Fatal(err)
		}
	}
	site.CloseSet(t, who, set.ID, set.Setup.Cue.X)
	return set.ID
}

// dismissFromDesk presses "Noted" on the line and expects it gone for good, with a
// script and without.
func dismissFromDesk(t *testing.T, coach *webtest.Client, line string) {
	t.Helper()
	form := coach.Get(t, "/desk").RequireCount(t, line, 1).FormValues(t, line+" form[action='/desk/seen']")
	coach.SendWithHeaders(t, http.MethodPost, "/desk/seen", form, htmx).RequireStatus(t, 200).RequireText(t, "li [role=status]", "Noted").RequireCount(t, "nav", 0)
	coach.Get(t, "/desk").RequireCount(t, line, 0)
	coach.Post(t, "/desk/seen", form).RequireStatus(t, 200).RequireText(t, ".notice[role=status]", "Noted")
}

func TestDesk_BallsOffTheTableComeFirst(t *testing.T) {
	site, _ := waiting(t)
	set := scored(t, site, 1, 3, time.Now(), true)
	scored(t, site, 2, 3, time.Now().AddDate(0, 0, -15), true) // too long ago
	coach := site.SignInCoach(t)
	desk := coach.Get(t, "/desk").RequireText(t, ".answer", "2 students need you today").RequireText(t, "main h2:first-of-type", "Balls off the table")
	line := "#off-" + set.String()
	desk.RequireCount(t, ".pressing [id^='off-']", 1).RequireText(t, line, "Bram", "in 1 of 10 breaks").RequireCount(t, line+" a[href='/sets/"+set.String()+"']", 1)
	dismissFromDesk(t, coach, line)
}

// A chart signals, not one bad day.
func TestDesk_SlumpIsAChartThatSignals(t *testing.T) {
	site := webtest.New(t)
	day := func(n int) time.Time { return time.Now().AddDate(0, 0, n-20) }
	for n, made := range []int{5, 6, 5, 4, 5, 5, 6, 5, 5, 5, 0} { // one bad day
		scored(t, site, 0, made, day(n), false)
	}
	coach := site.SignInCoach(t)
	coach.Get(t, "/desk").RequireCount(t, "[id^='slump-']", 0)
	for n, made := range []int{2, 2, 1} {
		scored(t, site, 0, made, day(11+n), false)
	}
	line := "#slump-" + site.Students[0].ID.String()
	coach.Get(t, "/desk").RequireText(t, line, "Odile", "dropped for 4 sets: 5 of 40, usual before 41 of 80")
	coach.Get(t, "/students/"+site.Students[0].ID.String()).RequireText(t, "section[aria-labelledby=chart]", "Lower than usual for 4 sets: 5 of 40").RequireCount(t, "#control .pic-sum-low", 6)
	dismissFromDesk(t, coach, line)
}

// Two changes without effect are stuck; a third that helped is not.
func TestDesk_StuckAfterTwoChangesWithoutEffect(t *testing.T) {
	site := webtest.New(t)
	student := site.StudentActor(0)
	coach := site.SignInCoach(t)
	try := func(x table.Inches, outcome store.State) {
		set := site.RecordBreaks(t, student, 10)
		site.CloseSet(t, student, set, x)
		all, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
		if err != nil || len(all) != 1 {
			t.Fatalf("%d wait (%v)", len(all), err)
		}
		if err := site.Store.DecidePrescription(t.Context(), site.Coach, all[0].ID, store.Decision{Answer: store.Approved}); err != nil {
			t.Fatal(err)
		}
		set = site.RecordBreaks(t, student, 10)
		judge := func(store.Case) (store.Judgement, error) {
			return store.Judgement{Verdict: "more", JSON: []byte(`{"verdict":"more"}`), RulesVersion: "1", Outcome: outcome}, nil
		}
		if err := site.Store.CloseSet(t.Context(), student, set, judge); err != nil {
			t.Fatal(err)
		}
	}
	try(-16, store.NoDifference)
	coach.Get(t, "/desk").RequireCount(t, "[id^='stuck-']", 0)
	try(-20, store.Hurt)
	today := time.Now().UTC().Format("2 January")
	coach.Get(t, "/desk").RequireText(t, "[id^='stuck-']", "on "+today+" cue ball 18 → 16 in out (about 1¼ diamonds), no real difference; then on "+today+" cue ball 16 → 20 in out (about 1½ diamonds), it hurt.")
	dismissFromDesk(t, coach, "[id^='stuck-']")
	try(-14, store.Hurt)
	coach.Get(t, "/desk").RequireCount(t, "[id^='stuck-'] a.button[href='/students/"+student.Person.String()+"/change']", 1)
	sets, err := site.Store.ListSets(t.Context(), site.Coach, student.Person)
	if err != nil {
		t.Fatal(err)
	}
	own := store.OwnChange{ID: store.NewID[store.PrescriptionID](), Set: sets[0].ID, Setup: sets[0].Setup}
	own.Setup.Cue.X = -13
	if err := site.Store.DecideOwnChange(t.Context(), site.Coach, own); err != nil {
		t.Fatal(err)
	}
	coach.Get(t, "/desk").RequireCount(t, "[id^='stuck-']", 0) // it is answered
	if err := site.Store.ReopenDecision(t.Context(), site.Coach, own.ID, storetest.ProposeMove(-16)); err != nil {
		t.Fatal(err)
	}
	coach.Get(t, "/desk").RequireCount(t, "[id^='stuck-']", 1)
	try(-12, store.Helped)
	coach.Get(t, "/desk").RequireCount(t, "[id^='stuck-']", 0)
}

func TestDesk_IdlePastTheDueDay(t *testing.T) {
	site := webtest.New(t)
	today := time.Date(time.Now().Year(), time.Now().Month(), time.Now().Day(), 0, 0, 0, 0, time.UTC)
	for day, shown := range map[int]int{0: 0, -1: 1, -27: 1, -30: 0} {
		if err := site.Store.ChangeAssignment(t.Context(), site.Coach, site.Assignment, today.AddDate(0, 0, day), ""); err != nil {
			t.Fatal(err)
		}
		site.SignInCoach(t).Get(t, "/desk").RequireCount(t, "[id^='idle-']", shown)
	}
	if err := site.Store.ChangeAssignment(t.Context(), site.Coach, site.Assignment, today.AddDate(0, 0, -1), ""); err != nil {
		t.Fatal(err)
	}
	scored(t, site, 1, 5, time.Now(), false)
	coach := site.SignInCoach(t)
	coach.Get(t, "/desk").RequireText(t, "[id^='idle-']", "Odile and Wen", "“Find the wing ball” is not done").RequireText(t, ".answer", "2 students need you")
	dismissFromDesk(t, coach, "[id^='idle-']")
}

// A break card that a setup that stays asks for is issued in place, and is off the desk.
// While it is too early to tell, as advice once had a card, none is asked for.
func TestDesk_IssuesTheBreakCard(t *testing.T) {
	site := webtest.New(t)
	for i, verdict := range []string{"keep", "more"} {
		student := site.StudentActor(2 * i)
		judge := func(store.Case) (store.Judgement, error) {
			kept := fmt.Appendf(nil, `{"verdict":%q,"card":{"table":"North 2","says":"Your break."}}`, verdict)
			return store.Judgement{Verdict: verdict, JSON: kept, RulesVersion: "1"}, nil
		}
		if err := site.Store.CloseSet(t.Context(), student, site.RecordBreaks(t, student, 10), judge); err != nil {
			t.Fatal(err)
		}
	}
	coach := site.SignInCoach(t)
	line := "[id^='card-']"
	desk := coach.Get(t, "/desk").RequireCount(t, line, 1).RequireText(t, line, "Odile", "can be left as it is", "the wing ball in 5 of 10")
	for i, offers := range []int{1, 0} {
		coach.Get(t, "/students/"+site.Students[2*i].ID.String()).RequireCount(t, "#issue", offers)
	}
	form := desk.FormValues(t, line+" form[action$='/cards']")
	path := "/students/" + site.Students[0].ID.String() + "/cards"
	coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, 200).RequireText(t, "li [role=status]", "Odile", "Break card issued for North 2")
	coach.Get(t, "/desk").RequireCount(t, line, 0).RequireText(t, ".answer", "Nobody is waiting")
}

// The change is made on the desk, refused with its words beside the field.
func TestDesk_ChangeInPlace(t *testing.T) {
	site, one := waiting(t)
	coach := site.SignInCoach(t)
	path := "/prescriptions/" + one.ID.String()
	row := coach.SendWithHeaders(t, http.MethodGet, path, nil, htmx).RequireStatus(t, 200).RequireCount(t, "nav", 0).RequireCount(t, "#p-"+one.ID.String(), 1)
	form := row.FormValues(t, "form")
	if form.Get("cue_x") != "16" {
		t.Fatalf("the form holds %v", form)
	}
	form.Set("answer", "changed")
	form.Set("cue_x", "far")
	coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "li .error", "Type the inches from the long string").RequireCount(t, "nav", 0)
	form.Set("cue_x", "24")
	coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "li .error", "At most 22.75 inches on this table")
	form.Set("cue_x", "15")
	coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, 200).RequireText(t, "li [role=status]", "own setup")
	if got := state(t, site, one.ID); got.After.Cue.X != -15 || got.State != store.Changed {
		t.Errorf("stored %s at %s", got.State, got.After.Cue)
	}
}

func TestDesk_AnswersInPlace(t *testing.T) {
	site, one := waiting(t)
	if err := site.Store.PostMessage(t.Context(), site.StudentActor(0), store.MessageID{}, one.Set, "Why <b>out</b>?"); err != nil {
		t.Fatal(err)
	}
	coach := site.SignInCoach(t)
	line := "[id^='q-']"
	form := coach.Get(t, "/desk").RequireText(t, line, "Why <b>out</b>?").FormValues(t, line+" form")
	path := "/sets/" + one.Set.String() + "/messages"
	form.Set("body", " ")
	coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, line+" .error", "Write from 1 to 2000").RequireText(t, line, "Why <b>out</b>?")
	form.Set("body", "Because of the rail.")
	sent := coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, 200).RequireText(t, "li [role=status]", "Sent to Odile")
	coach.Get(t, "/desk").RequireCount(t, line, 0)
	coach.Post(t, sent.AttributeOf(t, "form", "action"), sent.FormValues(t, "form")).RequireText(t, ".notice.good", "taken back")
	coach.Get(t, "/desk").RequireCount(t, line, 1)
	coach.SendWithHeaders(t, http.MethodPost, path, form, htmx).RequireStatus(t, 200)
	site.SignInStudent(t, site.Students[0]).Get(t, "/my/progress").RequireText(t, ".talk", "Because of the rail.")
}

// Nobody else's students can be marked, and no reason made up.
func TestDesk_DismissRefuses(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	id := site.Students[0].ID.String()
	for _, form := range []url.Values{
		{"student": {id}, "reason": {"off the table"}, "about": {"x"}},
		{"student": {"x"}, "reason": {"off the table"}, "about": {id}},
		{"student": {site.Coach.Person.String()}, "reason": {"off the table"}, "about": {id}},
		{"student": {id}, "reason": {"nonsense"}, "about": {id}},
	} {
		coach.Post(t, "/desk/seen", form).RequireStatus(t, http.StatusNotFound)
	}
}

func TestDesk_SaysTheWeek(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	coach.Get(t, "/desk").RequireText(t, "main", "In the last seven days nobody recorded a break.")
	scored(t, site, 0, 5, time.Now(), false)
	scored(t, site, 1, 5, time.Now().AddDate(0, 0, -3), false)
	scored(t, site, 1, 5, time.Now().AddDate(0, 0, -8), false)
	coach.Get(t, "/desk").RequireText(t, "main", "2 students recorded 2 sets with 20 breaks.").RequireText(t, ".answer", "Nobody is waiting")
}

// The strip counts each group that waits and leads to it; who has not joined and
// whose side nobody knows are lines of their own.
func TestDesk_CountsWhatWaits(t *testing.T) {
	site := webtest.New(t)
	for i := range 2 {
		student := site.StudentActor(i)
		set := site.RecordBreaks(t, student, 10)
		site.CloseSet(t, student, set, -16)
		if err := site.Store.PostMessage(t.Context(), student, store.MessageID{}, set, "Why?"); err != nil {
			t.Fatal(err)
		}
	}
	desk := site.SignInCoach(t).Get(t, "/desk").RequireText(t, ".desk-strip a[href='#decide']", "2 to decide").
		RequireText(t, ".desk-strip a[href='#questions']", "2 to answer").RequireText(t, "[data-group=missing]", "3 students have not joined yet.")
	for _, group := range []string{"decide", "questions"} {
		desk.RequireCount(t, "#"+group, 1).RequireCount(t, "[data-group="+group+"] [data-waiting]", 2)
	}
}

// Where the rules have no answer, too early or stuck, the desk leads to the coach's own change:
// with its pictures and its limits, and once it is made the line is gone and the student's
// page has it.
func TestDesk_OwnChangeWhereTheRulesHaveNoAnswer(t *testing.T) {
	site := webtest.New(t)
	who := site.StudentActor(0)
	asks := func(store.Case) (store.Judgement, error) {
		return store.Judgement{Verdict: "more", JSON: []byte(`{"verdict":"more","says":"Too early.","tell_coach":true}`), RulesVersion: "1"}, nil
	}
	if err := site.Store.CloseSet(t.Context(), who, site.RecordBreaks(t, who, 10), asks); err != nil {
		t.Fatal(err)
	}
	coach, line := site.SignInCoach(t), "[id^='asked-']"
	desk := coach.Get(t, "/desk").RequireText(t, line, "Odile", "Too early.", "Prescribe a change")
	change := coach.Get(t, desk.AttributeOf(t, line+" a.button:not(.quiet)", "href")).
		RequireCount(t, "form#change svg.pic-table", 1).RequireCount(t, "form#change svg", 4) // table and rack, contact, tip
	form := change.FormValues(t, "form#change")
	form.Set("cue_x", "24")
	path := change.AttributeOf(t, "form#change", "action")
	coach.Post(t, path, form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#cue_x-error", "At most 22.75 inches on this table")
	form.Set("cue_x", "14")
	coach.Post(t, path, form).RequireStatus(t, http.StatusOK).RequireText(t, "[role=status]", "your change is prescribed", "Undo")
	coach.Get(t, "/desk").RequireCount(t, line, 0)
	site.SignInStudent(t, site.Students[0]).Get(t, "/today").RequireText(t, "main", "Cue ball 14 in out (about 1 diamond) instead of 18, as your coach set it.")
}

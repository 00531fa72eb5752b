package coach_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// waiting makes a site on which the first student's set proposes to move the
// cue ball from 18 to 16 inches left.
func waiting(t *testing.T) (site *webtest.Site, pending store.PendingPrescription) {
	t.Helper()
	site = webtest.New(t)
	propose(t, site, 0, -16)
	all, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(all) != 1 {
		t.Fatalf("%d prescriptions wait (%v)", len(all), err)
	}
	return site, all[0]
}

func propose(t *testing.T, site *webtest.Site, which int, x table.Inches) store.SetID {
	t.Helper()
	student := store.Actor{Club: site.Coach.Club, Person: site.Students[which].ID, Role: store.Student}
	set := site.RecordBreaks(t, student, 10)
	site.CloseSet(t, student, set, x)
	return set
}

func state(t *testing.T, site *webtest.Site, id store.PrescriptionID) store.Prescription {
	t.Helper()
	p, err := site.Store.GetPrescription(t.Context(), site.Coach, id)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestDesk_EmptySaysSoAndHowToBegin(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	coach.Get(t, "/desk").RequireText(t, ".answer", "Nobody is waiting for you: nobody has joined yet.").RequireText(t, "main", "0 of 3 have done it")
	if err := site.Store.EndAssignment(t.Context(), site.Coach, site.Assignment); err != nil {
		t.Fatal(err)
	}
	coach.Get(t, "/desk").RequireText(t, "main", "To begin with", "Write a drill and assign it")
}

func TestDesk_ApproveInPlace(t *testing.T) {
	site, one := waiting(t)
	coach := site.SignInCoach(t)
	desk := coach.Get(t, "/desk").RequireText(t, ".answer", "One student needs you today")
	desk.RequireText(t, ".rows", site.Students[0].Name, "Cue ball about 1¼ diamonds (16 in) left of the middle", "Before the change it stood about 1½ diamonds (18 in) left")
	form := desk.FormValues(t, "form.decide")
	form.Set("answer", "approved")
	form.Set("note", "Good.")
	path := "/prescriptions/" + one.ID.String()
	part := coach.SendWithHeaders(t, http.MethodPost, path, form, map[string]string{"Sec-Fetch-Site": "same-origin", "HX-Request": "true"})
	part.RequireStatus(t, http.StatusOK).RequireText(t, "li", "approved").RequireCount(t, "nav", 0)
	if got := state(t, site, one.ID); got.State != store.Approved || got.DecisionNote != "Good." {
		t.Errorf("stored: %s, note %q", got.State, got.DecisionNote)
	}
	coach.Post(t, path, form).RequireStatus(t, http.StatusOK)
	form.Set("answer", "declined")
	coach.Post(t, path, form).RequireStatus(t, http.StatusConflict).RequireText(t, "h1", "Nothing was changed").RequireText(t, "main", "decided already")
	coach.Get(t, "/desk").RequireText(t, ".answer", "Nobody is waiting for you")
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, "/today/"+site.Assignment.String()).RequireText(t, "dl.facts", "(16 in) left of the middle").RequireText(t, "#change", "Cue ball 16 in out (about 1¼ diamonds) instead of 18")
}

func TestDesk_Decline(t *testing.T) {
	site, one := waiting(t)
	coach := site.SignInCoach(t)
	coach.Post(t, "/prescriptions/"+one.ID.String(), url.Values{"answer": {"declined"}, "note": {"Leave it."}}).
		RequireText(t, "[role=status]", "declined")
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, "/today/"+site.Assignment.String()).RequireText(t, "dl.facts", "(18 in) left of the middle")
	student.Get(t, "/my/sets/"+one.Set.String()).RequireText(t, ".prescription", "The same setup again", "your coach left the setup as it was", "Leave it.")
}

func TestPrescription_ChangeItAndTheNextDrillShowsIt(t *testing.T) {
	site, one := waiting(t)
	coach := site.SignInCoach(t)
	path := "/prescriptions/" + one.ID.String()
	page := coach.Get(t, path).RequireText(t, "h1", site.Students[0].Name)
	form := page.FormValues(t, "form")
	if form.Get("cue_x") != "16" || form.Get("cue_y") != "0" || form.Get("rack") != "1-3-2-8-9-5-6-4-7" {
		t.Fatalf("the form holds %v, not what is proposed", form)
	}
	form.Set("answer", "changed")
	for field, c := range map[string][2]string{
		"cue_x": {"cue_x", "24"}, "cue_y": {"cue_y", "-1"}, "cue_x again": {"cue_x", "far"}, "tip": {"tip", "0.9"},
		"rack": {"rack", "9-1-2-3-4-5-6-7-8"}, "speed": {"speed", "60"},
	} {
		bad := url.Values{}
		for name, values := range form {
			bad[name] = values
		}
		bad.Set(c[0], c[1])
		got := coach.Post(t, path, bad).RequireStatus(t, http.StatusUnprocessableEntity)
		if got.TextOf(t, ".notice.wrong li") == "" || got.AttributeOf(t, "#"+c[0], "value") != c[1] {
			t.Errorf("%s %s: says %q at %s, field holds %q", c[0], c[1], got.TextOf(t, ".notice.wrong li"), field, got.AttributeOf(t, "#"+c[0], "value"))
		}
	}
	form.Set("cue_x", "14,5")
	form.Set("tip", "−0.2")
	form.Set("rack", "1 2 3, 8–9–5 6 4 7")
	form.Set("note", "One and a half more.")
	form.Set("show", "yes")
	coach.Post(t, path, form).RequireStatus(t, http.StatusOK).RequireText(t, "dl.facts", "(14.5 in) left of the middle", "about half a tip below centre (0.2 of the radius)", "1-2-3-8-9-5-6-4-7")
	if got := state(t, site, one.ID); got.State != store.Proposed {
		t.Fatalf("looking at it decided it: %s", got.State)
	}
	form.Del("show")
	coach.Post(t, path, form).RequireText(t, "[role=status]", "own setup")
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, "/today/"+site.Assignment.String()).RequireText(t, "dl.facts", "(14.5 in) left of the middle")
}

// A change is made from what is broken now, whichever set it was looked for from.
func TestOwnChange_IsMadeFromTheNewestSet(t *testing.T) {
	site := webtest.New(t)
	older := "/sets/" + propose(t, site, 0, -16).String() + "/change"
	newest := propose(t, site, 0, -15)
	coach := site.SignInCoach(t)
	proposal := coach.Get(t, older).RequireText(t, "[role=status]", "the newest set").AttributeOf(t, "#change", "action")
	coach.Post(t, proposal, url.Values{"answer": {"declined"}}).RequireStatus(t, http.StatusOK)
	form := coach.Get(t, older+"?rack=1-2-3-8-9-5-6-4-7").RequireText(t, "[role=status]", "the newest set")
	if got := form.AttributeOf(t, "#change", "action"); got != "/sets/"+newest.String()+"/change" {
		t.Errorf("the change is made at %s", got)
	}
	if order := form.FormValues(t, "#change").Get("rack"); order != "1-2-3-8-9-5-6-4-7" {
		t.Errorf("the order of the rack plan became %s", order)
	}
}

// A change of a set that was broken under a break box stays within it; what was typed is
// kept, and the picture's cue ball stops at its edge.
func TestPrescription_KeepsInTheBreakBox(t *testing.T) {
	site := webtest.New(t)
	boxed := storetest.StandardDrill()
	boxed.House.BreakBox = 20
	saved, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, boxed)
	if err == nil {
		site.Assignment, err = site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: saved.ID, Class: site.Class})
	}
	if err != nil {
		t.Fatal(err)
	}
	set := propose(t, site, 0, -16)
	coach := site.SignInCoach(t)
	all, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(all) != 1 {
		t.Fatalf("%d prescriptions wait: %v", len(all), err)
	}
	for _, path := range []string{"/prescriptions/" + all[0].ID.String(), "/sets/" + set.String() + "/change"} {
		if strings.HasPrefix(path, "/sets") { // nothing is proposed any more
			coach.Post(t, "/prescriptions/"+all[0].ID.String(), url.Values{"answer": {"declined"}})
		}
		page := coach.Get(t, path).RequireCount(t, ".pic-box", 1).RequireText(t, "#cue_x-hint", "On the left; up to 20, the edge of the break box.")
		if handles := page.AttributeOf(t, "[data-handles]", "data-handles"); !strings.Contains(handles, `"max":20,`) {
			t.Errorf("%s: the cue ball may be drawn to %s", path, handles)
		}
		form := page.FormValues(t, "form.change")
		form.Set("answer", "changed")
		for _, far := range []string{"20.5", "30"} { // 30 is off the cloth, too
			form.Set("cue_x", far)
			bad := coach.Post(t, path, form).RequireStatus(t, http.StatusUnprocessableEntity)
			if got, wrong := bad.FormValues(t, "form.change"), bad.TextOf(t, "#cue_x-error"); got.Get("cue_x") != far || !strings.Contains(strings.ToLower(wrong), "the break box reaches 20 inches") {
				t.Errorf("%s: %q, across %q", path, wrong, got.Get("cue_x"))
			}
		}
	}
}

// A student from the right has the mirror image of it all.
func TestPrescription_FromTheRight(t *testing.T) {
	site := webtest.New(t)
	propose(t, site, 2, 16)
	all, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(all) != 1 {
		t.Fatalf("%d prescriptions wait (%v)", len(all), err)
	}
	coach := site.SignInCoach(t)
	path := "/prescriptions/" + all[0].ID.String()
	form := coach.Get(t, path).RequireText(t, "dl.facts", "about 1¼ diamonds (16 in) right of the middle").FormValues(t, "form")
	if form.Get("cue_x") != "16" {
		t.Errorf("across is %q; out from the long string is the same on both sides", form.Get("cue_x"))
	}
	form.Set("answer", "changed")
	form.Set("cue_x", "15")
	coach.Post(t, path, form).RequireStatus(t, http.StatusOK)
	if got := state(t, site, all[0].ID); got.After.Cue.X != 15 {
		t.Errorf("the coach's setup stands at %s", got.After.Cue)
	}
}

// A break that was taken out stands struck through with its reason and is not
// counted, what a changed one was stands above it, and what was undone at once is
// gone.
func TestSet_NothingVanishesUnseen(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	who := site.StudentActor(0)
	set := site.RecordBreaks(t, who, 4)
	recorded, err := site.Store.GetSet(t.Context(), who, set)
	if err != nil {
		t.Fatal(err)
	}
	breaks := recorded.Breaks
	for i, why := range []string{"undone at once", "the rack was loose"} {
		if err := site.Store.DeleteBreak(t.Context(), who, set, breaks[i].ID, breaks[i].Revision+1, why); err != nil {
			t.Fatal(err)
		}
	}
	changed := breaks[2]
	changed.Revision++
	changed.Note = "Seen on the video."
	if _, err := site.Store.SaveBreak(t.Context(), who, set, changed); err != nil {
		t.Fatal(err)
	}
	show := site.SignInCoach(t).Get(t, "/sets/"+set.String())
	show.RequireText(t, ".breaks li:nth-child(1) del", component.BreakWords(breaks[1].Break, site.Drill.Setup, site.Table.Kind))
	show.RequireText(t, ".breaks li:nth-child(1)", "Taken out by the student: the rack was loose")
	show.RequireText(t, ".breaks li:nth-child(2) del", component.BreakWords(breaks[2].Break, site.Drill.Setup, site.Table.Kind))
	show.RequireText(t, ".breaks li:nth-child(2)", "Changed by the student.")
	show.RequireText(t, ".breaks li:nth-child(3)", "“Seen on the video.”")
	show.RequireText(t, "main", "2 of 10 breaks recorded")
	show.RequireCount(t, "ol.breaks > li", 4)
	show.RequireCount(t, "ol.breaks del", 2)
}

func TestSet_BreakByBreak(t *testing.T) {
	site, one := waiting(t)
	coach := site.SignInCoach(t)
	page := coach.Get(t, "/sets/"+one.Set.String()).RequireCount(t, "ol.breaks > li", 10)
	page.RequireText(t, ".rates", "of 10").RequireText(t, ".trail", site.Students[0].Name)
	if desc := page.TextOf(t, ".picture svg desc"); !strings.Contains(desc, "10") {
		t.Errorf("the picture's words: %q", desc)
	}
}

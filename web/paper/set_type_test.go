package paper_test

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// ten is an ordinary sheet.
var ten = []string{"s c6", "1 2hr d7", "s b8", "f e9", "1 1sr d6", "k sl", "1 c7 b +", "s d11", "1 d8", "j f10 / rattled"}

func typePath(s *webtest.Site, student int) string {
	return "/students/" + s.Students[student].ID.String() + "/type"
}

func lines(form url.Values, lines ...string) url.Values {
	filled := with(form)
	for i, line := range lines {
		filled.Set("line_"+strconv.Itoa(i+1), line)
	}
	return filled
}

func TestType_KeepsTheSetWithItsAdvice(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	form := lines(coach.Get(t, typePath(s, 0)).RequireStatus(t, http.StatusOK).FormValues(t, "form.typing"), ten...)
	saved := coach.Post(t, typePath(s, 0), form).RequireStatus(t, http.StatusOK)
	saved.RequireText(t, ".notice", "10 breaks of Odile typed in").RequireText(t, ".breaks", "rattled", "The 8 in its corner").RequireCount(t, ".prescription", 1)
	if again := coach.Post(t, typePath(s, 0), form); again.Path != saved.Path {
		t.Errorf("a second click led to %s (%d), not %s", again.Path, again.Code, saved.Path)
	}
	sets, err := s.Store.ListSets(t.Context(), s.Coach, s.Students[0].ID)
	if err != nil || len(sets) != 1 || sets[0].Breaks != 10 || sets[0].Closed.IsZero() {
		t.Errorf("sets: %+v, %v", sets, err)
	}
	set, err := s.Store.GetSet(t.Context(), s.StudentActor(0), sets[0].ID)
	if err != nil || set.Breaks[3].EditedBy != s.Coach.Person || set.Breaks[0].Cue.Place != (table.Place{X: -9.375, Y: 34.375}) {
		t.Errorf("kept: %+v, %v", set.Breaks[0], err)
	}
	if !set.Breaks[0].At.IsZero() {
		t.Errorf("no time was typed, yet the first break was at %s", set.Breaks[0].At)
	}
}

// Left and right are the breaker's: on a right-hand student's sheet the same
// letters mean the same side of the table.
func TestType_TheRightWayRound(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	p := coach.Get(t, typePath(s, 2))
	p.RequireText(t, ".typing-help", "Break from the right", "1 in the right foot corner")
	coach.Post(t, typePath(s, 2), with(lines(p.FormValues(t, "form.typing"), "1 g6"), "early", "1", "time", "00:00")).RequireStatus(t, http.StatusOK)
	sets, _ := s.Store.ListSets(t.Context(), s.Coach, s.Students[2].ID)
	set, err := s.Store.GetSet(t.Context(), s.Coach, sets[0].ID)
	if err != nil || !set.Breaks[0].WingMade(set.Setup) || set.Breaks[0].Cue.Place.X <= 0 || set.Breaks[0].Pocketed[0].Pocket != table.FootRight {
		t.Errorf("kept: %+v, %v", set.Breaks, err)
	}
	if !set.Breaks[0].At.Equal(set.Started) {
		t.Errorf("the first break at %s, the set begun at %s", set.Breaks[0].At, set.Started)
	}
}

func TestType_RefusesBesideTheLineAndLosesNothing(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	form := coach.Get(t, typePath(s, 0)).FormValues(t, "form.typing")
	for name, c := range map[string]struct {
		form  url.Values
		where string
		says  string
	}{
		"no shorthand":      {lines(form, "1 c5", "what?"), "#says-2", "begin with the wing ball"},
		"cannot be":         {lines(form, "1 c5", "1 c5", "s 2hr 2sl d4"), "#says-3", "The 2 is there twice"},
		"markup":            {lines(form, "<script>alert(1)</script>"), "#says-1", "<script>alert(1)<"},
		"a gap":             {lines(form, "1 c5", "", "s d4"), "#says-2", "Every break counts"},
		"nothing":           {form, "#says-1", "Nothing is typed yet"},
		"too few":           {lines(form, "1 c5", "s d4"), ".error", "2 of 10 breaks"},
		"no day":            {with(lines(form, ten...), "date", "yesterday"), "#date-error", "Write the day"},
		"a day to come":     {with(lines(form, ten...), "date", "2199-01-01"), "#date-error", "still to come"},
		"long ago":          {with(lines(form, ten...), "date", "1899-01-01"), "#date-error", "years ago"},
		"no time":           {with(lines(form, ten...), "time", "25:77"), "#time-error", "18:30"},
		"another page seen": {with(lines(form, ten...), "shown", "something else"), "#table-error", "look at it below"},
	} {
		p := coach.Post(t, typePath(s, 0), c.form).RequireStatus(t, http.StatusUnprocessableEntity)
		p.RequireText(t, c.where, c.says).RequireCount(t, "#main script", 0)
		back := p.FormValues(t, "form.typing")
		for _, n := range []string{"line_1", "line_2", "line_3", "line_10", "id"} {
			if back.Get(n) != c.form.Get(n) {
				t.Errorf("%s: %s comes back as %q, was %q", name, n, back.Get(n), c.form.Get(n))
			}
		}
	}
	if sets, _ := s.Store.ListSets(t.Context(), s.Coach, s.Students[0].ID); len(sets) != 0 {
		t.Errorf("something was kept: %+v", sets)
	}
}

func TestType_ShowsAnotherTableAndKeepsTheLines(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	small, err := s.Store.SaveTable(t.Context(), s.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	coach := s.SignInCoach(t)
	form := with(lines(coach.Get(t, typePath(s, 0)).FormValues(t, "form.typing"), "1 c5"), "table", small.ID.String())
	refused := coach.Post(t, typePath(s, 0), with(form, "early", "1")).RequireStatus(t, http.StatusUnprocessableEntity)
	refused.RequireText(t, ".typing-help", "about 1½ diamonds (14 in) left of the middle")
	shown := coach.Post(t, typePath(s, 0), with(form, "do", "look")).RequireStatus(t, http.StatusOK)
	if shown.AttributeOf(t, "#line_1", "value") != "1 c5" {
		t.Error("the line is lost")
	}
	saved := coach.Post(t, typePath(s, 0), with(shown.FormValues(t, "form.typing"), "early", "1")).RequireStatus(t, http.StatusOK)
	saved.RequireText(t, ".trail", "Bar box")
}

func TestType_ChecksALineForAScript(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	form := lines(coach.Get(t, typePath(s, 0)).FormValues(t, "form.typing"), "1 c5", "1 c55")
	part := map[string]string{"HX-Request": "true", "Sec-Fetch-Site": "same-origin"}
	good := coach.SendWithHeaders(t, http.MethodPost, typePath(s, 0), with(form, "check", "1"), part).RequireStatus(t, http.StatusOK)
	good.RequireText(t, "#says-1", "The 8 in its corner").RequireCount(t, "form", 0)
	bad := coach.SendWithHeaders(t, http.MethodPost, typePath(s, 0), with(form, "check", "2"), part).RequireStatus(t, http.StatusOK)
	bad.RequireText(t, "#says-2.error", "from a1")
}

func TestType_WhenThereIsNothingToTypeFor(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	if err := s.Store.EndAssignment(t.Context(), s.Coach, s.Assignment); err != nil {
		t.Fatal(err)
	}
	p := coach.Get(t, typePath(s, 0)).RequireStatus(t, http.StatusOK)
	p.RequireText(t, ".answer", "no open assignment").RequireCount(t, "form.typing", 0)
	coach.Post(t, typePath(s, 0), lines(url.Values{}, ten...)).RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "no open assignment")
}

// Which setup the sheet had is a question only after a decision.
func TestType_ASheetPrintedBeforeTheDecision(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	ctx := t.Context()
	s.CloseSet(t, s.StudentActor(0), s.RecordBreaks(t, s.StudentActor(0), 10), -15)
	waiting, err := s.Store.ListPendingPrescriptions(ctx, s.Coach)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Store.DecidePrescription(ctx, s.Coach, waiting[0].ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	coach := s.SignInCoach(t)
	p := coach.Get(t, typePath(s, 0)).RequireStatus(t, http.StatusOK)
	p.RequireCount(t, "[name=setup][type=radio]", 2).RequireText(t, ".typing-help", "(15 in) left of the middle")
	form := with(lines(p.FormValues(t, "form.typing"), ten...), "setup", "own")
	coach.Post(t, typePath(s, 0), form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, ".typing-help", "(18 in) left of the middle")
	again := coach.Post(t, typePath(s, 0), with(form, "do", "look"))
	coach.Post(t, typePath(s, 0), again.FormValues(t, "form.typing")).RequireStatus(t, http.StatusOK).RequireText(t, ".notice", "typed in")
	sets, _ := s.Store.ListSets(ctx, s.Coach, s.Students[0].ID)
	newest := slices.MaxFunc(sets, func(a, b store.ListedSet) int { return a.Closed.Compare(b.Closed) })
	if set, err := s.Store.GetSet(ctx, s.Coach, newest.ID); err != nil || set.Setup.Cue.X != -18 {
		t.Errorf("typed under %+v, %v", set.Setup, err)
	}
}

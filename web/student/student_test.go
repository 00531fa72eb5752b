package student_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// plainRecorder is a student at the table, with plain forms.
type plainRecorder struct {
	site    *webtest.Site
	student *webtest.Client
	set     string // its path
}

// startRecording signs the scene's student in and starts a set of the drill.
func startRecording(t *testing.T, which int) plainRecorder {
	site := webtest.New(t)
	l := plainRecorder{site: site, student: site.SignInStudent(t, site.Students[which])}
	l.start(t)
	return l
}

func (l *plainRecorder) start(t *testing.T) {
	drill := l.drillPage(t)
	next := l.student.Post(t, "/today/"+l.site.Assignment.String(), drill.FormValues(t, "form.actions")).RequireStatus(t, http.StatusOK)
	l.set = strings.TrimSuffix(next.Path, "/next")
}

func (l *plainRecorder) drillPage(t *testing.T) *webtest.Page {
	return l.student.Get(t, "/today/"+l.site.Assignment.String()).RequireStatus(t, http.StatusOK)
}

// save sends the form of a break and, where the break is read back, sends what was
// read.
func (l *plainRecorder) save(t *testing.T, path string, form url.Values) *webtest.Page {
	t.Helper()
	p := l.student.Post(t, path, form)
	if len(p.FindAll(t, "#read-back")) == 0 {
		return p
	}
	return l.student.Post(t, path, p.FormValues(t, "form.break"))
}

// breakForm is the form of the next break, filled with a common one: the wing
// ball in its corner, the cue ball in the window.
func (l *plainRecorder) breakForm(t *testing.T) url.Values {
	form := l.student.Get(t, l.set+"/next").RequireStatus(t, http.StatusOK).FormValues(t, "form.break")
	form.Set("wing", "made")
	form.Set("cue", "stopped")
	form.Set("cue_x", "-3.5")
	form.Set("cue_y", "41")
	return form
}

func (l *plainRecorder) record(t *testing.T, change func(i int, form url.Values), n int) {
	t.Helper()
	for i := range n {
		form := l.breakForm(t)
		if change != nil {
			change(i, form)
		}
		l.save(t, l.set+"/next", form).RequireStatus(t, http.StatusOK)
	}
}

// stored returns the set as the coach would find it.
func (l *plainRecorder) stored(t *testing.T) store.Set {
	t.Helper()
	id, err := store.ParseID[store.SetID](strings.TrimPrefix(l.set, "/my/sets/"))
	if err != nil {
		t.Fatal(err)
	}
	set, err := l.site.Store.GetSet(t.Context(), l.site.Coach, id)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func TestToday_SaysWhatWaits(t *testing.T) {
	site := webtest.New(t)
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, "/today").RequireText(t, ".answer", "One drill is waiting").RequireCount(t, ".rows > li", 1)
	if err := site.Store.EndAssignment(t.Context(), site.Coach, site.Assignment); err != nil {
		t.Fatal(err)
	}
	student.Get(t, "/today").RequireText(t, ".answer", "Nothing is assigned").RequireCount(t, ".rows > li", 0)
}

// What a student has done is said alike on Today, on the drill's page and on their coach's
// page of them.
func TestTask_DoneIsSaidEverywhere(t *testing.T) {
	site := webtest.New(t)
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 3), -20)
	_, err := site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: site.Drill.ID, Class: site.Class, Due: time.Date(2020, 5, 4, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	student, coach := site.SignInStudent(t, site.Students[0]), site.SignInCoach(t)
	status := []string{"done today", "not done yet, was due on Monday 4 May"}
	student.Get(t, "/today").RequireText(t, ".rows", status...).RequireCount(t, ".tag.warn", 1)
	student.Get(t, "/today/"+site.Assignment.String()).RequireText(t, "#done", "Done today.")
	coach.Get(t, "/students/"+site.Students[0].ID.String()).RequireText(t, ".next-step .rows", status...)
}

// The drill is written for the left; a student who breaks from the right sees
// its mirror image.
func TestDrill_IsTheRightWayRound(t *testing.T) {
	for which, want := range map[int][]string{
		0: {"Break from the left", "about 1½ diamonds (18 in) left of the middle", "to the left foot corner"},
		2: {"Break from the right", "about 1½ diamonds (18 in) right of the middle", "to the right foot corner"},
	} {
		l := startRecording(t, which)
		l.drillPage(t).RequireText(t, "dl.facts", want...).RequireText(t, "main", "Good is the wing ball, the 8, in "+strings.TrimPrefix(want[2], "to ")).RequireText(t, ".notice.care", "stop at pain", "Nobody at the foot end").RequireCount(t, "svg[role=img]", 4)
	}
}

func TestRecord_TenBreaksThenWhatTheySay(t *testing.T) {
	l := startRecording(t, 0)
	l.student.Get(t, l.set).RequireText(t, "h1", "Break 1 of 10")
	l.record(t, func(i int, form url.Values) {
		if i%2 == 1 {
			form.Set("wing", "stayed")
			form.Set("wing_miss", "side-rail")
		}
	}, 10)
	full := l.student.Get(t, l.set).RequireText(t, "h1", "All 10 breaks are recorded").RequireCount(t, "ol.breaks > li", 10)
	full.RequireText(t, "ol.breaks", "The 8 stayed up, side rail first; the cue ball between the head string and the centre, middle")
	closed := l.student.Post(t, l.set+"/close", url.Values{}).RequireStatus(t, http.StatusOK)
	closed.RequireText(t, "h1", "What your 10 breaks say").RequireText(t, ".rates", "5 of 10", "10 of 10")
	if closed.TextOf(t, ".prescription") == "" {
		t.Error("nothing is proposed or said")
	}
	set := l.stored(t)
	if set.Closed.IsZero() || set.Advice == nil || len(set.Breaks) != 10 {
		t.Errorf("stored: closed %v, advice %v, %d breaks", set.Closed, set.Advice != nil, len(set.Breaks))
	}
	again := l.student.Post(t, l.set+"/close", url.Values{}).RequireStatus(t, http.StatusOK)
	if again.TextOf(t, ".prescription") != closed.TextOf(t, ".prescription") {
		t.Error("closing twice says something else")
	}
}

func TestRecord_RefusesBesideTheFieldAndLosesNothing(t *testing.T) {
	l := startRecording(t, 0)
	for name, c := range map[string]struct{ field, value, says string }{
		"a cue ball off the cloth": {"cue_x", "80", "off the cloth"},
		"nothing about the wing":   {"wing", "", "Say whether the wing ball"},
		"rails of another game":    {"rails", "14", "from 0 to 9"},
		"a place in words":         {"cue_y", "<script>alert(1)</script>", "as a number"},
		"not a number at all":      {"cue_x", "NaN", "as a number"},
	} {
		form := l.breakForm(t)
		form.Set("note", "zu fest 🎱 & <b>laut</b>")
		form.Set(c.field, c.value)
		got := l.student.Post(t, l.set+"/next", form).RequireStatus(t, http.StatusUnprocessableEntity)
		if !strings.Contains(got.TextOf(t, ".notice.wrong"), c.says) {
			t.Errorf("%s: the page says %q", name, got.TextOf(t, ".notice.wrong"))
		}
		if note := got.TextOf(t, "#note"); note != "zu fest 🎱 & <b>laut</b>" {
			t.Errorf("%s: the note came back as %q", name, note)
		}
		got.RequireCount(t, "main script", 0)
	}
	if n := len(l.stored(t).Breaks); n != 0 {
		t.Errorf("%d breaks were stored of refused forms", n)
	}
}

// The cue ball and the wing ball cannot both be somewhere twice.
func TestRecord_ABallPocketedTwice(t *testing.T) {
	l := startRecording(t, 0)
	form := l.breakForm(t)
	form["ball_2"] = []string{"side-left"}
	form.Set("rest_2", "3,40")
	l.student.Post(t, l.set+"/next", form).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, ".notice.wrong", "The 2 cannot be pocketed and at rest on the cloth")
}

func TestRecord_DoubleClicksAndAnEleventhBreak(t *testing.T) {
	l := startRecording(t, 0)
	form := l.student.Post(t, l.set+"/next", l.breakForm(t)).FormValues(t, "form.break")
	var clicks sync.WaitGroup
	for range 6 {
		clicks.Go(func() {
			if got := l.student.Post(t, l.set+"/next", form); got.Code != http.StatusOK {
				t.Errorf("a double click answers %d: %s", got.Code, got.TextOf(t, "main"))
			}
		})
	}
	clicks.Wait()
	if n := len(l.stored(t).Breaks); n != 1 {
		t.Fatalf("six clicks made %d breaks", n)
	}
	l.record(t, nil, 9)
	form.Set("break_id", store.NewID[store.BreakID]().String())
	form.Set("number", "11")
	l.student.Post(t, l.set+"/next", form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, ".notice.wrong", "10 breaks", "another set")
	form.Set("number", "4")
	l.student.Post(t, l.set+"/next", form).RequireStatus(t, http.StatusConflict).RequireText(t, ".notice.wrong", "Break 4 was recorded")
	if n := len(l.stored(t).Breaks); n != 10 {
		t.Errorf("the set has %d breaks", n)
	}
}

func TestRecord_ATapWithoutAScript(t *testing.T) {
	l := startRecording(t, 0)
	page := l.student.Get(t, l.set+"/next")
	width, height := page.AttributeOf(t, "input[type=image]", "width"), page.AttributeOf(t, "input[type=image]", "height")
	w, err := strconv.Atoi(width)
	if err != nil {
		t.Fatal(err)
	}
	h, err := strconv.Atoi(height)
	if err != nil {
		t.Fatal(err)
	}
	form := page.FormValues(t, "form.break")
	form.Set("wing", "made")
	form.Set("tap.x", fmt.Sprint(w/2))
	form.Set("tap.y", fmt.Sprint(h/2))
	tapped := l.student.Post(t, l.set+"/next", form).RequireStatus(t, http.StatusOK)
	filled := tapped.FormValues(t, "form.break")
	if filled.Get("cue") != "stopped" || filled.Get("wing") != "made" {
		t.Errorf("after the tap the form holds %v", filled)
	}
	x, errX := strconv.ParseFloat(filled.Get("cue_x"), 64)
	y, errY := strconv.ParseFloat(filled.Get("cue_y"), 64)
	if errX != nil || errY != nil || x < -1 || x > 1 || y < 49 || y > 51 {
		t.Errorf("a tap on the centre of a 9-foot table marks %v,%v", filled.Get("cue_x"), filled.Get("cue_y"))
	}
	if svg := l.student.Get(t, tapped.AttributeOf(t, "input[type=image]", "src")).RequireStatus(t, http.StatusOK); svg.Header.Get("Content-Type") != "image/svg+xml" {
		t.Errorf("the picture is %s", svg.Header.Get("Content-Type"))
	}
	// Before it is saved one line says all of it, what is folded away too.
	filled.Set("rails", "4")
	filled.Set("note", "a loose\r\nrack")
	back := l.student.Post(t, l.set+"/next", filled).RequireStatus(t, http.StatusOK)
	back.RequireText(t, "#read-back", "in its corner", "4 to a rail", "“a loose").RequireText(t, ".save button", "Save break 1")
	filled = back.FormValues(t, "form.break")
	filled.Set("rails", "5")
	back = l.student.Post(t, l.set+"/next", filled).RequireText(t, "#read-back", "5 to a rail") // what changed is read again
	if n := len(l.stored(t).Breaks); n != 0 {
		t.Errorf("reading back stored %d breaks", n)
	}
	filled = back.FormValues(t, "form.break")
	l.student.Post(t, l.set+"/next", filled).RequireStatus(t, http.StatusOK)
	if n := len(l.stored(t).Breaks); n != 1 {
		t.Errorf("%d breaks are stored", n)
	}
}

func TestRecord_ChangeUndoAndTakeOut(t *testing.T) {
	l := startRecording(t, 0)
	l.record(t, nil, 3)
	set := l.stored(t)
	second := l.set + "/breaks/" + set.Breaks[1].ID.String()
	form := l.student.Get(t, second).RequireText(t, "h1", "Change break 2").FormValues(t, "form.break")
	form.Set("cue", "scratch")
	form.Set("cue_pocket", "side-right")
	l.save(t, second, form).RequireStatus(t, http.StatusOK)
	if b := l.stored(t).Breaks[1]; b.Cue.Scratch != "side-right" || b.Revision != 2 {
		t.Errorf("the changed break: %+v", b)
	}
	undo := l.student.Get(t, l.set+"/next").FormValues(t, `form[action$="/undo"]`)
	l.student.Post(t, l.set+"/undo", undo).RequireText(t, "[role=status]", "Break 3 is undone").RequireText(t, "h1", "Break 3 of 10")
	l.student.Post(t, l.set+"/undo", undo).RequireStatus(t, http.StatusOK)
	l.student.Post(t, second+"/delete", url.Values{"reason": {""}}).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#reason-error", "Every break counts")
	long := url.Values{"reason": {strings.Repeat("rack!", 50)}}
	l.student.Post(t, second+"/delete", long).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#reason-error", "250 letters; 120 is the most").RequireCount(t, `#reason[value*="rack!rack"]`, 1)
	l.student.Post(t, second+"/delete", url.Values{"reason": {"the rack fell apart"}}).RequireStatus(t, http.StatusOK)
	if breaks := l.stored(t).Breaks; len(breaks) != 1 || breaks[0].Number != 1 {
		t.Errorf("left are %+v", breaks)
	}
}

func TestSet_ClosedStaysAsItIs(t *testing.T) {
	l := startRecording(t, 0)
	l.record(t, nil, 2)
	form := l.breakForm(t)
	first := l.set + "/breaks/" + l.stored(t).Breaks[0].ID.String()
	edit := l.student.Get(t, first).FormValues(t, "form.break")
	l.student.Post(t, l.set+"/close", url.Values{}).RequireText(t, "[role=status]", "not full yet")
	l.student.Post(t, l.set+"/close", url.Values{"early": {"yes"}}).RequireText(t, "h1", "What your 2 breaks say")
	l.student.Post(t, l.set+"/next", form).RequireStatus(t, http.StatusConflict).RequireText(t, "h1", "This set is closed")
	edit.Set("cue", "off-table")
	l.student.Post(t, first, edit).RequireStatus(t, http.StatusConflict)
	l.student.Post(t, first+"/delete", url.Values{"reason": {"late"}}).RequireStatus(t, http.StatusConflict)
	if set := l.stored(t); len(set.Breaks) != 2 || set.Breaks[0].Revision != 1 {
		t.Errorf("the closed set changed: %+v", set.Breaks)
	}
}

func TestSet_AQuestionReachesTheCoach(t *testing.T) {
	l := startRecording(t, 0)
	l.record(t, nil, 10)
	closed := l.student.Post(t, l.set+"/close", url.Values{})
	form := closed.FormValues(t, "section form")
	form.Set("body", "  ")
	l.student.Post(t, l.set+"/messages", form).RequireStatus(t, http.StatusUnprocessableEntity)
	form.Set("body", "Why the same again?\nI am bored <b>")
	l.student.Post(t, l.set+"/messages", form)
	sent := l.student.Post(t, l.set+"/messages", form).RequireStatus(t, http.StatusOK)
	sent.RequireCount(t, ".talk > li", 1).RequireText(t, ".talk", "I am bored <b>")
	coach := l.site.SignInCoach(t)
	id := strings.TrimPrefix(l.set, "/my/sets/")
	coach.Get(t, "/desk").RequireText(t, ".answer", "One student needs you").RequireText(t, "main", "Why the same again?")
	answer := coach.Get(t, "/sets/"+id).FormValues(t, "section form[action$=messages]")
	answer.Set("body", "Ten breaks are few.")
	coach.Post(t, "/sets/"+id+"/messages", answer).RequireText(t, ".talk", "Ten breaks are few.")
	l.student.Get(t, "/today").RequireText(t, ".notice", "Your coach has answered you")
	l.student.Get(t, "/my/sets").RequireText(t, ".tags", "your coach answered")
	l.student.Get(t, l.set).RequireText(t, ".talk", "Ten breaks are few.")
	l.student.Get(t, "/my/sets").RequireCount(t, ".tags .tag", 0)
}

// The first line never says fewer drills than the list under it shows.
func TestToday_CountsTheDrillsThatItLists(t *testing.T) {
	site := webtest.New(t)
	set := site.RecordBreaks(t, site.StudentActor(0), 3)
	site.CloseSet(t, site.StudentActor(0), set, -20)
	if _, err := site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: site.Drill.ID, Class: site.Class}); err != nil {
		t.Fatal(err)
	}
	site.SignInStudent(t, site.Students[0]).Get(t, "/today").
		RequireText(t, ".answer", "One of 2 drills is still to do").RequireCount(t, ".rows > li", 2)
}

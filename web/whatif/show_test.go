package whatif_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// scene is a question that is computed in a moment.
const scene = "/what-if?number=60"

// The page's counts are of as many breaks as asked, each with its range; the
// same address gives the same page to the last byte.
func TestAsk_SameAddressSameBytes(t *testing.T) {
	coach := webtest.New(t).SignInCoach(t)
	one := coach.Get(t, scene).RequireStatus(t, http.StatusOK)
	one.RequireText(t, "#answer", "In the model the wing ball drops in its corner in", "of 60", "not this table")
	one.RequireText(t, ".groups caption", "The wing ball, the 8", "The cue ball", "The low balls", "The break as a whole")
	one.RequireText(t, ".groups", "of 60", "%").RequireCount(t, ".pic-crowd", 5)
	if got := len(one.FindAll(t, "#model tbody tr")); got < 20 {
		t.Errorf("%d constants of the model are listed", got)
	}
	if again := coach.Get(t, scene); again.Text != one.Text {
		t.Error("the same address gave another page")
	}
}

func TestAsk_MirroredIsMirrored(t *testing.T) {
	coach := webtest.New(t).SignInCoach(t)
	left, right := coach.Get(t, scene+"&side=left"), coach.Get(t, scene+"&side=right")
	mirror := strings.NewReplacer("left", "right", "right", "left")
	if l, r := left.TextOf(t, ".groups tbody"), right.TextOf(t, ".groups tbody"); rows(mirror.Replace(l)) != rows(r) {
		t.Errorf("from the left\n%s\nfrom the right\n%s", l, r)
	}
}

// rows makes the order of pockets not matter.
func rows(words string) string {
	counted := map[string]int{}
	for word := range strings.FieldsSeq(words) {
		counted[word]++
	}
	var b strings.Builder
	for _, word := range []string{"left", "right"} {
		b.WriteString(word + ":" + strings.Repeat("|", counted[word]) + " ")
	}
	parts := strings.Split(words, "Scratched in")
	b.WriteString(parts[0])
	return b.String()
}

func TestAsk_RefusesBesideTheField(t *testing.T) {
	coach := webtest.New(t).SignInCoach(t)
	bad := coach.Get(t, scene+"&tip=2&rack="+url.QueryEscape("<script>alert(1)</script>"+strings.Repeat("🎱", 200))).RequireStatus(t, http.StatusUnprocessableEntity)
	bad.RequireText(t, "#tip-error", "miscue").RequireText(t, "#answer", "Not computed").RequireCount(t, "main script", 0).RequireCount(t, ".pic-crowd", 0)
	if bad.AttributeOf(t, "#tip", "value") != "2" || bad.AttributeOf(t, "#tip", "aria-invalid") != "true" {
		t.Error("what was typed is gone")
	}
	for _, odd := range []string{"&was=%25zz", "&was=tip%3D9", "&show=999999", "&show=x", "&window=1,2", "&do=fly", "&hands=x"} {
		coach.Get(t, scene+odd).RequireStatus(t, http.StatusOK)
	}
}

// With buttons alone: a setting is held, another compared with it, and the first
// one taken back.
func TestAsk_HoldCompareAndGoBack(t *testing.T) {
	coach := webtest.New(t).SignInCoach(t)
	page := coach.Get(t, scene)
	press := func(page *webtest.Page, pairs ...string) *webtest.Page {
		f := page.FormValues(t, "#setting")
		for i := 0; i < len(pairs); i += 2 {
			f.Set(pairs[i], pairs[i+1])
		}
		return coach.Get(t, "/what-if?"+f.Encode()).RequireStatus(t, http.StatusOK)
	}
	page = press(page, "do", "hold")
	page.RequireText(t, "#chances + p", "the same").RequireCount(t, ".pic-pair", 3)
	page = press(page, "cue_x", "10")
	page.RequireText(t, ".changes", "(18 in) left of the middle", "(10 in) left of the middle").RequireText(t, ".groups thead", "Before", "Now", "Change").RequireCount(t, ".pic-crowd", 10)
	page.RequireText(t, "#answer", "less often")
	page = press(page, "side", "right")
	if got := page.FormValues(t, "#setting").Get("rack"); got == "1-3-2-8-9-5-6-4-7" || page.FormValues(t, "#setting").Get("wing") != "3R" {
		t.Errorf("from the right the rack is %s", got)
	}
	page = press(page, "do", "back")
	if got := page.FormValues(t, "#setting"); got.Get("cue_x") != "18" || got.Get("side") != "left" {
		t.Errorf("back at %v", got)
	}
	page = press(page, "do", "forget")
	page.RequireCount(t, ".pic-pair", 0)
	if page := press(page, "do", "shuffle"); page.FormValues(t, "#setting").Get("rack") == "1-3-2-8-9-5-6-4-7" {
		t.Error("the rack was not shuffled")
	}
}

// A long question says how far it is, and can be stopped.
func TestAsk_LongRunsStop(t *testing.T) {
	coach := webtest.New(t).SignInCoach(t)
	page := coach.Get(t, "/what-if?number=5000").RequireStatus(t, http.StatusOK)
	page.RequireText(t, ".going", "of 5000 racks so far").RequireText(t, "#answer", "Being computed")
	stopped := coach.Post(t, page.AttributeOf(t, ".going form", "action"), page.FormValues(t, ".going form"))
	stopped.RequireStatus(t, http.StatusOK).RequireText(t, ".notice", "Stopped").RequireCount(t, ".going", 0).RequireCount(t, ".pic-crowd", 0)
	if stopped.FormValues(t, "#setting").Get("number") != "5000" {
		t.Error("the setting is gone")
	}
}

func TestAsk_BeginsWithADrillASetAndAPrescription(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	student := site.StudentActor(0)
	set := site.RecordBreaks(t, student, 10)
	site.CloseSet(t, student, set, -16)
	pending, err := site.Store.ListPendingPrescriptions(t.Context(), site.Coach)
	if err != nil || len(pending) != 1 {
		t.Fatalf("%d prescriptions wait: %v", len(pending), err)
	}
	for name, address := range map[string]string{
		"drill": site.Drill.ID.String(), "set": set.String(),
	} {
		page := coach.Get(t, "/what-if?"+name+"="+address).RequireStatus(t, http.StatusOK)
		if got := page.FormValues(t, "#setting"); got.Get("cue_x") != "18" || got.Get("rack") != "1-3-2-8-9-5-6-4-7" {
			t.Errorf("%s: %v", name, got)
		}
	}
	page := coach.Get(t, "/what-if?prescription="+pending[0].ID.String()).RequireStatus(t, http.StatusOK)
	page.RequireText(t, ".changes", "(18 in) left of the middle", "(16 in) left of the middle").RequireCount(t, ".pic-pair", 3)

	// Another club's are not there.
	other := webtest.NewOverScene(t, storetest.AddScene(t, site.Store)).SignInCoach(t)
	for _, address := range []string{"drill=" + site.Drill.ID.String(), "set=" + set.String(), "prescription=" + pending[0].ID.String(),
		"drill=x", "set=" + store.NewID[store.SetID]().String()} {
		other.Get(t, "/what-if?"+address).RequireStatus(t, http.StatusNotFound)
	}
}

// A drill's break box is drawn, carried along, and left by no question.
func TestAsk_KeepsInTheBreakBox(t *testing.T) {
	site := webtest.New(t)
	coach := site.SignInCoach(t)
	boxed := storetest.StandardDrill()
	boxed.House.BreakBox = 20
	saved, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, boxed)
	if err != nil {
		t.Fatal(err)
	}
	page := coach.Get(t, "/what-if?drill="+saved.ID.String()).RequireStatus(t, http.StatusOK)
	page.RequireCount(t, ".drawn-frame .pic-box", 1).RequireText(t, "#cue_x-hint", "up to 20, the edge of the break box.")
	form := page.FormValues(t, "#setting")
	form.Set("cue_x", "20.5")
	bad := coach.Get(t, "/what-if?"+form.Encode()).RequireStatus(t, http.StatusUnprocessableEntity)
	bad.RequireText(t, "#cue_x-error", "break box reaches 20 inches")
	if got := bad.FormValues(t, "#setting"); got.Get("cue_x") != "20.5" || got.Get("box") != "20" {
		t.Errorf("the form holds %v", got)
	}
}

// The first sight computes three hundred breaks, for every game and table.
func TestAsk_EveryGameAndTable(t *testing.T) {
	coach := webtest.New(t).SignInCoach(t)
	coach.Get(t, "/what-if").RequireStatus(t, http.StatusOK).RequireText(t, "#answer", "of 300")
	for _, with := range []string{"game=eight-ball", "game=ten-ball&side=right", "feet=7", "feet=8&corner_in=5", "spot=centre", "wing=3R"} {
		page := coach.Get(t, "/what-if?number=20&"+with).RequireStatus(t, http.StatusOK)
		if page.RequireCount(t, "#play .pic-stills li svg[role=img]", len(page.FindAll(t, "#play .pic-stills li"))).TextOf(t, "#play p") == "" {
			t.Errorf("%s: no break is shown", with)
		}
	}
}

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

// The page's counts are of as many breaks as asked, each with its range; the
// same address gives the same page to the last byte.
func TestAsk_SameAddressSameBytes(t *testing.T) {
	coach := webtest.New(t).CoachIn(t)
	one := coach.Get(t, scene).Status(t, http.StatusOK)
	one.Has(t, "#answer", "In the model the wing ball drops in its corner in", "of 60", "not this table")
	one.Has(t, ".groups caption", "The wing ball, the 8", "The cue ball", "The low balls", "The break as a whole")
	one.Has(t, ".groups", "of 60", "%").Count(t, ".pic-crowd", 5)
	if got := len(one.All(t, "#model tbody tr")); got < 20 {
		t.Errorf("%d constants of the model are listed", got)
	}
	if again := coach.Get(t, scene); again.Text != one.Text {
		t.Error("the same address gave another page")
	}
}

func TestAsk_MirroredIsMirrored(t *testing.T) {
	coach := webtest.New(t).CoachIn(t)
	left, right := coach.Get(t, scene+"&side=left"), coach.Get(t, scene+"&side=right")
	mirror := strings.NewReplacer("left", "right", "right", "left")
	if l, r := left.Words(t, ".groups tbody"), right.Words(t, ".groups tbody"); rows(mirror.Replace(l)) != rows(r) {
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
	coach := webtest.New(t).CoachIn(t)
	bad := coach.Get(t, scene+"&tip=2&rack="+url.QueryEscape("<script>alert(1)</script>"+strings.Repeat("🎱", 200))).Status(t, http.StatusUnprocessableEntity)
	bad.Has(t, "#tip-error", "miscue").Has(t, "#answer", "Not computed").Count(t, "main script", 0).Count(t, ".pic-crowd", 0)
	if bad.Attr(t, "#tip", "value") != "2" || bad.Attr(t, "#tip", "aria-invalid") != "true" {
		t.Error("what was typed is gone")
	}
	for _, odd := range []string{"&was=%25zz", "&was=tip%3D9", "&show=999999", "&show=x", "&window=1,2", "&do=fly", "&hands=x"} {
		coach.Get(t, scene+odd).Status(t, http.StatusOK)
	}
}

// With buttons alone: a setting is held, another compared with it, and the first
// one taken back.
func TestAsk_HoldCompareAndGoBack(t *testing.T) {
	coach := webtest.New(t).CoachIn(t)
	page := coach.Get(t, scene)
	press := func(page *webtest.Page, pairs ...string) *webtest.Page {
		f := page.Form(t, "#setting")
		for i := 0; i < len(pairs); i += 2 {
			f.Set(pairs[i], pairs[i+1])
		}
		return coach.Get(t, "/what-if?"+f.Encode()).Status(t, http.StatusOK)
	}
	page = press(page, "do", "hold")
	page.Has(t, "#chances + p", "the same").Count(t, ".pic-pair", 3)
	page = press(page, "cue_x", "10")
	page.Has(t, ".changes", "18 inches left", "10 inches left").Has(t, ".groups thead", "Before", "Now", "Change").Count(t, ".pic-crowd", 10)
	page.Has(t, "#answer", "less often")
	page = press(page, "side", "right")
	if got := page.Form(t, "#setting").Get("rack"); got == "1-3-2-8-9-5-6-4-7" || page.Form(t, "#setting").Get("wing") != "3R" {
		t.Errorf("from the right the rack is %s", got)
	}
	page = press(page, "do", "back")
	if got := page.Form(t, "#setting"); got.Get("cue_x") != "18" || got.Get("side") != "left" {
		t.Errorf("back at %v", got)
	}
	page = press(page, "do", "forget")
	page.Count(t, ".pic-pair", 0)
	if page := press(page, "do", "shuffle"); page.Form(t, "#setting").Get("rack") == "1-3-2-8-9-5-6-4-7" {
		t.Error("the rack was not shuffled")
	}
}

// A long question says how far it is, and can be stopped.
func TestAsk_LongRunsStop(t *testing.T) {
	coach := webtest.New(t).CoachIn(t)
	page := coach.Get(t, "/what-if?number=5000").Status(t, http.StatusOK)
	page.Has(t, ".going", "of 5000 racks so far").Has(t, "#answer", "Being computed")
	stopped := coach.Post(t, page.Attr(t, ".going form", "action"), page.Form(t, ".going form"))
	stopped.Status(t, http.StatusOK).Has(t, ".notice", "Stopped").Count(t, ".going", 0).Count(t, ".pic-crowd", 0)
	if stopped.Form(t, "#setting").Get("number") != "5000" {
		t.Error("the setting is gone")
	}
}

func TestAsk_BeginsWithADrillASetAndAPrescription(t *testing.T) {
	site := webtest.New(t)
	coach := site.CoachIn(t)
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
		page := coach.Get(t, "/what-if?"+name+"="+address).Status(t, http.StatusOK)
		if got := page.Form(t, "#setting"); got.Get("cue_x") != "18" || got.Get("rack") != "1-3-2-8-9-5-6-4-7" {
			t.Errorf("%s: %v", name, got)
		}
	}
	page := coach.Get(t, "/what-if?prescription="+pending[0].ID.String()).Status(t, http.StatusOK)
	page.Has(t, ".changes", "18 inches left", "16 inches left").Count(t, ".pic-pair", 3)

	// Another club's are not there.
	other := webtest.Over(t, storetest.AddScene(t, site.Store)).CoachIn(t)
	for _, address := range []string{"drill=" + site.Drill.ID.String(), "set=" + set.String(), "prescription=" + pending[0].ID.String(),
		"drill=x", "set=" + store.NewID[store.SetID]().String()} {
		other.Get(t, "/what-if?"+address).Status(t, http.StatusNotFound)
	}
}

// The first sight computes three hundred breaks, for every game and table.
func TestAsk_EveryGameAndTable(t *testing.T) {
	coach := webtest.New(t).CoachIn(t)
	coach.Get(t, "/what-if").Status(t, http.StatusOK).Has(t, "#answer", "of 300")
	for _, with := range []string{"game=eight-ball", "game=ten-ball&side=right", "feet=7", "feet=8&corner_in=5", "spot=centre", "wing=3R"} {
		page := coach.Get(t, "/what-if?number=20&"+with).Status(t, http.StatusOK)
		if page.Count(t, "#play .pic-stills li svg[role=img]", len(page.All(t, "#play .pic-stills li"))).Words(t, "#play p") == "" {
			t.Errorf("%s: no break is shown", with)
		}
	}
}

package drills_test

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestDrills_EmptyClubIsOfferedTheFirst(t *testing.T) {
	s := storetest.New(t)
	coach, _ := storetest.NewClub(t, s)
	d := newCoachClient(t, storetest.Scene{Store: s, Coach: coach})
	p := d.get(t, "/drills").RequireStatus(t, http.StatusOK)
	p.RequireText(t, "main", "Your drills will be here", "Write the first drill")
	p.RequireCount(t, `a.button[href="/drills/new"]`, 1)
	d.get(t, "/assignments").RequireText(t, "main", "No assignment is open")
}

func TestDrills_ListsEachWithItsPicture(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	p := d.get(t, "/drills").RequireStatus(t, http.StatusOK)
	p.RequireText(t, ".answer", "1 drill", "1 assignment is open")
	p.RequireText(t, ".drills li", "Find the wing ball", "Nine-ball from the left", "5 of 10", "students have it")
	p.RequireCount(t, ".drills li svg.pic-table", 1)
}

func TestNewDrill_IsMadeOnceHoweverOftenItIsSent(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	form := with(d.get(t, "/drills/new").RequireStatus(t, http.StatusOK).FormValues(t, "#editor"), "name", "Cut break 🎱")
	first := d.post(t, "/drills", form).RequireStatus(t, http.StatusOK)
	first.RequireText(t, "h1", "Cut break 🎱").RequireText(t, ".notice", "Nobody has it yet")
	if again := d.post(t, "/drills", form); again.Path != first.Path {
		t.Errorf("sent twice it led to %s and to %s", first.Path, again.Path)
	}
	// Called back, changed and sent again it is another drill.
	if other := d.post(t, "/drills", with(form, "name", "Another")); other.Path == first.Path {
		t.Error("a changed form took the place of the first drill")
	}
	if n := len(d.drills(t)); n != 3 {
		t.Errorf("there are %d drills, want 3", n)
	}
}

func TestNewDrill_RefusedComesBackWhole(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	form := with(d.get(t, "/drills/new").FormValues(t, "#editor"), "name", "<script>alert(1)</script>", "cue_x", "1e300",
		"rack", "1-2-3-4-5-6-7-8-9-10-11", "contact", "NaN", "watch", "kept")
	p := d.post(t, "/drills", form).RequireStatus(t, http.StatusUnprocessableEntity)
	p.RequireText(t, "#cue_x-error", "At most 22.75 inches").RequireText(t, "#rack-error", "9 balls, not 11").RequireText(t, "#contact-error", "0 is full")
	p.RequireText(t, "[role=alert]", "What you typed is still here")
	p.RequireCount(t, "#cue_x[aria-invalid]", 1).RequireCount(t, "main script", 0)
	back := p.FormValues(t, "#editor")
	for _, name := range []string{"name", "cue_x", "rack", "contact", "watch", "id"} {
		if back.Get(name) != form.Get(name) {
			t.Errorf("%s came back as %q, want %q", name, back.Get(name), form.Get(name))
		}
	}
	p = d.post(t, "/drills", url.Values{}).RequireStatus(t, http.StatusUnprocessableEntity)
	p.RequireText(t, "#name-error", "Give it a name").RequireCount(t, "svg.pic-table", 1)
	if n := len(d.drills(t)); n != 1 {
		t.Errorf("there are %d drills, want the one of the scene", n)
	}
}

func TestEditor_SwapsWithoutScript(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	p := d.get(t, "/drills/new")
	p.RequireCount(t, `.seat[aria-pressed="false"]`, 9)
	if got := p.AttributeOf(t, "#seat-2L", "aria-label"); got != "Slot 2L, the 3" {
		t.Errorf("the button of slot 2L is called %q", got)
	}
	p = d.post(t, "/drills/editor", with(p.FormValues(t, "#editor"), "pick", "2L", "name", "kept"))
	p.RequireStatus(t, http.StatusOK).RequireCount(t, `#seat-2L[aria-pressed="true"]`, 1).RequireText(t, ".board-say", "The 3 is in your hand")
	p = d.post(t, "/drills/editor", with(p.FormValues(t, "#editor"), "pick", "2R"))
	p.RequireText(t, ".board-say", "The 3 and the 2 have changed places")
	if f := p.FormValues(t, "#editor"); f.Get("rack") != "1-2-3-8-9-5-6-4-7" || f.Get("name") != "kept" || f.Get("picked") != "" {
		t.Errorf("the form holds %v", f)
	}
	p = d.post(t, "/drills/editor", with(p.FormValues(t, "#editor"), "action", "swap", "swap_from", "2L", "swap_to", "3C"))
	p.RequireText(t, ".board-say.error", "The 9 stays in slot 3C")
	// The rear corners of eight-ball hold one of each group.
	p = d.post(t, "/drills/editor", with(p.FormValues(t, "#editor"), "action", "update", "game", "eight-ball"))
	p.RequireText(t, "[role=status]", "practice order of eight-ball").RequireCount(t, ".seat", 15)
	p = d.post(t, "/drills/editor", with(p.FormValues(t, "#editor"), "action", "swap", "swap_from", "5L", "swap_to", "2L"))
	p.RequireText(t, ".board-say.error", "one solid and one stripe")
}

func TestEditor_AnswersHtmxWithThePartThatChanged(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	form := d.get(t, "/drills/new").FormValues(t, "#editor")
	p := d.part(t, "/drills/editor", with(form, "action", "update", "cue_x", "99"))
	p.RequireStatus(t, http.StatusOK).RequireCount(t, "input[type=text]", 0).RequireCount(t, `#drawn-table[hx-swap-oob] svg`, 1)
	if p.Header.Get("HX-Reswap") != "none" {
		t.Error("the pieces would take the place of the form")
	}
	p.RequireText(t, "#cue_x-error", "At most 22.75 inches").RequireText(t, "#look-words", "about 1¾ diamonds (22.8 in) left of the middle")
	if p.TextOf(t, "#name-error") != "" {
		t.Error("a new drill is asked for its name before it is saved")
	}
	d.part(t, "/drills/editor", with(form, "action", "update", "break_box", "8")).RequireText(t, "#cue_x-hint", "up to 8, the edge of the break box")
	p = d.part(t, "/drills/editor", with(form, "action", "update", "side", "right"))
	p.RequireCount(t, "#editor", 1).RequireText(t, "#look-answer", "from the right")
	if p.Header.Get("HX-Retarget") != "#plan" || p.FormValues(t, "#editor").Get("wing") != "3R" {
		t.Errorf("retarget %q, wing %q", p.Header.Get("HX-Retarget"), p.FormValues(t, "#editor").Get("wing"))
	}
}

func TestSave_WaitsUntilTheCoachHasSeenWhatFollowed(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	form := with(d.get(t, "/drills/new").FormValues(t, "#editor"), "name", "Ten", "game", "ten-ball")
	p := d.post(t, "/drills", form).RequireStatus(t, http.StatusUnprocessableEntity)
	p.RequireText(t, "[role=alert]", "Not saved yet", "practice order of ten-ball")
	p = d.post(t, "/drills", p.FormValues(t, "#editor")).RequireStatus(t, http.StatusOK)
	p.RequireText(t, "h1", "Ten").RequireCount(t, ".seat", 10)
}

func TestSave_AnAssignedDrillIsReplaced(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String()
	p := d.get(t, path).RequireText(t, ".notice", "assignments already given keep the old one")
	form := with(p.FormValues(t, "#editor"), "cue_x", "16")
	saved := d.post(t, path, form).RequireStatus(t, http.StatusOK)
	saved.RequireText(t, ".notice.good", "Saved as a new version: assignments already given keep the old one.")
	if saved.Path == path {
		t.Error("the assigned drill was changed in its place")
	}
	if again := d.post(t, path, form); again.Path != saved.Path {
		t.Errorf("a second click led to %s, the first to %s", again.Path, saved.Path)
	}
	d.get(t, path).RequireText(t, ".notice", "archived").RequireCount(t, `#editor .actions button:not([name])`, 0)
	d.post(t, saved.Path, with(d.get(t, saved.Path).FormValues(t, "#editor"), "cue_x", "15")).RequireText(t, ".notice.good", "Drill saved.")
}

func TestSave_SaysWhenSomebodyWasFaster(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	made := d.post(t, "/drills", with(d.get(t, "/drills/new").FormValues(t, "#editor"), "name", "Both edit it"))
	mine, theirs := made.FormValues(t, "#editor"), made.FormValues(t, "#editor")
	d.post(t, made.Path, with(theirs, "tip", "0.1")).RequireText(t, ".notice.good", "Drill saved")
	p := d.post(t, made.Path, with(mine, "tip", "0.2")).RequireStatus(t, http.StatusUnprocessableEntity)
	p.RequireText(t, "[role=alert]", "saved by somebody else")
	d.post(t, made.Path, p.FormValues(t, "#editor")).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "Drill saved")
}

func TestCopyAndMirror_OncePerForm(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String()
	list := d.get(t, "/drills")
	id := list.AttributeOf(t, `form[action$="/copy"] [name=id]`, "value")
	copied := d.post(t, path+"/copy", url.Values{"id": {id}}).RequireText(t, "h1", "Copy of Find the wing ball")
	d.post(t, copied.Path, with(copied.FormValues(t, "#editor"), "name", "My own")).RequireText(t, "h1", "My own")
	// A stale page that sends the same form again leaves the edit alone.
	d.post(t, path+"/copy", url.Values{"id": {id}}).RequireText(t, "h1", "My own")
	mirrored := d.post(t, path+"/mirror", url.Values{"id": {id}})
	mirrored.RequireText(t, "h1", "Find the wing ball, from the right")
	for _, one := range d.drills(t) {
		if strings.HasSuffix(one.Name, "from the right") && one.Drill.Setup != d.Drill.Setup.Mirror() {
			t.Errorf("the mirrored copy is %+v", one.Drill.Setup)
		}
	}
	if n := len(d.drills(t)); n != 3 {
		t.Errorf("there are %d drills, want 3", n)
	}
}

func TestArchive_TwiceIsNoHarm(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String() + "/archive"
	for range 2 {
		d.post(t, path, nil).RequireText(t, ".notice", "The drill is archived")
	}
	d.get(t, "/drills?all=1").RequireText(t, ".drills li", "archived")
	d.get(t, "/drills").RequireCount(t, ".drills li", 0)
	for range 2 {
		d.post(t, "/drills/"+d.Drill.ID.String()+"/restore", nil).RequireText(t, ".notice.good", "The drill is back").RequireCount(t, "main a[href$='/assign']", 1)
	}
	d.get(t, "/drills").RequireCount(t, ".drills li", 1)
}

// An older version does not come back beside the newer one, and the page says so.
func TestRestore_NotBesideANewerVersion(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	harder := d.Drill.Drill
	harder.Breaks = 12
	if _, err := d.Store.SaveDrill(t.Context(), d.Coach, d.Drill.ID, harder); err != nil {
		t.Fatal(err)
	}
	d.post(t, "/drills/"+d.Drill.ID.String()+"/restore", nil).RequireText(t, ".notice", "A newer version took this drill’s place")
	d.get(t, "/drills").RequireCount(t, ".drills li", 1)
}

func TestDrills_OfAnotherClubAreNotThere(t *testing.T) {
	scene := storetest.NewScene(t)
	other := storetest.AddScene(t, scene.Store)
	d := newCoachClient(t, scene)
	path := "/drills/" + other.Drill.ID.String()
	form := with(d.get(t, "/drills/new").FormValues(t, "#editor"), "name", "Mine now", "drill", other.Drill.ID.String())
	for what, try := range map[string]func(){
		"show":    func() { d.get(t, path) },
		"change":  func() { d.post(t, path, form) },
		"edit":    func() { d.post(t, "/drills/editor", form) },
		"copy":    func() { d.post(t, path+"/copy", nil) },
		"mirror":  func() { d.post(t, path+"/mirror", nil) },
		"archive": func() { d.post(t, path+"/archive", nil) },
		"restore": func() { d.post(t, path+"/restore", nil) },
		"assign":  func() { d.post(t, path+"/assign", nil) },
		"no id":   func() { d.get(t, "/drills/drill") },
	} {
		if try(); !errors.Is(d.failed, store.ErrNotFound) {
			t.Errorf("%s: %v, want not found", what, d.failed)
		}
	}
}

func TestEditor_TenBallFromTheRightIsKept(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	form := d.get(t, "/drills/new").FormValues(t, "#editor")
	p := d.post(t, "/drills/editor", with(form, "action", "update", "game", "ten-ball", "side", "right", "feet", "8"))
	d.post(t, "/drills", with(p.FormValues(t, "#editor"), "name", "Ten from the right")).RequireStatus(t, http.StatusOK)
	for _, one := range d.drills(t) {
		if one.Name != "Ten from the right" {
			continue
		}
		s := one.Setup
		if s.Game != rack.TenBall || s.Side != table.Right || s.Cue.X <= 0 || s.Order != rack.TenBall.PracticeOrder(table.Right) || one.Kind.Feet != 8 {
			t.Errorf("kept is %+v", one.Drill)
		}
		return
	}
	t.Error("the drill is not kept")
}

// A goal of 4.5 of ten is said in whole breaks: nobody makes four and a half.
func TestDrills_SayGoalsInWholeBreaks(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	form := with(d.get(t, "/drills/new").RequireStatus(t, http.StatusOK).FormValues(t, "#editor"), "name", "In between", "target_wing", "4.5", "target_window", "6")
	d.post(t, "/drills", form).RequireStatus(t, http.StatusOK).RequireText(t, "main", "4 to 5 of 10", "6 of 10")
	d.get(t, "/drills").RequireText(t, ".drills li", ": 4 to 5 of 10. Cue ball in the window: 6 of 10.")
}

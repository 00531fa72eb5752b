package progress_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// Every cue ball of the class is on the common table once, turned to the left.
func TestPicture_DrawsEveryCueBallTurned(t *testing.T) {
	site, _ := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 7, Sets: 14, Seed: 7, Until: time.Now()})
	taken, err := site.Store.GetClassPicture(t.Context(), site.Coach, site.Class)
	if err != nil {
		t.Fatal(err)
	}
	got := site.SignInCoach(t).Get(t, classPath(site)+"/picture").RequireText(t, "main", "the breaks of 2 students from the right are mirrored")
	all := got.AttributeOf(t, "#all .pic-dots", "d")
	stopped, made, breaks := 0, 0, 0
	for _, one := range taken.Students {
		own := got.AttributeOf(t, "#c-"+one.ID.String()+" .pic-dots", "d")
		n := 0
		for _, set := range one.Sets {
			for _, b := range set.Breaks {
				breaks++
				if b.WingMade(set.Setup) {
					made++
				}
				if b.Cue.How != drill.Stopped {
					continue
				}
				n++
				p := b.Cue.Place
				if set.Setup.Side == table.Right {
					p = p.Mirror()
				}
				if dot := fmt.Sprintf("M%v %vh0", tenth(p.X), tenth(-p.Y)); !strings.Contains(own, dot) || !strings.Contains(all, dot) {
					t.Errorf("%s: no dot at %s", one.Name, p)
				}
			}
		}
		if drawn := strings.Count(own, "M"); drawn != n {
			t.Errorf("%s: %d cue balls drawn, %d stopped", one.Name, drawn, n)
		}
		stopped += n
	}
	if drawn := strings.Count(all, "M"); drawn != stopped || stopped < 50 {
		t.Errorf("%d cue balls drawn together, %d stopped", drawn, stopped)
	}
	want := fmt.Sprintf("%d of %d", made, breaks)
	got.RequireText(t, ".answer", "the wing ball found its corner in "+want).RequireText(t, ".ends .pic-rate:first-child .pic-count", want)
	// The wing slot's ball went to the near corner as often as it was made.
	if cells := got.TextOf(t, "table.slots tbody tr:nth-child(4) td:nth-child(2)"); cells != fmt.Sprint(made) {
		t.Errorf("the wing slot's row says %s, made were %d", cells, made)
	}
}

// Before and after a change are the stints before and after it.
func TestPicture_BeforeAndAfterAChange(t *testing.T) {
	site, _ := webtest.NewWithHistory(t, storetest.SimulatedHistory{Students: 3, Sets: 30, Seed: 8, Until: time.Now()})
	coach := site.SignInCoach(t)
	path := classPath(site) + "/picture"
	taken, err := site.Store.GetClassPicture(t.Context(), site.Coach, site.Class)
	if err != nil || len(taken.Tried) != 3 {
		t.Fatalf("%d changes were tried (%v)", len(taken.Tried), err)
	}
	for _, tried := range taken.Tried {
		change, err := site.Store.GetTriedChange(t.Context(), site.Coach, tried.ID)
		if err != nil || change.Before == nil || change.After == nil {
			t.Fatalf("change %v (%v)", change, err)
		}
		if change.Before.LastSet != tried.Set || change.After.Setup != change.Prescription.After || !change.After.First.After(change.Before.Last) {
			t.Errorf("before %v, after %v of a change to %v", change.Before.Stint, change.After.Stint, change.Prescription.After)
		}
		page := coach.Get(t, path+"?change="+tried.ID.String()).RequireStatus(t, 200)
		page.RequireText(t, "#pair-wing", fmt.Sprintf("%d of %d", change.Before.WingMade, change.Before.Tally.Breaks), fmt.Sprintf("%d of %d", change.After.WingMade, change.After.Tally.Breaks))
		page.RequireCount(t, "#before .pic-dots", 1).RequireCount(t, "#after .pic-dots", 1).RequireCount(t, "main a[aria-current]", 1)
	}
	coach.Get(t, path+"?change=x").RequireStatus(t, 404)
}

package student_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/store"
)

// A drill that is done leads with what came of it, and offers itself again; one whose
// change is still to be broken leads with the start, as before the first set.
func TestDrill_DoneLeadsWithWhatCameOfIt(t *testing.T) {
	t.Parallel()
	l := startRecording(t, 0)
	const start, again = "form[data-start] button:not(.quiet)", "form[data-start] button.quiet"
	l.record(t, func(i int, form url.Values) {
		if i%2 == 1 {
			form.Set("wing", "stayed")
			form.Set("wing_miss", "side-rail")
		}
	}, 10)
	l.drillPage(t).RequireCount(t, "#done", 0).RequireCount(t, start, 2).RequireCount(t, again, 0)

	l.student.Post(t, l.set+"/close", url.Values{}).RequireStatus(t, http.StatusOK)
	page := l.drillPage(t).RequireCount(t, start, 0).RequireCount(t, again, 2).RequireCount(t, `a.button:not(.quiet)[href="`+l.set+`"]`, 1)
	page.RequireText(t, "#done", "Done today. On "+l.site.Table.Label()+": wing ball 5 of 10, cue ball in the window 10 of 10.")
	if done, form := strings.Index(page.Text, `id="done"`), strings.Index(page.Text, "data-start"); done > form {
		t.Error("the start stands above what came of it")
	}

	l.site.CloseSet(t, l.site.StudentActor(0), l.site.RecordBreaks(t, l.site.StudentActor(0), 10), -16)
	pending, err := l.site.Store.ListPendingPrescriptions(t.Context(), l.site.Coach)
	if err != nil || len(pending) != 1 {
		t.Fatalf("%d prescriptions wait (%v), want one", len(pending), err)
	}
	if err := l.site.Store.ApprovePrescriptions(t.Context(), l.site.Coach, []store.PrescriptionID{pending[0].ID}); err != nil {
		t.Fatal(err)
	}
	l.drillPage(t).RequireCount(t, "#done", 0).RequireCount(t, start, 2)
}

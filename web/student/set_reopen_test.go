package student_test

import (
	"net/http"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// A set closed by mistake is opened again from the page that it leads to, until a
// coach has decided on what it says.
func TestClosedSet_OpensAgainFromItsPage(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	ctx := t.Context()
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	path := "/my/sets/" + set.String()
	student := site.SignInStudent(t, site.Students[0])
	student.Get(t, path).RequireCount(t, "#reopen", 0) // it is open
	site.CloseSet(t, site.StudentActor(0), set, -20)
	page := student.Get(t, path).RequireText(t, "#reopen", "ten minutes")
	student.Post(t, path+"/reopen", page.FormValues(t, "#reopen")).RequireStatus(t, http.StatusOK).RequireText(t, "main", "open again", "Close the set")
	if got, err := site.Store.GetSet(ctx, site.Coach, set); err != nil || !got.Closed.IsZero() || got.Advice != nil {
		t.Errorf("closed %v, advice %v: %v", got.Closed, got.Advice != nil, err)
	}

	site.CloseSet(t, site.StudentActor(0), set, -20)
	closed, err := site.Store.GetSet(ctx, site.Coach, set)
	if err != nil || closed.Prescription == nil {
		t.Fatalf("nothing to decide: %v", err)
	}
	if err := site.Store.DecidePrescription(ctx, site.Coach, closed.Prescription.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	student.Get(t, path).RequireCount(t, "#reopen", 0)
	student.Post(t, path+"/reopen", nil).RequireStatus(t, http.StatusOK).RequireText(t, "main", "What your 10 breaks say")
}

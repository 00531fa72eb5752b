package coach_test

import (
	"net/http"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// proposeTo closes a set with a proposal for a student of the site.
func proposeTo(t *testing.T, site *webtest.Site, which int) store.Prescription {
	t.Helper()
	propose(t, site, which, -16)
	student := site.StudentActor(which)
	list, err := site.Store.ListPrescriptions(t.Context(), student, student.Person)
	if err != nil || len(list) != 1 {
		t.Fatalf("%d proposals: %v", len(list), err)
	}
	return list[0]
}

// Several are approved with one button, but not that of a student who asks something;
// one undo takes them back, all or none.
func TestDesk_ApprovesTogether(t *testing.T) {
	site := webtest.New(t)
	first, second, asks := proposeTo(t, site, 0), proposeTo(t, site, 1), proposeTo(t, site, 2)
	if err := site.Store.PostMessage(t.Context(), site.StudentActor(2), store.MessageID{}, asks.Set, "Why?"); err != nil {
		t.Fatal(err)
	}
	coach := site.SignInCoach(t)
	coach.Get(t, "/desk").RequireCount(t, "#approve-together", 1).
		RequireCount(t, "input[form=approve-together][checked]", 2).RequireCount(t, "#p-"+asks.ID.String()+" input[type=checkbox]", 0).
		RequireCount(t, "#p-"+first.ID.String()+" .change-thumbs svg", 1)
	ticked := map[string][]string{"prescription": {first.ID.String(), second.ID.String()}}
	after := coach.Post(t, "/desk/approve", ticked).RequireStatus(t, http.StatusOK).RequireText(t, ".notice[role=status]", "2 changes approved")
	for _, one := range []store.Prescription{first, second} {
		if got := state(t, site, one.ID).State; got != store.Approved {
			t.Errorf("%s after the approval", got)
		}
	}
	undo := after.FormValues(t, "form[action='/desk/reopen']")
	site.RecordBreaks(t, site.StudentActor(1), 1) // plays under the second
	coach.Post(t, "/desk/reopen", undo).RequireText(t, ".notice[role=status]", "Not taken back")
	if got := state(t, site, first.ID).State; got != store.Approved {
		t.Errorf("the first is %s though the undo was refused", got)
	}
	coach.Post(t, "/desk/reopen", map[string][]string{"prescription": {first.ID.String()}}).RequireText(t, ".notice[role=status]", "taken back")
	if got := state(t, site, first.ID).State; got != store.Proposed {
		t.Errorf("%s after the undo", got)
	}
	coach.Post(t, "/prescriptions/"+asks.ID.String(), map[string][]string{"answer": {"declined"}})
	ticked["prescription"] = []string{first.ID.String(), asks.ID.String()}
	coach.Post(t, "/desk/approve", ticked).RequireText(t, ".notice[role=status]", "Nothing was approved")
	if got := state(t, site, first.ID).State; got != store.Proposed {
		t.Errorf("one of two is %s though the other had been decided", got)
	}
	coach.Post(t, "/desk/approve", nil).RequireText(t, ".notice[role=status]", "tick the changes first")
}

package progress_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// A class of 200 is one page that a slow line carries, with every student in it
// and what all of them noted of their leaves, and unpacked not more than 250 KB. Asked again it is not sent again, until
// something in it changes.
func TestClassProgress_IsLightAndSentOnce(t *testing.T) {
	const most = 250_000
	h := storetest.SimulatedHistory{Students: 200, Sets: 12, Seed: 5, Until: time.Now(), NotesLeaves: true}
	site, students := webtest.NewWithHistory(t, h)
	coach := site.SignInCoach(t)
	path := classPath(site) + "/progress"
	first := coach.Get(t, path).RequireStatus(t, http.StatusOK).RequireCount(t, "tbody tr", 203).
		RequireCount(t, "tbody .row-numbers b", 200*store.MaxRecentSets).RequireCount(t, "tbody td:nth-child(4) small", 2*200)
	if len(first.Text) > most {
		t.Errorf("%d bytes for 200 students; %d is the most", len(first.Text), most)
	}
	t.Logf("%d bytes", len(first.Text))
	tag := first.Header.Get("ETag")
	if again := coach.SendWithHeaders(t, http.MethodGet, path, nil, map[string]string{"If-None-Match": tag}); again.Code != http.StatusNotModified || len(again.Text) != 0 {
		t.Errorf("asked again: status %d with %d bytes", again.Code, len(again.Text))
	}
	packed := coach.SendWithHeaders(t, http.MethodGet, path, nil, map[string]string{"Accept-Encoding": "gzip"})
	plain, err := gzip.NewReader(strings.NewReader(packed.Text))
	if err != nil {
		t.Fatal(err)
	}
	if all, err := io.ReadAll(plain); err != nil || string(all) != first.Text {
		t.Errorf("packed it is another page (%v)", err)
	}
	if err := site.Store.RenamePerson(t.Context(), site.Coach, students[0].ID, "Renamed Since"); err != nil {
		t.Fatal(err)
	}
	coach.SendWithHeaders(t, http.MethodGet, path, nil, map[string]string{"If-None-Match": tag}).RequireStatus(t, http.StatusOK).RequireText(t, "tbody a[href$='"+students[0].ID.String()+"']", "Renamed Since")
	student := store.Actor{Club: site.Coach.Club, Person: students[1].ID, Role: store.Student}
	site.CloseSet(t, student, site.RecordBreaks(t, student, 7), site.Drill.Setup.Cue.X)
	coach.Get(t, path).RequireText(t, "tbody tr:has(a[href$='"+students[1].ID.String()+"']) .row-numbers", "/7")
}

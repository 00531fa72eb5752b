package exchange_test

import (
	"net/http/httptest"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

// curiousWriter asks the database for something at every write.
type curiousWriter struct {
	*httptest.ResponseRecorder
	request func()
}

func (w *curiousWriter) Write(b []byte) (int, error) {
	w.request()
	return w.ResponseRecorder.Write(b)
}

// Whatever is downloaded is read before it is sent: a reader who is slow holds no
// connection, so that one connection is enough for somebody else meanwhile.
func TestExport_SlowReaderHoldsNoConnection(t *testing.T) {
	scene := storetest.NewScene(t, store.WithConnections(1))
	scene.RecordBreaks(t, scene.StudentActor(0), 3)
	site := webtest.NewOverScene(t, scene)
	coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	tried := 0
	for _, row := range site.Routes {
		path := strings.Replace(row.Pattern, "{student}", site.Students[0].ID.String(), 1)
		if row.Pace != route.Download || strings.Contains(path, "{") {
			continue // a job’s file is in memory too: GetJobFile gives all of it
		}
		who := map[route.Audience]*webtest.Client{route.Coach: coach, route.Student: student}[row.Audience]
		tried++
		writes := 0
		w := &curiousWriter{httptest.NewRecorder(), func() {
			writes++
			if _, err := site.Store.GetClub(t.Context(), site.Coach); err != nil {
				t.Errorf("%s: while it is sent nobody else is served: %v", path, err)
			}
		}}
		who.Into(t, w, path)
		if writes == 0 || w.Code != 200 || w.Body.Len() < 100 {
			t.Errorf("%s answers %d in %d writes: %s", path, w.Code, writes, w.Body)
		}
	}
	if tried < 6 {
		t.Errorf("%d downloads were tried", tried)
	}
}

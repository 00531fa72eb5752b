package exchange_test

import (
	"net/http/httptest"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// curiousWriter asks the database for something at every write.
type curiousWriter struct {
	*httptest.ResponseRecorder
	ask func()
}

func (w *curiousWriter) Write(b []byte) (int, error) {
	w.ask()
	return w.ResponseRecorder.Write(b)
}

// A log is read before it is sent: a reader who is slow holds no connection, so
// that one connection is enough for somebody else meanwhile.
func TestExport_SlowReaderHoldsNoConnection(t *testing.T) {
	scene := storetest.NewScene(t, store.WithConnections(1))
	scene.RecordBreaks(t, scene.StudentActor(0), 3)
	site := webtest.NewOverScene(t, scene)
	for path, who := range map[string]*webtest.Client{
		"/my/export": site.SignInStudent(t, site.Students[0]), "/export": site.SignInCoach(t),
	} {
		writes := 0
		w := &curiousWriter{httptest.NewRecorder(), func() {
			writes++
			if _, err := site.Store.GetClub(t.Context(), site.Coach); err != nil {
				t.Errorf("%s: while it is sent nobody else is served: %v", path, err)
			}
		}}
		who.Into(t, w, path)
		if writes == 0 || w.Code != 200 || strings.Count(w.Body.String(), "\n") < 4 {
			t.Errorf("%s answers %d in %d writes: %s", path, w.Code, writes, w.Body)
		}
	}
}

package exchange_test

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// bareSite is a club with a coach and nothing else.
func bareSite(t testing.TB) *webtest.Site {
	t.Helper()
	sc := storetest.Scene{Store: storetest.New(t)}
	sc.Coach, sc.Login = storetest.NewClub(t, sc.Store)
	return webtest.NewOverScene(t, sc)
}

// upload sends a file as a browser does.
func upload(t testing.TB, who *webtest.Client, id, name string, file []byte) *webtest.Page {
	t.Helper()
	kind, body := packUpload(t, id, name, file)
	return who.PostBody(t, "/import", kind, bytes.NewReader(body))
}

// packUpload returns what a browser sends, and its content type.
func packUpload(t testing.TB, id, name string, file []byte) (kind string, packed []byte) {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	if err := form.WriteField("id", id); err != nil {
		t.Fatal(err)
	}
	part, err := form.CreateFormFile("file", name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write(file); err != nil {
		t.Fatal(err)
	}
	if err := form.Close(); err != nil {
		t.Fatal(err)
	}
	return form.FormDataContentType(), body.Bytes()
}

func send(t *testing.T, who *webtest.Client, file string) *webtest.Page {
	t.Helper()
	return upload(t, who, uuid.NewString(), "paper records.csv", []byte(file))
}

// settle waits until a job is over and gives its page.
func settle(t testing.TB, who *webtest.Client, path string) *webtest.Page {
	t.Helper()
	for end := time.Now().Add(5 * time.Minute); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if p := who.Get(t, path).RequireStatus(t, http.StatusOK); len(p.FindAll(t, "[hx-trigger]")) == 0 {
			return p
		}
	}
	t.Fatalf("%s does not end", path)
	return nil
}

// exported is what the page sends of a scope.
func exported(t *testing.T, who *webtest.Client, query string) string {
	t.Helper()
	p := who.Get(t, "/export"+query).RequireStatus(t, http.StatusOK)
	if got := p.Header.Get("Content-Type"); got != "text/csv; charset=utf-8" {
		t.Errorf("content type %q", got)
	}
	if got := p.Header.Get("Content-Disposition"); !strings.HasPrefix(got, "attachment; filename") {
		t.Errorf("content disposition %q", got)
	}
	return p.Text
}

// confirm presses the button of a file's preview.
func confirm(t testing.TB, who *webtest.Client, preview *webtest.Page) *webtest.Page {
	t.Helper()
	form := preview.FormValues(t, "form:has(button:not(.quiet):not(.bare))")
	begun := who.Post(t, preview.Path, form).RequireStatus(t, http.StatusOK)
	return settle(t, who, begun.Path)
}

// busy records sets for two students of the scene.
func busy(t *testing.T, s *webtest.Site) {
	t.Helper()
	for i := range 2 {
		s.CloseSet(t, s.StudentActor(i), s.RecordBreaks(t, s.StudentActor(i), 4), -18)
	}
	s.RecordBreaks(t, s.StudentActor(0), 2)
}

func header(rows ...string) string {
	return "student,set,break,cue_x,cue_y,pocketed,cue,note\n" + strings.Join(rows, "\n") + "\n"
}

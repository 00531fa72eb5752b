package student_test

import (
	"net/http"
	"net/url"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// One message too many is told so in words, and what was typed is still there.
func TestAsk_NoRoomForMore(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	set := site.RecordBreaks(t, site.StudentActor(0), 3)
	for range store.RoomForMessages.Most {
		if err := site.Store.PostMessage(t.Context(), site.StudentActor(0), store.MessageID{}, set, "And now?"); err != nil {
			t.Fatal(err)
		}
	}
	student := site.SignInStudent(t, site.Students[0])
	student.Post(t, "/my/sets/"+set.String()+"/messages", url.Values{"message_id": {store.NewID[store.MessageID]().String()}, "body": {"What about the rail?"}}).
		RequireStatus(t, http.StatusConflict).RequireText(t, "h1", "No room for more").
		RequireText(t, "main", "200 messages about this set", "What about the rail?")
}

package sync

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
)

// One bad item is refused by itself: what stands around it is kept, so that a
// phone's queue goes on.
func TestTake_BadItemsDoNotHoldUpOthers(t *testing.T) {
	t.Parallel()
	h := newSyncHarness(t)
	odile, set := h.StudentActor(0), store.NewID[store.SetID]()
	good := func(n int) string { return encodeItem(t, saved(t, set, newBreakID(), 1, n, "")) }
	whole := good(2)
	bad := []string{
		`{}`, `null`, `7`, `"break"`, `[]`, `{"kind":"break","set":"` + set.String() + `"}`,
		`{"kind":"break","set":"nowhere"}`, `{"kind":7}`, `{"kind":"dance"}`,
		strings.Replace(whole, `"revision":1`, `"revision":2147483648`, 1),
		strings.Replace(whole, `"revision":1`, `"revision":9223372036854775808`, 1),
		strings.Replace(whole, `"revision":1`, `"revision":1e400`, 1),
		strings.Replace(whole, `"revision":1`, `"revision":-1`, 1),
		strings.Replace(whole, `"number":2`, `"number":2147483648`, 1),
		strings.Replace(whole, `"rails":6`, `"rails":2147483648`, 1),
		strings.Replace(whole, `"cue":{`, `"note":"a\u0000b","cue":{`, 1),
		strings.Replace(whole, `"cue":{`, `"speed":1e308,"cue":{`, 1),
		`{"kind":"delete","set":"` + set.String() + `","id":"` + newBreakID().String() + `","revision":99999999999,"reason":"a\u0000b"}`,
		`{"kind":"start","set":"` + store.NewID[store.SetID]().String() + `","at":"99999-01-01T00:00:00Z"}`,
		`{"kind":"close","set":"` + store.NewID[store.SetID]().String() + `","breaks":1e400}`,
	}
	items := []string{encodeItem(t, h.start(set)), good(1)}
	items = append(append(items, bad...), good(2))
	status, body := h.send(t, odile, []byte(`{"person":"`+odile.Person.String()+`","sent":"`+time.Now().UTC().Format(time.RFC3339)+`","items":[`+strings.Join(items, ",")+`]}`))
	var answer struct{ Answers []itemReply }
	if err := json.Unmarshal(body, &answer); status != http.StatusOK || err != nil || len(answer.Answers) != len(items) {
		t.Fatalf("%d items answered with %d: %s (%v)", len(items), status, body, err)
	}
	for i, got := range answer.Answers {
		isBad := i >= 2 && i < len(items)-1
		if isBad != (got.Outcome == refused) {
			t.Errorf("%s: %+v", items[i], got)
		}
	}
	if kept := h.set(t, odile, set); len(kept.Breaks) != 2 {
		t.Errorf("%d breaks are kept, want 2", len(kept.Breaks))
	}
}

func encodeItem(t *testing.T, it batchItem) string {
	t.Helper()
	text, err := json.Marshal(it)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

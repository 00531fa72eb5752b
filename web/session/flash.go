package session

import (
	"encoding/json"
	"net/http"

	"breakwright/web/page"
)

// SetFlash keeps a sentence for the next page.
func (m *Manager) SetFlash(w http.ResponseWriter, r *http.Request, sentence string) {
	m.SetFlashWithUndo(w, r, sentence, nil)
}

// SetFlashWithUndo keeps a sentence for the next page, with a form that takes back
// what it says was done; nil for none.
func (m *Manager) SetFlashWithUndo(w http.ResponseWriter, r *http.Request, sentence string, undo *page.UndoForm) {
	kept, _ := m.cookies.Get(r, flashCookie)
	kept.Values["said"] = sentence
	delete(kept.Values, "undo")
	if undo != nil {
		text, err := json.Marshal(undo)
		if err != nil {
			m.log.ErrorContext(r.Context(), "keep a way back", "error", err)
		}
		kept.Values["undo"] = string(text)
	}
	if err := kept.Save(r, w); err != nil {
		m.log.ErrorContext(r.Context(), "keep a sentence", "error", err)
	}
}

// TakeFrame returns what the layout needs of this request, and takes the sentence
// kept by [Manager.SetFlash].
func (m *Manager) TakeFrame(w http.ResponseWriter, r *http.Request) page.Frame {
	frame := page.Frame{Person: PagePerson(r)}
	frame.ErasedPerson, frame.Erased = r.Context().Value(erasedKey{}).(string)
	kept, _ := m.cookies.Get(r, flashCookie)
	sentence, ok := kept.Values["said"].(string)
	if !ok {
		return frame
	}
	frame.Flash = sentence
	if text, ok := kept.Values["undo"].(string); ok {
		if err := json.Unmarshal([]byte(text), &frame.Undo); err != nil {
			m.log.ErrorContext(r.Context(), "read a way back", "error", err)
		}
	}
	kept.Options.MaxAge = -1
	if err := kept.Save(r, w); err != nil {
		m.log.ErrorContext(r.Context(), "drop a sentence", "error", err)
	}
	return frame
}

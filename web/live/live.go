// Package live is the board of an evening: who breaks at which table and how it
// goes, filled in as breaks are recorded, large enough to read from three
// metres on a wall.
package live

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// maxSetAge is how far back a set may have started to be on the board.
const maxSetAge = 4 * time.Hour

// Pages are the board and its events.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	now      func() time.Time
	drawing  chan struct{} // has a place for each board that is drawn just now
}

// drawnAtOnce is how many boards are read and drawn at a time: a thousand that follow one
// break leave connections to those who record, and take little memory.
const drawnAtOnce = 4

// New makes them; now is the clock that says what belongs to the evening.
func New(s *store.Store, sessions *session.Manager, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, now: now, drawing: make(chan struct{}, drawnAtOnce)}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/classes/{class}/live", route.Coach, p.showBoard),
		route.Get("/classes/{class}/live/events", route.Coach, p.streamBoard).At(route.Stream),
	}
}

// boardView is the whole page.
type boardView struct {
	Frame page.Frame
	Class store.Class
	Path  string
	Rows  []boardRow
}

// boardRow is one student on the board.
type boardRow struct {
	Name, Table, State string
	Marks              []breakMark
	Wing, Window       string
}

// breakMark is one break: a sign, and its words.
type breakMark struct {
	Kind  markKind
	Words string
	// WingMade fills the sign of a scratch after which the wing ball counts as made.
	WingMade bool
}

// markKind names the signs.
type markKind string

// The signs, the most pressing first: a break shows the first that is true.
const (
	markOff        markKind = "off"
	markScratch    markKind = "scratch"
	markMade       markKind = "made"
	markMissed     markKind = "missed"
	markNotWatched markKind = "not-watched"
	markToCome     markKind = "to-come"
)

func (p *Pages) showBoard(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadBoard(r)
	if err != nil {
		return err
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, http.StatusOK, boardPage(v))
}

func (p *Pages) loadBoard(r *http.Request) (boardView, error) {
	id, err := store.ParseID[store.ClassID](chi.URLParam(r, "class"))
	if err != nil {
		return boardView{}, err
	}
	actor := session.MustUser(r).Actor
	class, _, err := p.store.GetClass(r.Context(), actor, id)
	if err != nil {
		return boardView{}, err
	}
	students, err := p.store.ListLiveStudents(r.Context(), actor, id, p.now().Add(-maxSetAge))
	if err != nil {
		return boardView{}, err
	}
	v := boardView{Class: class, Path: route.ClassPath(id)}
	for _, s := range students {
		v.Rows = append(v.Rows, newBoardRow(s))
	}
	return v, nil
}

// answerWords is the board's first line.
func (v boardView) answerWords() string {
	breaking, done := 0, 0
	for _, r := range v.Rows {
		switch {
		case r.State == stateDone:
			done++
		case r.Table != "":
			breaking++
		}
	}
	if breaking+done == 0 {
		return "Nobody has started yet. The board fills in by itself."
	}
	return fmt.Sprintf("%d breaking, %d done, of %d.", breaking, done, len(v.Rows))
}

const stateDone = "done"

func newBoardRow(s store.LiveStudent) boardRow {
	r := boardRow{Name: s.Student.Name}
	if s.Set == nil {
		return r
	}
	set := s.Set
	r.Table = set.Table.Label()
	r.State = say.OfTotal(len(set.Breaks), set.Planned)
	if !set.Closed.IsZero() {
		r.State = stateDone
	}
	breaks := make([]drill.Break, len(set.Breaks))
	for i, b := range set.Breaks {
		breaks[i] = b.Break
		r.Marks = append(r.Marks, newBreakMark(b.Break, set.Setup))
	}
	for n := len(breaks); n < set.Planned && set.Closed.IsZero(); n++ {
		r.Marks = append(r.Marks, breakMark{Kind: markToCome})
	}
	if len(breaks) == 0 {
		return r
	}
	counts := component.CountBreaks(breaks, set.Setup, set.Window)
	r.Wing = say.OfWatched(counts.Wing, counts.Watched)
	r.Window = say.OfTotal(counts.Window, counts.Breaks)
	return r
}

// newBreakMark never hides the wing ball behind a foul: the row's count has it too.
func newBreakMark(b drill.Break, s drill.Setup) breakMark {
	m := breakMark{Kind: markMissed, Words: "wing ball missed"}
	switch {
	case !b.IsWatched():
		m = breakMark{Kind: markNotWatched, Words: "wing ball not watched"}
	case b.WingMade(s):
		m = breakMark{Kind: markMade, Words: "wing ball made", WingMade: true}
	}
	switch {
	case b.HasBallsOff():
		m.Kind, m.Words = markOff, "a ball off the table, "+m.Words
	case b.Cue.How == drill.Scratched:
		m.Kind, m.Words = markScratch, "scratch, "+m.Words
	}
	return m
}

// markWords say a row's marks to who cannot see them.
func (r boardRow) markWords() string {
	var words []string
	for i, m := range r.Marks {
		if m.Kind != markToCome {
			words = append(words, fmt.Sprintf("%d %s", i+1, m.Words))
		}
	}
	return strings.Join(words, ", ")
}

// keepAliveInterval is how often a line is sent when nothing happens, so that proxies and
// this end notice a connection that died.
const keepAliveInterval = 20 * time.Second

// slowestReader is how long a screen may take to take in one event; then its line is cut, and
// it connects again.
const slowestReader = 10 * time.Second

// reconnectSoon says to the browser how soon to connect again, in milliseconds.
const reconnectSoon = "retry: 1000\n\n"

// streamBoard sends the board anew whenever something happens in the club, for as long as
// the coach is signed in.
func (p *Pages) streamBoard(w http.ResponseWriter, r *http.Request) error {
	first, err := p.drawEvent(r) // before anything is sent, so that a refusal is a page
	if err != nil {
		return err
	}
	events, err := p.store.Subscribe(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	h.Set("X-Accel-Buffering", "no")
	control := http.NewResponseController(w)
	if err := sendLines(w, control, reconnectSoon+first); err != nil {
		return nil // who went away needs no page
	}
	ticker := time.NewTicker(keepAliveInterval)
	defer ticker.Stop()
	for {
		select {
		case <-r.Context().Done():
			return nil
		case <-ticker.C:
			if p.sessions.IsOver(r) || sendLines(w, control, ": still here\n\n") != nil {
				return nil
			}
		case _, open := <-events:
			if !open {
				return nil
			}
			event, err := p.drawEvent(r)
			if err != nil || sendLines(w, control, event) != nil {
				return nil // the browser asks again, and then gets the reason
			}
		}
	}
}

// drawEvent makes the board, in its turn, as one event of the WHATWG's server-sent events:
// each line of it is a "data:" line. [store.ErrNotFound] once the coach is signed out.
func (p *Pages) drawEvent(r *http.Request) (string, error) {
	select {
	case p.drawing <- struct{}{}:
		defer func() { <-p.drawing }()
	case <-r.Context().Done():
		return "", r.Context().Err()
	}
	v, err := p.loadBoard(r)
	if err != nil {
		return "", err
	}
	if p.sessions.IsOver(r) { // asked last, so that nobody sees what came after they signed out
		return "", store.ErrNotFound
	}
	var b strings.Builder
	if err := boardRows(v).Render(r.Context(), &b); err != nil {
		return "", err
	}
	return "event: board\ndata: " + strings.ReplaceAll(b.String(), "\n", "\ndata: ") + "\n\n", nil
}

// sendLines sends lines at once, to a reader who takes them within a while.
func sendLines(w http.ResponseWriter, control *http.ResponseController, lines string) error {
	if err := control.SetWriteDeadline(time.Now().Add(slowestReader)); err != nil {
		return err
	}
	if _, err := io.WriteString(w, lines); err != nil {
		return err
	}
	return control.Flush()
}

package coach

import (
	"net/http"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// decidedView lists what coaches decided and did in the last seven days.
type decidedView struct {
	Frame page.Frame
	Lines []decidedLine
	// Done is what they did beside deciding on changes.
	Done []actionGroup
}

// decidedLine is one decision; Undo is nil once it cannot be taken back.
type decidedLine struct {
	Student, Path, When, Says, State, Note string
	Undo                                   *page.UndoForm
}

func (v decidedView) headline() string {
	switch {
	case len(v.Lines) == 0 && len(v.Done) == 0:
		return "Nothing was decided in the last seven days."
	case len(v.Lines) == 0:
		return "No change was decided on in the last seven days."
	}
	return say.Count(len(v.Lines), "decision", "decisions") + " in the last seven days. Each can be taken back until the next set under it has begun."
}

// decidedSince is how far back the list goes.
const decidedSince = 7 * 24 * time.Hour

func (p *Pages) listDecided(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	decided, err := p.store.ListDecidedSince(r.Context(), user.Actor, p.now().Add(-decidedSince))
	if err != nil {
		return err
	}
	v := decidedView{Frame: p.sessions.TakeFrame(w, r)}
	for _, one := range decided {
		v.Lines = append(v.Lines, newDecidedLine(one, user))
	}
	done, err := p.store.ListActionsSince(r.Context(), user.Actor, p.now().Add(-decidedSince))
	if err != nil {
		return err
	}
	v.Done = listActions(done, user)
	return page.Render(w, r, http.StatusOK, decidedPage(v))
}

func newDecidedLine(one store.DecidedChange, user session.User) decidedLine {
	line := decidedLine{
		Student: one.StudentName, Path: route.SetPath(one.Set), When: formatTime(one.DecidedAt, user.Zone) + ", " + one.CoachName,
		Says: component.DecidedWords(one.Change(), "the coach", user.Units), State: component.ProgressWords(one.Change()), Note: one.DecisionNote,
	}
	if one.CanReopen {
		line.Undo = reopenForm(one.ID, one.StudentName)
	}
	return line
}

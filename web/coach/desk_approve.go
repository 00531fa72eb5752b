package coach

import (
	"errors"
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// markUsual marks the proposals that may be approved together: those without a caution
// of students of whom the desk says nothing else. One alone has its own button.
func (v *deskView) markUsual() {
	others := map[store.PersonID]bool{}
	for _, q := range v.Questions {
		others[q.Who] = true
	}
	for _, g := range []lineGroup{v.Hurts, v.Off, v.Stuck, v.Unanswered, v.Slump} {
		for _, line := range g.Lines {
			for _, who := range line.Students {
				others[who.ID] = true
			}
		}
	}
	usual := 0
	for i := range v.Proposals {
		one := &v.Proposals[i]
		one.IsUsual = one.Caution == "" && !others[one.Who]
		if one.IsUsual {
			usual++
		}
	}
	v.ApproveTogether = usual > 1
}

// readPrescriptions reads the ids of the changes that are ticked.
func readPrescriptions(w http.ResponseWriter, r *http.Request) ([]store.PrescriptionID, error) {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return nil, err
	}
	var ids []store.PrescriptionID
	for _, ticked := range form.Values["prescription"] {
		id, err := store.ParseID[store.PrescriptionID](ticked)
		if err != nil {
			return nil, err
		}
		ids = append(ids, id)
	}
	return ids, nil
}

// approveTogether approves the changes that are ticked on the desk.
func (p *Pages) approveTogether(w http.ResponseWriter, r *http.Request) error {
	ids, err := readPrescriptions(w, r)
	if err != nil {
		return err
	}
	err = p.store.ApprovePrescriptions(r.Context(), session.MustUser(r).Actor, ids)
	switch {
	case errors.Is(err, store.ErrConflict):
		p.sessions.SetFlash(w, r, "Nothing was approved: one of them was decided or replaced meanwhile. These are the ones that wait now.")
	case err != nil:
		return err
	case len(ids) == 0:
		p.sessions.SetFlash(w, r, "Nothing was approved: tick the changes first.")
	default:
		undo := &page.UndoForm{Path: "/desk/reopen", About: "the approval of " + say.Count(len(ids), "change", "changes")}
		for _, id := range ids {
			undo.Fields = append(undo.Fields, page.HiddenField{Name: "prescription", Value: id.String()})
		}
		p.sessions.SetFlashWithUndo(w, r, say.Capitalize(say.Count(len(ids), "change", "changes"))+" approved. The next sets carry them.", undo)
	}
	return page.Redirect(w, r, "/desk")
}

// reopenTogether takes the approval of several back.
func (p *Pages) reopenTogether(w http.ResponseWriter, r *http.Request) error {
	ids, err := readPrescriptions(w, r)
	if err != nil {
		return err
	}
	err = p.store.ReopenDecisions(r.Context(), session.MustUser(r).Actor, ids, setreview.JudgeCase)
	switch {
	case errors.Is(err, store.ErrConflict):
		p.sessions.SetFlash(w, r, "Not taken back: one of the students has begun the next set already. Take the others back one by one under “Decided this week”.")
	case err != nil:
		return err
	default:
		p.sessions.SetFlash(w, r, "The approval is taken back. What is proposed waits for you again.")
	}
	return page.Redirect(w, r, "/desk")
}

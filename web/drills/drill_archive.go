package drills

import (
	"errors"
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// archiveDrill puts a drill away; doing so twice is no harm.
func (p *Pages) archiveDrill(w http.ResponseWriter, r *http.Request) error {
	d, err := p.findDrill(r)
	if err != nil {
		return err
	}
	if err := p.store.ArchiveDrill(r.Context(), session.MustUser(r).Actor, d.ID); err != nil {
		return err
	}
	p.sessions.SetFlashWithUndo(w, r, "The drill is archived. Assignments already given go on.",
		&page.UndoForm{Path: route.DrillPath(d.ID) + "/restore", About: "the archiving of " + d.Name})
	return page.Redirect(w, r, "/drills")
}

// restoreDrill takes a drill back; one that a newer version replaced stays where
// it is, and that is said on its page.
func (p *Pages) restoreDrill(w http.ResponseWriter, r *http.Request) error {
	d, err := p.findDrill(r)
	if err != nil {
		return err
	}
	says := "The drill is back: it can be changed and assigned again."
	err = p.store.RestoreDrill(r.Context(), session.MustUser(r).Actor, d.ID)
	if errors.Is(err, store.ErrConflict) {
		says, err = "A newer version took this drill’s place, so it stays in the archive. Assign that one, or copy this.", nil
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, says)
	return page.Redirect(w, r, route.DrillPath(d.ID))
}

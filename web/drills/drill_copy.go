package drills

import (
	"errors"
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// copyDrill makes a drill like another.
func (p *Pages) copyDrill(w http.ResponseWriter, r *http.Request) error {
	return p.duplicateDrill(w, r, "Here is the copy.", func(d drill.Drill) drill.Drill {
		d.Name = affixName("Copy of ", d.Name, "")
		return d
	})
}

// mirrorDrill makes a drill for the other side. Students see every drill the
// right way round by themselves; a mirrored copy is for changing one side alone.
func (p *Pages) mirrorDrill(w http.ResponseWriter, r *http.Request) error {
	return p.duplicateDrill(w, r, "Here is the mirrored copy.", func(d drill.Drill) drill.Drill {
		side := d.Setup.Side.Mirror()
		d = d.ForSide(side)
		d.Name = affixName("", d.Name, ", from the "+string(side))
		return d
	})
}

// duplicateDrill makes a drill from the one in the address, once for each form: a
// repeat leads to what the first one made, whatever became of it since.
func (p *Pages) duplicateDrill(w http.ResponseWriter, r *http.Request, words string, change func(drill.Drill) drill.Drill) error {
	source, form, err := page.ReadFormOf(w, r, p.findDrill)
	if err != nil {
		return err
	}
	actor := session.MustUser(r).Actor
	id := store.DrillID{UUID: idFromForm(form, r.URL.Path)}
	made, err := p.store.GetDrill(r.Context(), actor, id)
	if errors.Is(err, store.ErrNotFound) {
		made, err = p.store.SaveDrill(r.Context(), actor, id, change(source.Drill))
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, words+" Change what you like; the other drill stays as it is.")
	return page.Redirect(w, r, route.DrillPath(made.ID))
}

// affixName puts words around a name and shortens the name where it gets too long.
func affixName(before, name, after string) string {
	letters := []rune(name)
	room := drill.MaxName - len([]rune(before)) - len([]rune(after))
	if len(letters) > room {
		letters = append(letters[:room-1:room-1], '…')
	}
	return before + string(letters) + after
}

package privacy

import (
	"bytes"
	"net/http"

	"breakwright/web/page"
	"breakwright/web/session"
)

func (p *Pages) showClubFile(w http.ResponseWriter, r *http.Request) error {
	return page.Render(w, r, http.StatusOK, clubFilePage(p.sessions.TakeFrame(w, r), session.MustUser(r).Club))
}

// sendClubFile makes the file whole before the first byte is sent.
func (p *Pages) sendClubFile(w http.ResponseWriter, r *http.Request) error {
	var file bytes.Buffer
	if _, err := p.store.WriteClubFile(r.Context(), actor(r), &file); err != nil {
		return err
	}
	p.sendZip(w, r, "club", file.Bytes())
	return nil
}

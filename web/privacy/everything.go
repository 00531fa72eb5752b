package privacy

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"mime"
	"net/http"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// findStudent returns the student that the address names.
func (p *Pages) findStudent(r *http.Request) (store.Person, error) {
	return session.FindStudent(r, p.store)
}

func (p *Pages) sendEverything(w http.ResponseWriter, r *http.Request) error {
	student, err := p.findStudent(r)
	if err != nil {
		return err
	}
	return p.sendAll(w, r, student.ID)
}

func (p *Pages) sendOwnEverything(w http.ResponseWriter, r *http.Request) error {
	return p.sendAll(w, r, actor(r).Person)
}

// sendAll makes the file whole before the first byte is sent.
func (p *Pages) sendAll(w http.ResponseWriter, r *http.Request, person store.PersonID) error {
	file, err := p.packAll(r.Context(), actor(r), person)
	if err != nil {
		return err
	}
	p.sendZip(w, r, "everything", file)
	return nil
}

// sendZip sends a file that is called so, with its day.
func (p *Pages) sendZip(w http.ResponseWriter, r *http.Request, name string, file []byte) {
	day := p.now().In(session.MustUser(r).Zone).Format("2006-01-02")
	h := w.Header()
	h.Set("Content-Type", "application/zip")
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name + " " + day + ".zip"}))
	h.Set("Cache-Control", "no-store")
	if _, err := w.Write(file); err != nil {
		panic(http.ErrAbortHandler) // half a file must not look like a whole one
	}
}

// aboutAll says what is in the file.
const aboutAll = `This is all that the club keeps of one person.

breaks.csv       every break, as a table that spreadsheets open
struck.csv       breaks that were taken out or changed, as they were, with the reasons
everything.json  all else: name and classes, sets, the advice to each, changes that
                 were proposed and what came of them, messages, break cards, when
                 and on what devices they signed in. Times are UTC, lengths inches.

Passphrases, PINs and keys are not in it: the program does not know them.
`

// packAll returns the zip file.
func (p *Pages) packAll(ctx context.Context, v store.Actor, person store.PersonID) ([]byte, error) {
	all, err := p.store.GetEverything(ctx, v, person)
	if err != nil {
		return nil, err
	}
	var readable, log, struck bytes.Buffer
	if err := json.Indent(&readable, all, "", "  "); err != nil {
		return nil, err
	}
	scope := store.ExportScope{Student: person}
	breaks := breaklog.NewWriter(&log)
	err = p.store.ExportSets(ctx, v, scope, func(_ store.Person, sets []drill.Set) error { return breaks.Write(sets) })
	if err != nil {
		return nil, err
	}
	if err := breaks.Close(); err != nil {
		return nil, err
	}
	sets, err := p.store.ExportStruckBreaks(ctx, v, scope)
	if err != nil {
		return nil, err
	}
	if err := breaklog.WriteStruck(&struck, sets); err != nil {
		return nil, err
	}
	return zipParts([]zippedPart{
		{"read me.txt", []byte(aboutAll)}, {"breaks.csv", log.Bytes()}, {"struck.csv", struck.Bytes()}, {"everything.json", readable.Bytes()},
	}, p.now())
}

// zippedPart is a file in a zip file.
type zippedPart struct {
	name    string
	content []byte
}

func zipParts(parts []zippedPart, at time.Time) ([]byte, error) {
	var file bytes.Buffer
	z := zip.NewWriter(&file)
	for _, part := range parts {
		to, err := z.CreateHeader(&zip.FileHeader{Name: part.name, Method: zip.Deflate, Modified: at.UTC().Truncate(time.Second)})
		if err != nil {
			return nil, err
		}
		if _, err := to.Write(part.content); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return file.Bytes(), nil
}

func (p *Pages) showPrivacy(w http.ResponseWriter, r *http.Request) error {
	return page.Render(w, r, http.StatusOK, privacyPage(p.sessions.TakeFrame(w, r)))
}

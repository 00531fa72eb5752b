package exchange

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/session"
)

// readScope reads whose records are meant: of one student, of a class, or of the
// club. name is what the file is called by.
func (p *Pages) readScope(r *http.Request, class, student string) (scope store.ExportScope, name string, err error) {
	user := session.MustUser(r)
	switch {
	case student != "":
		if scope.Student, err = store.ParseID[store.PersonID](student); err != nil {
			return scope, "", err
		}
		person, err := p.store.GetPerson(r.Context(), user.Actor, scope.Student)
		if err == nil && person.Role != store.Student {
			err = store.ErrNotFound
		}
		return scope, person.Name, err
	case class != "":
		if scope.Class, err = store.ParseID[store.ClassID](class); err != nil {
			return scope, "", err
		}
		found, _, err := p.store.GetClass(r.Context(), user.Actor, scope.Class)
		return scope, found.Name, err
	}
	return scope, user.Club, nil
}

// exportBreakLog sends a break log.
func (p *Pages) exportBreakLog(w http.ResponseWriter, r *http.Request) error {
	query := r.URL.Query()
	scope, name, err := p.readScope(r, query.Get("class"), query.Get("student"))
	if err != nil {
		return err
	}
	return p.sendLog(w, r, scope, name)
}

// exportStruck sends what was taken out or changed, as it was.
func (p *Pages) exportStruck(w http.ResponseWriter, r *http.Request) error {
	query := r.URL.Query()
	scope, name, err := p.readScope(r, query.Get("class"), query.Get("student"))
	if err != nil {
		return err
	}
	struck, err := p.store.ExportStruckBreaks(r.Context(), session.MustUser(r).Actor, scope)
	if err != nil {
		return err
	}
	p.setDownloadHeaders(w, r, name+" struck")
	return abortOnWriteError(breaklog.WriteStruck(w, struck))
}

// exportOwnBreakLog sends a student their own.
func (p *Pages) exportOwnBreakLog(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	return p.sendLog(w, r, store.ExportScope{Student: user.Person}, user.Name)
}

// sendLog writes the whole log first, compressed, and then sends it: a reader
// who is slow holds no connection to the database.
func (p *Pages) sendLog(w http.ResponseWriter, r *http.Request, scope store.ExportScope, name string) error {
	zipped, _, err := p.zipLog(r.Context(), session.MustUser(r).Actor, scope, func(int) {})
	if err != nil {
		return err
	}
	return p.sendZipped(w, r, name, zipped)
}

// zipLog returns a break log compressed by gzip, and how many breaks it holds.
func (p *Pages) zipLog(ctx context.Context, v store.Actor, scope store.ExportScope, seen func(breaks int)) (zipped []byte, breaks int, err error) {
	var file bytes.Buffer
	to := gzip.NewWriter(&file)
	err = p.writeBreakLog(ctx, v, scope, to, func(n int) { breaks = n; seen(n) })
	if err == nil {
		err = to.Close()
	}
	return file.Bytes(), breaks, err
}

// sendZipped sends a log that was compressed: as it is to browsers that take it
// so, unpacked to others.
func (p *Pages) sendZipped(w http.ResponseWriter, r *http.Request, name string, zipped []byte) error {
	p.setDownloadHeaders(w, r, name)
	w.Header().Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		w.Header().Set("Content-Encoding", "gzip")
		_, err := w.Write(zipped)
		return abortOnWriteError(err)
	}
	plain, err := gzip.NewReader(bytes.NewReader(zipped))
	if err != nil {
		return fmt.Errorf("unpack a log: %w", err)
	}
	_, err = io.Copy(w, plain)
	return abortOnWriteError(err)
}

// abortOnWriteError ends an answer whose reader went away: half a log must not look like a
// whole one, so the connection is cut and the browser says that the download
// failed.
func abortOnWriteError(err error) error {
	if err != nil {
		panic(http.ErrAbortHandler)
	}
	return nil
}

// writeBreakLog writes a break log, one student after the other.
func (p *Pages) writeBreakLog(ctx context.Context, v store.Actor, scope store.ExportScope, to io.Writer, seen func(breaks int)) error {
	log, breaks := breaklog.NewWriter(to), 0
	err := p.store.ExportSets(ctx, v, scope, func(_ store.Person, sets []drill.Set) error {
		for _, set := range sets {
			breaks += len(set.Breaks)
		}
		seen(breaks)
		return log.Write(sets)
	})
	if err != nil {
		return err
	}
	return log.Close()
}

// setDownloadHeaders says that what follows is a break log, named after what it holds and its
// day.
func (p *Pages) setDownloadHeaders(w http.ResponseWriter, r *http.Request, name string) {
	day := p.now().In(session.MustUser(r).Zone).Format("2006-01-02")
	file := fmt.Sprintf("breaks %s %s.csv", safeFileName(name), day)
	h := w.Header()
	h.Set("Content-Type", "text/csv; charset=utf-8")
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": file}))
	h.Set("Cache-Control", "no-store")
}

// longestName is how much of a name goes into a file's, in letters.
const longestName = 60

// safeFileName leaves out what file systems and headers stumble over.
func safeFileName(name string) string {
	clean := strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|%`, r) {
			return '-'
		}
		return r
	}, name)
	letters := []rune(clean)
	return strings.Trim(string(letters[:min(len(letters), longestName)]), ". ")
}

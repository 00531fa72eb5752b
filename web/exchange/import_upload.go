package exchange

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"github.com/google/uuid"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// What may come in. A log of so many lines takes about 100 MB while it is read,
// and one at a time is read.
const (
	maxFileMB    = 20
	maxFileBytes = maxFileMB << 20
	maxLines     = 200_000
	// maxSent is how much of a file that is too large is taken in and thrown
	// away, so that the browser is there to read why.
	maxSent = 64 << 20
)

const fieldFile = "file"

// uploadLog takes a file in, and either says what is wrong with it, line by line,
// or keeps it for the coach to look at before anything is saved.
func (p *Pages) uploadLog(w http.ResponseWriter, r *http.Request) error {
	id, name, file, err := readUpload(w, r)
	form := page.NewForm(nil)
	if err != nil && !form.AddProblems(err) {
		return err
	}
	var found breaklog.Problems
	var sets []drill.Set
	if form.IsValid() {
		sets, err = p.readBreakLog(file)
		if err != nil && !errors.As(err, &found) && !form.AddProblems(err) {
			return err
		}
	}
	if !form.IsValid() || len(found) > 0 {
		return p.renderRecords(w, r, http.StatusUnprocessableEntity, form, &refusedFile{Name: name, Problems: found})
	}
	viewer := session.MustUser(r).Actor
	if err := p.store.DeleteOldJobs(r.Context(), viewer, p.now().Add(-jobRetention)); err != nil {
		return err
	}
	job := store.Job{ID: idFromForm(id, file), Kind: store.ImportJob, Title: name, Todo: countBreaks(sets)}
	if err := p.store.CreateJob(r.Context(), viewer, job, file); err != nil {
		return err
	}
	return page.Redirect(w, r, jobPagePathOf(job.ID))
}

// idFromForm is the id of what a form asks for: the same when the form is sent
// twice, another when something else was put into it.
func idFromForm(form store.JobID, content []byte) store.JobID {
	return store.JobID{UUID: uuid.NewSHA1(form.UUID, content)}
}

// readUpload reads the form: an id, then a file.
func readUpload(w http.ResponseWriter, r *http.Request) (id store.JobID, name string, file []byte, err error) {
	r.Body = http.MaxBytesReader(w, r.Body, maxSent)
	parts, err := r.MultipartReader()
	if err != nil {
		return id, "", nil, fmt.Errorf("%w: %w", page.ErrUnreadableForm, err)
	}
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return id, "", nil, describeUploadError(err)
		}
		text, err := io.ReadAll(io.LimitReader(part, maxFileBytes+1))
		if err != nil {
			return id, "", nil, describeUploadError(err)
		}
		switch part.FormName() {
		case "id":
			if id, err = store.ParseID[store.JobID](string(text)); err != nil {
				return id, "", nil, page.ErrUnreadableForm
			}
		case fieldFile:
			name, file = safeFileName(part.FileName()), text
			if _, err := io.Copy(io.Discard, part); err != nil {
				return id, name, nil, describeUploadError(err)
			}
		}
	}
	if store.IsZero(id) {
		return id, name, nil, page.ErrUnreadableForm
	}
	return id, fileNameOrDefault(name), file, checkUploadedFile(file)
}

// describeUploadError says of a file that was not taken in whole that it is too large.
func describeUploadError(err error) error {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return fileProblem("the file is larger than %d MB; split it, for example by class", maxFileMB)
	}
	return fmt.Errorf("%w: %w", page.ErrUnreadableForm, err)
}

func checkUploadedFile(file []byte) error {
	switch {
	case len(file) == 0:
		return fileProblem("choose a file; this one is empty or there was none")
	case len(file) > maxFileBytes:
		return fileProblem("the file is larger than %d MB; split it, for example by class", maxFileMB)
	case bytes.Count(file, []byte{'\n'}) > maxLines:
		return fileProblem("the file has more than %d lines; split it, for example by class", maxLines)
	case bytes.HasPrefix(file, []byte("PK\x03\x04")):
		return fileProblem("this is a spreadsheet or an archive, not a CSV file; in the spreadsheet save it as “CSV UTF-8”")
	case bytes.IndexByte(file, 0) >= 0 && !startsAsUTF16(file):
		return fileProblem("this is no text; a break log is a CSV file")
	}
	return nil
}

// startsAsUTF16 leaves such a file to package breaklog, which knows what to say.
func startsAsUTF16(file []byte) bool {
	return bytes.HasPrefix(file, []byte{0xff, 0xfe}) || bytes.HasPrefix(file, []byte{0xfe, 0xff})
}

func fileProblem(says string, args ...any) error {
	return drill.Problems{{Field: fieldFile, Message: fmt.Sprintf(says, args...)}}
}

// readBreakLog reads a file, one at a time.
func (p *Pages) readBreakLog(file []byte) ([]drill.Set, error) {
	p.worker.reading.Lock()
	defer p.worker.reading.Unlock()
	sets, err := breaklog.Read(bytes.NewReader(file))
	if err == nil && len(sets) == 0 {
		return nil, fileProblem("the file has column names and no breaks")
	}
	return sets, err
}

func countBreaks(sets []drill.Set) int {
	n := 0
	for _, set := range sets {
		n += len(set.Breaks)
	}
	return n
}

func fileNameOrDefault(name string) string {
	if strings.TrimSpace(name) == "" {
		return "a break log"
	}
	return name
}

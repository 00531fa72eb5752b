package exchange

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"strings"

	"github.com/google/uuid"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// What may come in.
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
	free, err := takePlace(r.Context(), p.uploads)
	if err != nil {
		return err
	}
	defer free()
	id, name, file, err := readUpload(w, r)
	form := page.NewForm(nil)
	if err != nil && !form.AddProblems(err) {
		return err
	}
	var found breaklog.Problems
	breaks := 0
	if form.IsValid() {
		err = p.lookAtLog(r.Context(), func() ([]byte, error) { return file, nil }, func(sets []drill.Set) error {
			breaks = countBreaks(sets)
			return nil
		})
		if err != nil && !errors.As(err, &found) && !form.AddProblems(err) {
			return err
		}
	}
	if !form.IsValid() || len(found) > 0 {
		return p.renderRecords(w, r, http.StatusUnprocessableEntity, form, &refusedFile{Name: name, Problems: found})
	}
	actor := session.MustUser(r).Actor
	job := store.Job{ID: idFromForm(id, file), Kind: store.ImportJob, Title: name, Todo: breaks}
	if err := p.store.CreateJob(r.Context(), actor, job, file); err != nil {
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
		text, err := readPart(part, r.ContentLength)
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
		}
	}
	if store.IsZero(id) {
		return id, name, nil, page.ErrUnreadableForm
	}
	return id, fileNameOrDefault(name), file, checkUploadedFile(file)
}

// readPart reads a part of a request of a length, -1 when that is not said, in one piece
// of memory. Of a part that is too large it gives one byte more than is allowed.
func readPart(part *multipart.Part, length int64) ([]byte, error) {
	text := bytes.NewBuffer(make([]byte, 0, min(max(length, 0), maxFileBytes)+bytes.MinRead))
	if _, err := text.ReadFrom(io.LimitReader(part, maxFileBytes+1)); err != nil {
		return nil, err
	}
	_, err := io.Copy(io.Discard, part)
	return text.Bytes(), err
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

func fileNameOrDefault(name string) string {
	if strings.TrimSpace(name) == "" {
		return "a break log"
	}
	return name
}

package exchange

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// previewView is what a file would do, before anything is saved.
type previewView struct {
	Frame page.Frame
	Job   store.Job
	Form  *page.Form
	// Rows are the file's students, in its order.
	Rows    []previewRow
	Preview store.ImportPreview
}

// previewRow is one student of the file.
type previewRow struct {
	Field string
	// File is the name in the file, Name the one in the club.
	File, Name   string
	Known        bool
	Sets, Breaks int
}

const (
	fieldShown = "shown" // the students who would be new, as the page showed them
	fieldDo    = "do"    // doLook, or nothing for saving
	doLook     = "look"
)

func nameFieldOf(i int) string { return "name_" + strconv.Itoa(i+1) }

func (v *previewView) pagePath() string { return jobPagePathOf(v.Job.ID) }

// newStudents are the students who would be added.
func (v *previewView) newStudents() []string {
	var names []string
	for _, row := range v.Rows {
		if !row.Known {
			names = append(names, row.Name)
		}
	}
	return names
}

// canImport reports whether the file can be taken over as it now stands.
func (v *previewView) canImport() bool {
	return v.Form.IsValid() && len(v.Preview.Clashes) == 0 && v.Preview.New > 0
}

// renameStudents returns the sets with the names that their students have in the club.
func renameStudents(sets []drill.Set, names map[string]string) []drill.Set {
	all := slices.Clone(sets)
	for i := range all {
		if name, given := names[all[i].Student]; given {
			all[i].Student = name
		}
	}
	return all
}

// previewImport works out what the job's file would do under the names of the form.
func (p *Pages) previewImport(r *http.Request, j store.Job, form *page.Form) (*previewView, error) {
	actor := session.MustUser(r).Actor
	v := &previewView{Job: j, Form: form}
	load := func() ([]byte, error) { return p.store.GetJobFile(r.Context(), actor, j.ID) }
	return v, p.lookAtLog(r.Context(), load, func(sets []drill.Set) error {
		names := v.readNames(sets)
		if !form.IsValid() {
			return nil
		}
		preview, err := p.store.PreviewImport(r.Context(), actor, renameStudents(sets, names))
		if err != nil && !form.AddProblems(err) {
			return err
		}
		v.Preview = preview
		for i, student := range preview.Students {
			v.Rows[i].Known = student.Known
		}
		return nil
	})
}

// readNames reads what the file's students are called in the club: as the file
// has them, unless the form says otherwise.
func (v *previewView) readNames(sets []drill.Set) map[string]string {
	names, place, taken := map[string]string{}, map[string]int{}, map[string]string{}
	for _, set := range sets {
		i, seen := place[set.Student]
		if !seen {
			i = len(v.Rows)
			place[set.Student] = i
			row := previewRow{Field: nameFieldOf(i), File: set.Student, Name: set.Student}
			if typed := v.Form.Text(row.Field); v.Form.Has(row.Field) {
				row.Name = typed
			}
			v.Form.Values.Set(row.Field, row.Name)
			v.checkName(row, taken)
			names[row.File] = row.Name
			v.Rows = append(v.Rows, row)
		}
		v.Rows[i].Sets++
		v.Rows[i].Breaks += len(set.Breaks)
	}
	return names
}

func (v *previewView) checkName(row previewRow, taken map[string]string) {
	if says := drill.CheckName(row.Name); says != "" {
		v.Form.Reject(row.Field, row.File+": "+says)
		return
	}
	if other, twice := taken[row.Name]; twice {
		v.Form.Reject(row.Field, fmt.Sprintf("%s and %s of the file would both be %s: give them one name in the file first", other, row.File, row.Name))
	}
	taken[row.Name] = row.File
}

// changedNames are what the form calls the students, for the job to remember.
func (v *previewView) changedNames() map[string]string {
	names := map[string]string{}
	for _, row := range v.Rows {
		if row.Name != row.File {
			names[row.File] = row.Name
		}
	}
	return names
}

// encodeNewStudents writes down who would be new, so that nobody is added whom the page did
// not name.
func (v *previewView) encodeNewStudents() string {
	text, err := json.Marshal(v.newStudents())
	if err != nil {
		panic("exchange: names that do not marshal: " + err.Error())
	}
	return string(text)
}

func (p *Pages) renderPreview(w http.ResponseWriter, r *http.Request, status int, v *previewView) error {
	v.Form.Values.Set(fieldShown, v.encodeNewStudents())
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, previewPage(v))
}

func (v *previewView) headline() string {
	switch {
	case !v.Form.IsValid():
		return "Some names have to be looked at first."
	case len(v.Preview.Clashes) > 0:
		return "Not yet: " + say.CountFromOne(len(v.Preview.Clashes), "set of the file has", "sets of the file have") + " the name of another one here."
	case v.Preview.New == 0:
		return "Nothing to do: all " + say.CountFromOne(v.Preview.Duplicates, "set", "sets") + " of the file are here already, the very same."
	}
	says := say.Capitalize(say.CountFromOne(v.Preview.Breaks, "break", "breaks")) + " in " + say.CountFromOne(v.Preview.New, "set", "sets") + " will be taken over"
	if v.Preview.Duplicates > 0 {
		says += "; " + say.CountFromOne(v.Preview.Duplicates, "set is", "sets are") + " here already and left alone"
	}
	return says + "."
}

func (v *previewView) newStudentsWords() string {
	n := v.newStudents()
	if len(n) == 0 {
		return "All students of the file are known here."
	}
	code := ", each with a join code: "
	if len(n) == 1 {
		code = ", with a join code: "
	}
	return say.Capitalize(say.CountFromOne(len(n), "student is", "students are")) + " new and will be added to the club" + code + strings.Join(n, ", ") + "."
}

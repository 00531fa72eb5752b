package exchange

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// planView is what a file would do, before anything is saved.
type planView struct {
	Frame page.Frame
	Job   store.Job
	Form  *page.Form
	// Rows are the file's students, in its order.
	Rows []planRow
	Plan store.ImportPreview
}

// planRow is one student of the file.
type planRow struct {
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

func nameField(i int) string { return "name_" + strconv.Itoa(i+1) }

func (v *planView) path() string { return jobPath(v.Job.ID) }

// newcomers are the students who would be added.
func (v *planView) newcomers() []string {
	var names []string
	for _, row := range v.Rows {
		if !row.Known {
			names = append(names, row.Name)
		}
	}
	return names
}

// ready says whether the file can be taken over as it now stands.
func (v *planView) ready() bool {
	return v.Form.IsValid() && len(v.Plan.Clashes) == 0 && v.Plan.New > 0
}

// named gives the sets with the names that their students have in the club.
func named(sets []drill.Set, names map[string]string) []drill.Set {
	all := slices.Clone(sets)
	for i := range all {
		if name, told := names[all[i].Student]; told {
			all[i].Student = name
		}
	}
	return all
}

// plan works out what the job's file would do under the names of the form.
func (p *Pages) plan(r *http.Request, j store.Job, form *page.Form) (*planView, []drill.Set, error) {
	viewer := session.MustUser(r).Actor
	file, err := p.store.GetJobFile(r.Context(), viewer, j.ID)
	if err != nil {
		return nil, nil, err
	}
	sets, err := p.readLog(file)
	if err != nil {
		return nil, nil, err
	}
	v := &planView{Job: j, Form: form}
	names := v.readNames(sets)
	if !form.IsValid() {
		return v, sets, nil
	}
	v.Plan, err = p.store.PreviewImport(r.Context(), viewer, named(sets, names))
	if form.AddProblems(err) {
		return v, sets, nil
	}
	if err != nil {
		return nil, nil, err
	}
	for i, student := range v.Plan.Students {
		v.Rows[i].Known = student.Known
	}
	return v, sets, nil
}

// readNames reads what the file's students are called in the club: as the file
// has them, unless the form says otherwise.
func (v *planView) readNames(sets []drill.Set) map[string]string {
	names, place, taken := map[string]string{}, map[string]int{}, map[string]string{}
	for _, set := range sets {
		i, seen := place[set.Student]
		if !seen {
			i = len(v.Rows)
			place[set.Student] = i
			row := planRow{Field: nameField(i), File: set.Student, Name: set.Student}
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

func (v *planView) checkName(row planRow, taken map[string]string) {
	if says := drill.CheckName(row.Name); says != "" {
		v.Form.Reject(row.Field, row.File+": "+says)
		return
	}
	if other, twice := taken[row.Name]; twice {
		v.Form.Reject(row.Field, fmt.Sprintf("%s and %s of the file would both be %s: give them one name in the file first", other, row.File, row.Name))
	}
	taken[row.Name] = row.File
}

// names are what the form calls the students, for the job to remember.
func (v *planView) names() map[string]string {
	names := map[string]string{}
	for _, row := range v.Rows {
		if row.Name != row.File {
			names[row.File] = row.Name
		}
	}
	return names
}

// shown writes down who would be new, so that nobody is added whom the page did
// not name.
func (v *planView) shown() string {
	text, err := json.Marshal(v.newcomers())
	if err != nil {
		panic("exchange: names that do not marshal: " + err.Error())
	}
	return string(text)
}

func (p *Pages) renderPlan(w http.ResponseWriter, r *http.Request, status int, v *planView) error {
	v.Form.Values.Set(fieldShown, v.shown())
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, planPage(v))
}

func (v *planView) answer() string {
	switch {
	case !v.Form.IsValid():
		return "Some names have to be looked at first."
	case len(v.Plan.Clashes) > 0:
		return "Not yet: " + count(len(v.Plan.Clashes), "one set of the file has", "sets of the file have") + " the name of another one here."
	case v.Plan.New == 0:
		return "Nothing to do: all " + count(v.Plan.Duplicates, "one set", "sets") + " of the file are here already, the very same."
	}
	says := capital(count(v.Plan.Breaks, "one break", "breaks")) + " in " + count(v.Plan.New, "one set", "sets") + " will be taken over"
	if v.Plan.Duplicates > 0 {
		says += "; " + count(v.Plan.Duplicates, "one set is", "sets are") + " here already and left alone"
	}
	return says + "."
}

func (v *planView) newcomersWords() string {
	n := v.newcomers()
	if len(n) == 0 {
		return "All students of the file are known here."
	}
	code := ", each with a join code: "
	if len(n) == 1 {
		code = ", with a join code: "
	}
	return capital(count(len(n), "one student is", "students are")) + " new and will be added to the club" + code + strings.Join(n, ", ") + "."
}

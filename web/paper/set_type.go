package paper

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/shorthand"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/session"
)

// The fields of the page; a line's name ends in the number of its break.
const (
	fieldID    = "id"
	fieldTask  = "assignment"
	fieldSetup = "setup" // setupNow or setupOwn
	fieldDate  = "date"
	fieldTime  = "time"
	fieldEarly = "early"
	fieldShown = "shown"  // what the page showed: task, table and setup
	fieldDo    = "do"     // doLook, or nothing for saving
	fieldCheck = "check"  // the line that a script wants looked at
	fieldLines = "breaks" // what is wrong with the lines together
)

const (
	setupNow = "now" // what the student is to do now
	setupOwn = "own" // what the drill asked before anything was decided
	doLook   = "look"
)

func lineField(n int) string { return "line_" + strconv.Itoa(n) }

// askSet opens the page for a sheet.
func (p *Pages) askSet(w http.ResponseWriter, r *http.Request) error {
	form := page.NewForm(map[string]string{
		fieldID: store.NewID[store.SetID]().String(), fieldTask: r.URL.Query().Get(fieldTask),
		fieldTable: r.URL.Query().Get(fieldTable), fieldSetup: setupNow,
	})
	v, err := p.typeView(r, form)
	if err != nil {
		return err
	}
	return p.renderType(w, r, http.StatusOK, v)
}

// typeSet checks one line, shows another table, or keeps the set.
func (p *Pages) typeSet(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	v, err := p.typeView(r, form)
	if err != nil {
		return err
	}
	if n, err := strconv.Atoi(form.Text(fieldCheck)); err == nil && page.IsPartial(r) && n >= 1 && n <= len(v.Rows) {
		return page.Render(w, r, http.StatusOK, rowSays(v.Rows[n-1]))
	}
	if !v.Ready || form.Text(fieldDo) == doLook {
		return p.renderType(w, r, http.StatusOK, v)
	}
	typed, err := v.read(p.now())
	if err != nil {
		return err
	}
	if form.IsValid() {
		set, err := p.store.SavePaperSet(r.Context(), session.MustUser(r).Actor, typed, p.judge)
		if err == nil {
			p.sessions.SetFlash(w, r, component.Capitalize(count(len(set.Breaks), "one break", "breaks"))+" of "+v.Student.Name+" typed in, and the set closed.")
			return page.Redirect(w, r, "/sets/"+set.ID.String())
		}
		if !takeBreaks(form, err) {
			return err
		}
	}
	return p.renderType(w, r, http.StatusUnprocessableEntity, v)
}

// takeBreaks puts what the store objects to beside the lines.
func takeBreaks(form *page.Form, err error) bool {
	var problems drill.Problems
	if !errors.As(err, &problems) {
		return false
	}
	for _, one := range problems {
		field := one.Field
		if n, rest, ok := cutNumber(field); ok {
			field = lineField(n)
			one.Says = rest + ": " + one.Says
		}
		form.Reject(field, one.Says)
	}
	return true
}

// cutNumber splits "3.cue".
func cutNumber(field string) (n int, rest string, ok bool) {
	read, err := fmt.Sscanf(field, "%d.%s", &n, &rest)
	return n, rest, err == nil && read == 2
}

func (p *Pages) renderType(w http.ResponseWriter, r *http.Request, status int, v *typeView) error {
	v.remember()
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, typePage(v))
}

// rowOf reads one line as it stands, for its echo beside it.
func (v *typeView) rowOf(n int) typedRow {
	row := typedRow{Number: n, Field: lineField(n), Value: v.Form.RawText(lineField(n))}
	if v.Form.Text(row.Field) == "" {
		return row
	}
	b, err := shorthand.Read(row.Value, n, v.Next.Setup, v.Table.Kind)
	if err != nil {
		row.Wrong = firstOf(err)
		return row
	}
	row.read = b
	row.Says = component.BreakWords(b, v.Next.Setup, v.Table.Kind)
	return row
}

// firstOf is the first sentence of what is wrong with a line.
func firstOf(err error) string {
	var problems drill.Problems
	if errors.As(err, &problems) && len(problems) > 0 {
		return problems[0].Says
	}
	return err.Error()
}

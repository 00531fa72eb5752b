package paper

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/shorthand"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
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

func breakLineField(n int) string { return "line_" + strconv.Itoa(n) }

// showTypeForm opens the page for a sheet.
func (p *Pages) showTypeForm(w http.ResponseWriter, r *http.Request) error {
	form := page.NewFormIn(say.UnitsOf(r.Context()), map[string]string{
		fieldID: store.NewID[store.SetID]().String(), fieldTask: r.URL.Query().Get(fieldTask),
		fieldTable: r.URL.Query().Get(fieldTable), fieldSetup: setupNow,
	})
	v, err := p.loadTypedSet(r, form)
	if err != nil {
		return err
	}
	return p.renderTypePage(w, r, http.StatusOK, v)
}

// submitTypedSet checks one line, shows another table, or keeps the set.
func (p *Pages) submitTypedSet(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	v, err := p.loadTypedSet(r, form)
	if err != nil {
		return err
	}
	if n, err := strconv.Atoi(form.Text(fieldCheck)); err == nil && page.IsPartial(r) && n >= 1 && n <= len(v.Rows) {
		return page.Render(w, r, http.StatusOK, rowEcho(v.Rows[n-1]))
	}
	if !v.Ready || form.Text(fieldDo) == doLook {
		return p.renderTypePage(w, r, http.StatusOK, v)
	}
	typed, err := v.readSet(p.now())
	if err != nil {
		return err
	}
	if form.IsValid() {
		set, err := p.store.SavePaperSet(r.Context(), session.MustUser(r).Actor, typed, p.judge)
		if err == nil {
			p.sessions.SetFlash(w, r, say.Capitalize(say.CountFromOne(len(set.Breaks), "break", "breaks"))+" of "+v.Student.Name+" typed in, and the set closed.")
			return page.Redirect(w, r, route.SetPath(set.ID))
		}
		if !addBreakProblems(form, err) {
			return err
		}
	}
	return p.renderTypePage(w, r, http.StatusUnprocessableEntity, v)
}

// addBreakProblems puts what the store objects to beside the lines.
func addBreakProblems(form *page.Form, err error) bool {
	var problems drill.Problems
	if !errors.As(err, &problems) {
		return false
	}
	for _, one := range problems {
		field := one.Field
		if n, rest, ok := splitBreakNumber(field); ok {
			field = breakLineField(n)
			one.Message = rest + ": " + one.Message
		}
		form.Reject(field, one.Message)
	}
	return true
}

// splitBreakNumber splits "3.cue".
func splitBreakNumber(field string) (n int, rest string, ok bool) {
	read, err := fmt.Sscanf(field, "%d.%s", &n, &rest)
	return n, rest, err == nil && read == 2
}

func (p *Pages) renderTypePage(w http.ResponseWriter, r *http.Request, status int, v *typedSetView) error {
	v.rememberShown()
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, typedSetPage(v))
}

// newTypedRow reads one line as it stands, for its echo beside it.
func (v *typedSetView) newTypedRow(n int) typedBreakRow {
	row := typedBreakRow{Number: n, Field: breakLineField(n), Value: v.Form.RawText(breakLineField(n))}
	if v.Form.Text(row.Field) == "" {
		return row
	}
	b, err := shorthand.ReadBreak(row.Value, n, v.Next.Setup, v.Table.Kind, v.Form.Units)
	if err != nil {
		row.Wrong = firstProblem(err)
		return row
	}
	row.read = b
	row.Says = component.BreakWords(b, v.Next.Setup, v.Table.Kind)
	return row
}

// firstProblem is the first sentence of what is wrong with a line.
func firstProblem(err error) string {
	var problems drill.Problems
	if errors.As(err, &problems) && len(problems) > 0 {
		return problems[0].Message
	}
	return err.Error()
}

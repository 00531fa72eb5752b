package coach

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// The fields in which a coach puts a break right. An empty choice leaves that part
// as it was recorded.
const (
	fieldBreak      = "break" // the break's id
	fieldReallyWing = "wing"
	fieldReallyCue  = "cue" // "off-table", "stopped", or the pocket of a scratch
	fieldCueAcross  = "cue_across"
	fieldCueUp      = "cue_up"
	wingInCorner    = "made"
	wingStayedUp    = "stayed"
)

// revisionField names the field that carries the revision looked at.
func revisionField(b store.Break) string { return "revision-" + b.ID.String() }

// breakOptions are the breaks of a set, each with what became of its wing ball.
func (v recordedSetView) breakOptions() []page.Option {
	options := make([]page.Option, len(v.Set.Breaks))
	for i, b := range v.Set.Breaks {
		options[i] = page.Option{Value: b.ID.String(), Words: "Break " + strconv.Itoa(b.Number) + ": " + component.WingWords(b.Break, v.Set.Setup)}
	}
	return options
}

func reallyWingOptions() []page.Option {
	return []page.Option{{Value: "", Words: "As recorded"}, {Value: wingInCorner, Words: "In its corner"}, {Value: wingStayedUp, Words: "Stayed up"}}
}

func reallyCueOptions() []page.Option {
	options := []page.Option{{Value: "", Words: "As recorded"}, {Value: string(drill.OffTable), Words: "Off the table"}, {Value: string(drill.Stopped), Words: "Stopped on the table, at the place below"}}
	for _, pocket := range table.Pockets() {
		options = append(options, page.Option{Value: string(pocket), Words: "Scratch in " + pocket.Words()})
	}
	return options
}

// correctBreak puts a recorded break right, or strikes it.
func (p *Pages) correctBreak(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(set.Breaks, func(b store.Break) bool { return b.ID.String() == form.Text(fieldBreak) })
	if i < 0 {
		form.Reject(fieldBreak, "choose one of the breaks")
		return p.renderSet(w, r, http.StatusUnprocessableEntity, set, form)
	}
	b := set.Breaks[i]
	c := store.BreakCorrection{Set: set.ID, Break: b.ID, Reason: form.Text("reason")}
	c.Revision, _ = strconv.Atoi(form.Text(revisionField(b))) // none is no revision, and refused as stale
	words := "struck out"
	if form.Text("do") != "strike" {
		really := readReally(form, b.Break, set)
		c.As, words = &really, "put right"
	}
	form.AddProblems(c.CheckReason())
	if form.IsValid() {
		err := p.store.CorrectBreak(r.Context(), session.MustUser(r).Actor, c, setreview.JudgeCase)
		if err == nil {
			p.sessions.SetFlashWithUndo(w, r, "Break "+strconv.Itoa(b.Number)+" is "+words+". "+set.StudentName+" sees it, with your reason.", newPutBackUndo(set, b))
			return page.Redirect(w, r, route.SetPath(set.ID))
		}
		if !form.AddProblems(err) {
			return err
		}
	}
	return p.renderSet(w, r, http.StatusUnprocessableEntity, set, form)
}

// readReally is the break as the coach says that it was; what was not chosen is as
// recorded.
func readReally(f *page.Form, b drill.Break, set store.Set) drill.Break {
	wing := set.Setup.WingBall()
	switch f.Text(fieldReallyWing) {
	case wingInCorner:
		b = withoutBall(b, wing)
		b.Pocketed, b.WingMiss = append(b.Pocketed, drill.Pocketed{Ball: wing, Pocket: set.Setup.WingPocket()}), ""
	case wingStayedUp:
		b = withoutBall(b, wing)
		if !b.IsWatched() {
			b.WingMiss = ""
		}
	}
	end := f.Text(fieldReallyCue)
	if end != string(drill.Stopped) && (f.Text(fieldCueAcross) != "" || f.Text(fieldCueUp) != "") {
		f.Reject(fieldReallyCue, "a place is written below: choose “Stopped on the table”, or leave the place empty")
	}
	switch end {
	case "":
	case string(drill.OffTable):
		b.Cue, b.CuePath = drill.CueEnd{How: drill.OffTable}, ""
	case string(drill.Stopped):
		b.Cue, b.CuePath = drill.CueEnd{How: drill.Stopped, Place: readReallyPlace(f, set.Table.Kind)}, ""
	default:
		b.Cue, b.CuePath = drill.CueEnd{How: drill.Scratched, Scratch: table.Pocket(end)}, ""
	}
	if f.Text(fieldReallyWing) == "" && f.Text(fieldReallyCue) == "" {
		f.Reject(fieldReallyWing, "choose what was otherwise, or strike the break out")
	}
	return b
}

// readReallyPlace reads where the cue ball stopped, which has to be on the cloth.
func readReallyPlace(f *page.Form, k table.Kind) table.Place {
	number := func(v table.Inches) string { return f.Units.Number(say.Place, float64(v)) }
	half := number(k.Width() / 2)
	across := fmt.Sprintf("write the %s from the long string: to the left from −%s, to the right up to %s", f.Units.Long(say.Place), half, half)
	up := fmt.Sprintf("write the %s from the head rail, up to %s", f.Units.Long(say.Place), number(k.Length()))
	at := table.Place{
		X: table.Inches(f.Measure(fieldCueAcross, say.Place, across)),
		Y: table.Inches(f.Measure(fieldCueUp, say.Place, up)),
	}
	if f.ErrorFor(fieldCueAcross) == "" && !k.OnCloth(table.Place{X: at.X}) {
		f.Reject(fieldCueAcross, across)
	}
	if f.ErrorFor(fieldCueUp) == "" && !k.OnCloth(table.Place{Y: at.Y}) {
		f.Reject(fieldCueUp, up)
	}
	return k.SettleBall(at)
}

// withoutBall is the break as if nothing was said of a ball.
func withoutBall(b drill.Break, ball rack.Ball) drill.Break {
	b.Pocketed = slices.DeleteFunc(slices.Clone(b.Pocketed), func(p drill.Pocketed) bool { return p.Ball == ball })
	b.Off = slices.DeleteFunc(slices.Clone(b.Off), func(off rack.Ball) bool { return off == ball })
	b.Rest = slices.DeleteFunc(slices.Clone(b.Rest), func(r drill.RestingBall) bool { return r.Ball == ball })
	return b
}

// correctionOpen reports whether a correction was refused, so that its form is open.
func (v recordedSetView) correctionOpen() bool { return v.Form.Has(fieldBreak) }

// correctionProblem is what the break itself refuses, where no field has it.
func (v recordedSetView) correctionProblem() string {
	for _, problem := range v.Form.Problems {
		switch problem.Field {
		case fieldBreak, fieldReallyWing, fieldReallyCue, fieldCueAcross, fieldCueUp, "reason", "body":
		default:
			return say.Sentence(problem.Message)
		}
	}
	return ""
}

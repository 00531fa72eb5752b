package coach

import (
	"fmt"
	"slices"
	"time"

	"breakwright/internal/progress"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/route"
)

// deskLine is something to look at: who, why, and what can be done in place.
type deskLine struct {
	// ID is the line's id on the page.
	ID       string
	Students []studentLink
	When     string
	Says     string
	// Open is the page that shows it.
	Open, OpenWords string
	// Change is the page on which the coach prescribes a change, "" for none.
	Change  string
	Dismiss *dismissForm
	Issue   *issueForm
}

// studentLink is a student of a line.
type studentLink struct {
	ID   store.PersonID
	Name string
}

// separatorAfter is what stands after the i-th name.
func (l deskLine) separatorAfter(i int) string {
	switch {
	case i+1 == len(l.Students):
		return " "
	case i+2 == len(l.Students):
		return " and "
	}
	return ", "
}

// dismissForm takes the line off the desk.
type dismissForm struct{ Reason, About string }

// issueForm issues a break card.
type issueForm struct{ Path, Card, Set string }

// deskHeadings are those of the groups whose lines can be noted.
var deskHeadings = map[store.DismissReason]string{
	store.DismissHurts:      "It hurts",
	store.DismissOffTable:   "Balls off the table",
	store.DismissStuck:      "Stuck",
	store.DismissUnanswered: "For you to look at",
	store.DismissSlump:      "Slumping",
	store.DismissCard:       "Ready for a break card",
	store.DismissIdle:       "Past the due day",
}

func oneStudent(id store.PersonID, name string) []studentLink {
	return []studentLink{{id, name}}
}

// hurtLines are students who said after a set that it hurts.
func hurtLines(d store.Desk, zone *time.Location) lineGroup {
	g := lineGroup{Key: "hurts", Heading: deskHeadings[store.DismissHurts]}
	for _, h := range d.Hurts {
		g.Lines = append(g.Lines, deskLine{
			ID: "hurts-" + h.Set.String(), Students: oneStudent(h.Student, h.Name), When: formatTime(h.At, zone),
			Says: hurtWords(h),
			Open: route.SetPath(h.Set), OpenWords: "See the set",
			Dismiss: &dismissForm{string(store.DismissHurts), h.Set.String()},
		})
	}
	return g
}

// hurtWords say whether the student has stopped, as the page asked them to.
func hurtWords(h store.HurtStudent) string {
	const asked = "Said after a set that it hurts. The page asked them to stop, and to have it looked at by somebody qualified. "
	if h.BegunSince {
		return asked + "They have begun another set since: talk to them now."
	}
	return asked + "Talk to them before they break again."
}

func offTableLines(d store.Desk, zone *time.Location) lineGroup {
	g := lineGroup{Key: "off", Heading: deskHeadings[store.DismissOffTable]}
	for _, o := range d.Off {
		g.Lines = append(g.Lines, deskLine{
			ID: "off-" + o.Set.String(), Students: oneStudent(o.Student, o.Name), When: formatTime(o.Started, zone),
			Says: "A ball left the table in " + say.OfTotal(o.Breaks, o.Of) + " breaks. Look at speed and tip height before the next set.",
			Open: route.SetPath(o.Set), OpenWords: "See the set",
			Dismiss: &dismissForm{string(store.DismissOffTable), o.Set.String()},
		})
	}
	return g
}

// stuckLines are students whose latest two changes both did not help.
func stuckLines(d store.Desk, zone *time.Location, u say.Units) lineGroup {
	g := lineGroup{Key: "stuck", Heading: deskHeadings[store.DismissStuck]}
	for _, pair := range d.Tried {
		if pair.Before == nil || pair.Last.State == store.Helped || pair.Before.State == store.Helped ||
			d.Dismissed[store.DismissedLine{Student: pair.Last.Student, Reason: store.DismissStuck, About: pair.Last.ID.String()}] {
			continue
		}
		g.Lines = append(g.Lines, deskLine{
			ID: "stuck-" + pair.Last.ID.String(), Students: oneStudent(pair.Last.Student, pair.Name),
			Says: fmt.Sprintf("The last two changes that were tried to the end did not help: %s; then %s. Watch a few breaks yourself before a third.",
				triedWords(*pair.Before, zone, u), triedWords(pair.Last, zone, u)),
			Change: route.StudentPath(pair.Last.Student) + "/change",
			Open:   route.StudentPath(pair.Last.Student) + "#way", OpenWords: "See the history",
			Dismiss: &dismissForm{string(store.DismissStuck), pair.Last.ID.String()},
		})
	}
	return g
}

// triedWords says what was tried, since when, and what became of it.
func triedWords(c store.TriedChange, zone *time.Location, u say.Units) string {
	return fmt.Sprintf("on %s %s, %s", say.DayOfYear(c.Decided.In(zone)), component.ArrowWords(c.Before, c.After, c.Kind, u), component.OutcomeWords(c.State))
}

// unansweredLines are students whose breaks leave the rules without an answer: too
// early for them, or nothing left to change. Who is stuck has a line already.
func unansweredLines(d store.Desk, stuck lineGroup, coach say.Reader) (lineGroup, error) {
	g := lineGroup{Key: "early", Heading: deskHeadings[store.DismissUnanswered]}
	for _, a := range d.Unanswered {
		if stuck.isAbout(a.Student) || d.Dismissed[store.DismissedLine{Student: a.Student, Reason: store.DismissUnanswered, About: a.Set.String()}] {
			continue
		}
		advised, err := setreview.ReadAdvice(&a.Advice)
		if err != nil {
			return lineGroup{}, err
		}
		g.Lines = append(g.Lines, deskLine{
			ID: "asked-" + a.Set.String(), Students: oneStudent(a.Student, a.Name),
			Says:   "On " + a.TableLabel + ": " + advised.Statement.Text(coach),
			Change: route.StudentPath(a.Student) + "/change",
			Open:   route.SetPath(a.Set), OpenWords: "See the set",
			Dismiss: &dismissForm{string(store.DismissUnanswered), a.Set.String()},
		})
	}
	return g, nil
}

// isAbout reports whether a line is about a student.
func (g lineGroup) isAbout(student store.PersonID) bool {
	return slices.ContainsFunc(g.Lines, func(line deskLine) bool {
		return slices.ContainsFunc(line.Students, func(who studentLink) bool { return who.ID == student })
	})
}

// slumpLines are students whose chart signals a lasting drop, on the kind of
// table they broke on last.
func slumpLines(d store.Desk) lineGroup {
	g := lineGroup{Key: "slump", Heading: deskHeadings[store.DismissSlump]}
	for _, active := range d.Active {
		sets, chart, ok := component.ChartRecentSets(active.Sets)
		if !ok || chart.CurrentTrend() != progress.Falling {
			continue
		}
		since := chart.TrendPoints()
		began := sets[since[0].Set].ID.String()
		if d.Dismissed[store.DismissedLine{Student: active.Student, Reason: store.DismissSlump, About: began}] {
			continue
		}
		n := progress.SumPoints(since)
		g.Lines = append(g.Lines, deskLine{
			ID: "slump-" + active.Student.String(), Students: oneStudent(active.Student, active.Name),
			Says: fmt.Sprintf("The wing ball has dropped for %s: %s, usual before %s. A single bad day does not do that.",
				say.Count(len(since), "set", "sets"), say.OfTotal(n.Made, n.Tried), say.OfTotal(chart.Base.Made, chart.Base.Tried)),
			Open: route.StudentPath(active.Student) + "#chart", OpenWords: "See the chart",
			Dismiss: &dismissForm{string(store.DismissSlump), began},
		})
	}
	return g
}

func breakCardLines(d store.Desk) lineGroup {
	g := lineGroup{Key: "card", Heading: deskHeadings[store.DismissCard]}
	for _, c := range d.Cards {
		x, student := c.Stint, route.StudentPath(c.Stint.Student)
		g.Lines = append(g.Lines, deskLine{
			ID: "card-" + x.ID.String(), Students: oneStudent(x.Student, c.Name),
			Says: fmt.Sprintf("On %s the setup can be left as it is: the wing ball in %s, the cue ball in the window in %s.",
				x.Table.Label(), say.OfWatched(c.WingMade, c.Watched), say.OfTotal(c.InWindow, c.Breaks)),
			Open: student, OpenWords: "See the student",
			Dismiss: &dismissForm{string(store.DismissCard), x.ID.String()},
			Issue:   &issueForm{student + "/cards", store.NewID[store.CardID]().String(), x.LastSet.String()},
		})
	}
	return g
}

// overdueLines are one line for each assignment that is overdue.
func overdueLines(d store.Desk) lineGroup {
	g := lineGroup{Key: "late", Heading: deskHeadings[store.DismissIdle]}
	for i, idle := range d.Idle {
		if i == 0 || d.Idle[i-1].Assignment != idle.Assignment {
			g.Lines = append(g.Lines, deskLine{
				ID:   "idle-" + idle.Assignment.String(),
				Open: route.AssignmentPath(idle.Assignment), OpenWords: "See the assignment",
				Says:    fmt.Sprintf("“%s” is not done; it was due on %s.", idle.DrillName, say.Weekday(idle.Due)),
				Dismiss: &dismissForm{string(store.DismissIdle), idle.Assignment.String()},
			})
		}
		line := &g.Lines[len(g.Lines)-1]
		line.Students = append(line.Students, studentLink{idle.Student, idle.Name})
	}
	return g
}

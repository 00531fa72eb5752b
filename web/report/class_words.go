package report

import (
	"fmt"
	"strings"

	"breakwright/internal/coaching"
	course "breakwright/internal/progress"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/picture"
	"breakwright/web/progress"
)

// classHeadline is the first line: how the class stands as one.
func classHeadline(rows []progress.ClassRow, kinds []string) string {
	says := progress.ClassHeadline(rows)
	others := 0
	for _, row := range rows {
		if row.Other != "" {
			others++
		}
	}
	if others > 0 {
		says += " That is on " + kinds[0] + "; " + say.Count(others, "student breaks", "students break") + " on other tables."
	}
	return says
}

// fewBreaks is how few breaks under one setup say nothing yet: at twenty the range of
// a rate near a half is still from three to seven of ten.
const fewBreaks = 20

// doneInPeriodWords says how much was done in the period.
func doneInPeriodWords(students []store.ReportedStudent) string {
	broke, sets, breaks := 0, 0, 0
	for _, one := range students {
		if one.Sets > 0 {
			broke, sets, breaks = broke+1, sets+one.Sets, breaks+one.Breaks
		}
	}
	switch {
	case len(students) == 0:
		return "No students yet."
	case broke == 0:
		return say.Count(len(students), "student", "students") + "; no set closed in this time."
	}
	return fmt.Sprintf("%s closed a set in this time: %s, %s.", say.CountOf(broke, len(students), "student", "students"), say.Count(sets, "set", "sets"), say.Count(breaks, "break", "breaks"))
}

// tryingWords says which changes are in trial: "cue-ball place 3, tip 1".
func tryingWords(students []store.ReportedStudent) string {
	counts, all := map[coaching.Part]int{}, 0
	for _, one := range students {
		if one.InTrial != nil {
			for _, part := range coaching.ChangedParts(one.InTrial.Before, one.InTrial.After) {
				counts[part]++
			}
			all++
		}
	}
	if all == 0 {
		return ""
	}
	var parts []string
	numbered := func(words string, n int) string {
		if n == all {
			return words
		}
		return fmt.Sprintf("%s (%d)", words, n)
	}
	for _, part := range []struct {
		part  coaching.Part
		words string
	}{
		{coaching.Place, "the cue ball’s place"}, {coaching.Behind, "its distance behind the string"}, {coaching.Contact, "the contact"},
		{coaching.Tip, "the tip"}, {coaching.Spin, "side spin"}, {coaching.Speed, "the speed"}, {coaching.Rack, "the rack order"},
	} {
		if n := counts[part.part]; n > 0 {
			parts = append(parts, numbered(part.words, n))
		}
	}
	says := say.Count(all, "student is trying one change", "students are trying one change each")
	if len(parts) > 0 {
		says += ": " + strings.Join(parts, ", ")
	}
	return says + "."
}

// rateRangeWords is where the true rate may lie.
func rateRangeWords(r picture.RateView) string {
	return fmt.Sprintf("%.0f to %.0f %%", 100*r.Low, 100*r.High)
}

// courseGroups are the students by what their sets say one after another.
type courseGroups struct {
	falling, rising []string
	steady, short   int
}

// addStudent sorts a student in and says the course in few words; "" where there is none
// to say.
func (c *courseGroups) addStudent(one store.ReportedStudent) string {
	if one.Stint == nil {
		return ""
	}
	_, chart, charted := component.ChartRecentSets(one.Recent)
	if !charted {
		c.short++
		return ""
	}
	switch chart.CurrentTrend() {
	case course.Falling:
		c.falling = append(c.falling, one.Name)
		return "below usual"
	case course.Rising:
		c.rising = append(c.rising, one.Name)
		return "above usual"
	}
	c.steady++
	return "as usual"
}

// allowedConclusions are the conclusions that the counts allow.
func allowedConclusions(rows []progress.ClassRow, c courseGroups) []string {
	var says []string
	if len(c.rising) > 0 {
		says = append(says, "Above usual, and hardly by luck: "+strings.Join(c.rising, ", ")+".")
	}
	if len(c.falling) > 0 {
		says = append(says, "Below usual, and hardly by luck: "+strings.Join(c.falling, ", ")+". Something has changed; it is worth a look at the table.")
	}
	if c.steady > 0 {
		says = append(says, say.Count(c.steady, "student breaks", "students break")+" as usual: single sets go up and down by luck.")
	}
	if c.short > 0 {
		says = append(says, fmt.Sprintf("%s too few sets to tell a slump from a bad day: that takes %d on one kind of table.",
			say.Count(c.short, "student has", "students have"), course.NeededSets))
	}
	if areIndistinguishable(rows) {
		says = append(says, "The students’ counts differ no more than luck alone makes them. To put the students in an order would be to put luck in an order.")
	}
	return says
}

// areIndistinguishable reports whether those on the table most broke on cannot be told apart.
func areIndistinguishable(rows []progress.ClassRow) bool {
	n := 0
	for _, row := range rows {
		if row.Stint() == nil || row.Standing().Group > 0 {
			continue
		}
		if row.Standing().Weight > 0 {
			return false
		}
		n++
	}
	return n > 1
}

// forbiddenConclusions are the conclusions that they do not allow.
func forbiddenConclusions(rows []progress.ClassRow, kinds []string) []string {
	broke, short := 0, 0
	for _, row := range rows {
		if x := row.Stint(); x != nil {
			broke++
			if x.Breaks < fewBreaks {
				short++
			}
		}
	}
	if broke == 0 {
		return nil
	}
	says := []string{"Ten breaks tell little: 4 of 10 and 6 of 10 are mostly the same thing. The light band is where the true rate may lie."}
	if short > 0 {
		says = append(says, fmt.Sprintf("%s fewer than %d breaks on the present setup: nothing can be read into these rates yet.",
			say.CountOf(short, broke, "student", "students")+hasOrHave(short), fewBreaks))
	}
	says = append(says, "A rate belongs to a setup on a table. It is no mark, and no measure of talent: whoever has just changed something starts counting anew.")
	if len(kinds) > 1 {
		says = append(says, "Most broke on "+kinds[0]+". On other tables ("+strings.Join(kinds[1:], "; ")+") the same rate means something else: those rows are marked, and compared only with each other.")
	}
	return says
}

func hasOrHave(n int) string {
	if n == 1 {
		return " has"
	}
	return " have"
}

// hasBars reports whether there is a bar to explain.
func (v classReportView) hasBars() bool { return len(v.Forbidden) > 0 }

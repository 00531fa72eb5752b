package rehearsal

import (
	"fmt"
	"io"
	"strings"
)

// WriteText writes the report as a page of Markdown that reads well as it is.
func (r Report) WriteText(to io.Writer) error {
	var page strings.Builder
	page.WriteString(r.writeOpening())
	page.WriteString("\n## The first change\n\n" + firstWords + "\n")
	writeTable(&page, r.Rows, []textColumn[Row]{
		{"fault", Row.rowLabel},
		{"right", func(w Row) string { return w.Right.formatShare() }},
		{"right, or as good", func(w Row) string { return w.RightOrInstead.formatShare() }},
		{"after sets", func(w Row) string { return numberOrDash(w.FirstAfter) }},
		{"first changes", formatFirstChanges},
	})
	page.WriteString("\n## How well they came to break\n\n" + goodWords + "\n")
	writeTable(&page, r.Rows, []textColumn[Row]{
		{"fault", Row.rowLabel},
		{"start", func(w Row) string { return w.Start.formatRates() }},
		{"best", func(w Row) string { return w.Best.formatRates() }},
		{"end, advised", func(w Row) string { return w.End.formatRates() }},
		{"never changing", func(w Row) string { return w.Never.formatMean() }},
		{"an inch a set", func(w Row) string { return w.Inchwise.formatMean() }},
		{"advised", func(w Row) string { return w.Good.formatMean() }},
		{"told the secret", func(w Row) string { return w.Informed.formatMean() }},
		{"gained by the end", func(w Row) string { return w.Gain.formatMean() }},
		{"ends near best", func(w Row) string { return w.Close.formatShare() }},
		{"half near best after", func(w Row) string { return numberOrDash(float64(w.CloseAfter)) }},
	})
	page.WriteString("\n## False alarms and harm\n\n" + fmt.Sprintf(harmWords, r.Margin) + "\n")
	writeTable(&page, r.Rows, []textColumn[Row]{
		{"fault", Row.rowLabel},
		{"told to change in three sets", func(w Row) string { return w.Early.formatShare() }},
		{"ends worse, advised", func(w Row) string { return w.Worse.formatShare() }},
		{"ends worse, an inch a set", func(w Row) string { return w.WorseInchwise.formatShare() }},
		{"left alone too soon", func(w Row) string { return w.LeftAlone.formatShare() }},
	})
	if _, err := io.WriteString(to, page.String()); err != nil {
		return fmt.Errorf("write rehearsal report: %w", err)
	}
	return nil
}

const firstWords = `Right: the first change was of the fault's own variable, in the right direction
(for a student without a fault: there was none). As good: the place instead of
the contact or the contact instead of the place, in the direction that does the
same; for a soft break that is computed, more draw. After sets: the median number
of sets before the first change, of those who were told to change.
`

const goodWords = `A break is good when the wing ball drops in its corner, the cue ball stops in the
window and no ball leaves the table. Start, best and end: true shares of wing
ball / cue ball in the window / good breaks, under the first setup, under one that
takes the fault away, and under the one the adviser leaves them with. Then good
breaks of ten, on average over all sets, by true rates: never changing; moving the
cue ball an inch after each set under target; advised; and told the secret after
the first set. Gained: good breaks of ten under the last setup less those under
the first. Near best: at least nine tenths of the best share of good breaks.
`

const harmWords = `Worse: the true share of good breaks under the last setup is more than %.2f below
that of the first one. Left alone too soon: told at least once to keep a setup
that gives less than three quarters of the best share of good breaks.
`

// textColumn is a column of a table of rows.
type textColumn[R any] struct {
	title string
	text  func(R) string
}

func writeTable[R any](page *strings.Builder, rows []R, columns []textColumn[R]) {
	lines := make([][]string, len(rows)+2)
	for _, c := range columns {
		width := len([]rune(c.title))
		for _, row := range rows {
			width = max(width, len([]rune(c.text(row))))
		}
		lines[0] = append(lines[0], fmt.Sprintf("%-*s", width, c.title))
		lines[1] = append(lines[1], strings.Repeat("-", width))
		for i, row := range rows {
			lines[i+2] = append(lines[i+2], fmt.Sprintf("%-*s", width, c.text(row)))
		}
	}
	for _, cells := range lines {
		page.WriteString("| " + strings.Join(cells, " | ") + " |\n")
	}
}

func (w Row) rowLabel() string {
	if w.Part == "" {
		return string(w.Fault)
	}
	return string(w.Fault) + ", " + w.Part
}

func (s Share) formatShare() string {
	if s.Of == 0 {
		return "–"
	}
	return fmt.Sprintf("%d of %d (%.0f–%.0f %%)", s.Count, s.Of, 100*s.Low, 100*s.High)
}

func (m Mean) formatMean() string { return fmt.Sprintf("%.2f (%.2f–%.2f)", m.Mean, m.Low, m.High) }

func (r Rates) formatRates() string {
	return fmt.Sprintf("%.2f / %.2f / %.2f", r.Wing, r.Window, r.Good)
}

func formatFirstChanges(w Row) string {
	parts := make([]string, len(w.Firsts))
	for i, f := range w.Firsts {
		parts[i] = fmt.Sprintf("%s %d", f.Variable, f.Students)
	}
	return strings.Join(parts, ", ")
}

func numberOrDash(v float64) string {
	if v == 0 {
		return "–"
	}
	return fmt.Sprintf("%g", v)
}

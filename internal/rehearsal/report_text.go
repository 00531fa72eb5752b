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
	rows := append([]Row{r.All}, r.Rows...)
	page.WriteString("\n## The first change\n\n" + fmt.Sprintf(firstWords, r.worthwhileWords(), 100*goodAsBest) + "\n")
	writeTable(&page, rows, []textColumn[Row]{
		{"fault", Row.rowLabel},
		{"can be helped", func(w Row) string { return w.Helpable.formatCount() }},
		{"told", func(w Row) string { return w.Changed.formatCount() }},
		{"right, of those told", func(w Row) string { return w.RightOfChanged.formatShare() }},
		{"right, of those who can be helped", func(w Row) string { return w.RightOfHelpable.formatShare() }},
		{"after sets", func(w Row) string { return numberOrDash(w.FirstAfter) }},
		{"first changes", formatFirstChanges},
	})
	page.WriteString("\n## What it gained\n\n" + gainWords + "\n")
	writeTable(&page, rows, []textColumn[Row]{
		{"fault", Row.rowLabel},
		{"start", func(w Row) string { return formatTenBreaks(w.Start) }},
		{"best", func(w Row) string { return formatTenBreaks(w.Best) }},
		{"end", func(w Row) string { return formatTenBreaks(w.End) }},
		{"gained, of what one change could", func(w Row) string { return w.formatGainShare() }},
		{"never changing", func(w Row) string { return w.Never.formatMean() }},
		{"an inch a set", func(w Row) string { return w.Inchwise.formatMean() }},
		{"advised", func(w Row) string { return w.Advised.formatMean() }},
		{"told the secret", func(w Row) string { return w.Informed.formatMean() }},
		{"ends near best", func(w Row) string { return w.Close.formatShare() }},
		{"half near best after", func(w Row) string { return numberOrDash(float64(w.CloseAfter)) }},
	})
	page.WriteString("\n## False alarms and harm\n\n" + fmt.Sprintf(harmWords, r.Margin) + "\n")
	writeTable(&page, rows, []textColumn[Row]{
		{"fault", Row.rowLabel},
		{"told to change in three sets", func(w Row) string { return w.Early.formatShare() }},
		{"a first change that does not help", func(w Row) string { return w.Useless.formatShare() }},
		{"ends worse, advised", func(w Row) string { return w.Worse.formatShare() }},
		{"ends worse, an inch a set", func(w Row) string { return w.WorseInchwise.formatShare() }},
		{"to and fro", func(w Row) string { return w.SeeSaws.formatShare() }},
		{"left alone too soon", func(w Row) string { return w.LeftAlone.formatShare() }},
	})
	if _, err := io.WriteString(to, page.String()); err != nil {
		return fmt.Errorf("write rehearsal report: %w", err)
	}
	return nil
}

func (r Report) worthwhileWords() string {
	if r.Model == PhysicsModel {
		return fmt.Sprintf("makes ten breaks worth at least %.1f more", 10*r.Worthwhile)
	}
	return fmt.Sprintf("makes at least %.1f more breaks of ten good", 10*r.Worthwhile)
}

const firstWords = `Who can be helped: one change %s. Right: the first
change was of the fault's own part, the right way, and did no harm, or it brings at
least %.0f %% of what the best single change does; of a student who cannot be helped:
it helps a little all the same. After sets: the median number of sets before the
first change, of those who were told to change.
`

const gainWords = `The value of ten breaks: start, best by one change, and under the setup that comes
after the last set, by true rates; on average over all sets when nothing is ever
changed, when the cue ball is moved an inch after each set under target, as advised,
and when the best single change is told after the first set. Near best: nine tenths
of what the best single change brings.
`

const harmWords = `Does not help: it makes a break worth less than a twentieth more. Worse: a break
under the last setup is worth less than under the first by more than %.2f. To and
fro: one part was moved against its last move twice. Left alone too soon: told at
least once to keep a setup when one change could still help.
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

func (s Share) formatCount() string { return fmt.Sprintf("%d of %d", s.Count, s.Of) }

func formatTenBreaks(value float64) string { return fmt.Sprintf("%.2f", 10*value) }

func (w Row) formatGainShare() string {
	if w.Helpable.Count == 0 {
		return "–"
	}
	return fmt.Sprintf("%.0f %%", 100*w.GainShare)
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

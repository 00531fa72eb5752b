package rehearsal

import (
	"fmt"
	"io"
	"strings"
)

// WriteText writes the comparison as a part of a page of Markdown.
func (a Ablation) WriteText(to io.Writer) error {
	var page strings.Builder
	title := "# What each rule is worth"
	if a.Model == OfPhysics {
		title += ", on computed breaks"
	}
	r := Report{Model: a.Model, Without: a.Without, Students: a.Students, Sets: a.Sets, Seed: a.Seed}
	fmt.Fprintf(&page, title+whoWords, a.Students, a.Sets, a.Breaks, a.Rules, a.Seed, r.command(" --ablate"), withoutWords(r))
	page.WriteString(worthWords + "\n")
	name := func(w Worth) string {
		if w.Usual {
			return string(w.Rule)
		}
		return string(w.Rule) + " (off as it comes)"
	}
	writeTable(&page, a.Rows, []column[Worth]{
		{"rule", name},
		{"lessons it changes", func(w Worth) string { return w.Touched.text() }},
		{"good breaks", func(w Worth) string { return w.Good.signed() }},
		{"wing ball", func(w Worth) string { return w.Wing.signed() }},
		{"in the window", func(w Worth) string { return w.Window.signed() }},
		{"scratches", func(w Worth) string { return w.Scratch.signed() }},
		{"balls off", func(w Worth) string { return w.Off.signed() }},
		{"good at the end", func(w Worth) string { return w.End.signed() }},
		{"first change right, with / without", func(w Worth) string { return both(w.RightWith, w.RightWithout) }},
		{"false alarms, with / without", func(w Worth) string { return both(w.EarlyWith, w.EarlyWithout) }},
	})
	if _, err := io.WriteString(to, page.String()); err != nil {
		return fmt.Errorf("write what each rule is worth: %w", err)
	}
	return nil
}

const worthWords = `Every student is taught with the rule and without it, with the same luck while both
say the same. Of ten breaks, on average over the lesson and all faults: how many
more with the rule than without it are good, make the wing ball, stop in the
window, scratch, and send a ball off the table; then how many more are good under
the last setup. Brackets are 95 % normal intervals over students; where both ends
have one sign the rule has earned its place, or lost it. Right, or as good: of the
students with a fault. False alarms: of those without one, told to change in the
first three sets.
`

func (m Mean) signed() string {
	if m == (Mean{}) {
		return "0"
	}
	return fmt.Sprintf("%+.2f (%+.2f to %+.2f)", m.Mean, m.Low, m.High)
}

func both(with, without Share) string {
	if with.Of == 0 {
		return "–"
	}
	return fmt.Sprintf("%d / %d of %d", with.Count, without.Count, with.Of)
}

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
	if a.Model == PhysicsModel {
		title += ", on computed breaks"
	}
	r := Report{Model: a.Model, Without: a.Without, Students: a.Students, Sets: a.Sets, Seed: a.Seed}
	fmt.Fprintf(&page, title+whoWords, a.Students, a.Sets, a.Breaks, a.Rules, a.Seed, r.commandLine(" --ablate"), r.exceptionWords())
	page.WriteString(worthWords + "\n")
	name := func(w RuleWorth) string {
		if w.Usual {
			return string(w.Rule)
		}
		return string(w.Rule) + " (off as it comes)"
	}
	writeTable(&page, a.Rows, []textColumn[RuleWorth]{
		{"rule", name},
		{"trainings it changes", func(w RuleWorth) string { return w.Touched.formatShare() }},
		{"value of ten breaks", func(w RuleWorth) string { return w.Value.formatSigned() }},
		{"wing ball", func(w RuleWorth) string { return w.Wing.formatSigned() }},
		{"in the window", func(w RuleWorth) string { return w.Window.formatSigned() }},
		{"scratches", func(w RuleWorth) string { return w.Scratch.formatSigned() }},
		{"balls off", func(w RuleWorth) string { return w.Off.formatSigned() }},
		{"value at the end", func(w RuleWorth) string { return w.End.formatSigned() }},
		{"first change right, with / without", func(w RuleWorth) string { return formatBoth(w.RightWith, w.RightWithout) }},
		{"false alarms, with / without", func(w RuleWorth) string { return formatBoth(w.EarlyWith, w.EarlyWithout) }},
	})
	if _, err := io.WriteString(to, page.String()); err != nil {
		return fmt.Errorf("write what each rule is worth: %w", err)
	}
	return nil
}

const worthWords = `Every student is taught with the rule and without it, with the same luck while both
say the same. Of ten breaks, on average over the training and all faults: how many
more with the rule than without it they are worth (of a curve student: are good),
make the wing ball, stop in the window, scratch, and send a ball off the table;
then what they are worth more under the last setup. Brackets are 95 % normal intervals over students; where both ends
have one sign the rule has earned its place, or lost it. Right: the fault's own part, the right way, of the
students with a fault. False alarms: of those without one, told to change in the
first three sets.
`

func (m Mean) formatSigned() string {
	if m == (Mean{}) {
		return "0"
	}
	return fmt.Sprintf("%+.2f (%+.2f to %+.2f)", m.Mean, m.Low, m.High)
}

func formatBoth(with, without Share) string {
	if with.Of == 0 {
		return "–"
	}
	return fmt.Sprintf("%d / %d of %d", with.Count, without.Count, with.Of)
}

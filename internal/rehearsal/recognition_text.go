package rehearsal

import (
	"cmp"
	"fmt"
	"io"
	"strings"
)

// WriteText writes the comparison as a part of a page of Markdown.
func (t Recognition) WriteText(to io.Writer) error {
	var page strings.Builder
	fmt.Fprintf(&page, recognitionWords+"\n", t.Hands, t.commandLine())
	writeTable(&page, t.Causes, []textColumn[CauseRecognition]{
		{"amiss", func(c CauseRecognition) string { return string(c.Cause) }},
		{"observer, ten breaks", func(c CauseRecognition) string { return c.ObserverAfter10.formatShare() }},
		{"ours", func(c CauseRecognition) string { return c.OursAfter10.formatShare() }},
		{"observer, twenty", func(c CauseRecognition) string { return c.ObserverAfter20.formatShare() }},
		{"ours", func(c CauseRecognition) string { return c.OursAfter20.formatShare() }},
		{"the observer else takes it for", func(c CauseRecognition) string { return cmp.Or(string(c.TakenFor), "–") }},
	})
	if _, err := io.WriteString(to, page.String()); err != nil {
		return fmt.Errorf("write what can be told apart: %w", err)
	}
	return nil
}

func (t Recognition) commandLine() string {
	r := Report{Model: PhysicsModel, Rack: t.Rack, Students: t.Hands, Sets: UsualSets, Seed: t.Seed}
	return r.commandLine(" --tell-apart")
}

const recognitionWords = `# What can be told apart

%d hands with each cause amiss, ten and twenty computed breaks of each on the table from
whose laws the adviser learned, everything noted. Made by ` + "`%s`" + `.

How often the cause is the likeliest: to an observer who knows the model to be right and
every cause to be as common as any other, and to the adviser's own belief, which tempers
what it learned, since no table is the model, and thinks most students have nothing amiss.
What the observer does not tell apart, nobody does by these facts: the adviser is to be
silent of it, or to answer what either cause wants, as of place and contact, which turn the
wing ball's line alike.
`

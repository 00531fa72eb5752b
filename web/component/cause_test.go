package component

import (
	"bytes"
	"strings"
	"testing"

	"breakwright/internal/advice"
)

// Under the causes stands what they were weighed against, and others' breaks only where
// there were some.
func TestCauseFigures_SaysWhatTheyRestOn(t *testing.T) {
	for breaks, want := range map[int]string{
		0:  "weighed against computed breaks. No model",
		80: "weighed against computed breaks and beside 80 breaks of other students, which show how the club’s tables play. No model",
	} {
		var page bytes.Buffer
		v := AdviceView{ID: "set", Advice: advice.Advice{Causes: []advice.Cause{{Name: "tip", Share: 0.8}}, OthersBreaks: breaks}}
		if err := causeFigures(v).Render(t.Context(), &page); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(page.String(), want) {
			t.Errorf("beside %d breaks:\n%s", breaks, page.String())
		}
	}
}

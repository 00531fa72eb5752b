package component

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

var forYouToLook = regexp.MustCompile(`it is for you to look`)

// toStudent finds what speaks to the reader, not of the student. "for you to
// look" is said to the coach.
var toStudent = regexp.MustCompile(`(?i)\b(you|your|yours|yourself)\b`)

// Whatever the adviser says of many invented students, no coach reads it as if it
// were said to them.
func TestAdvice_LeavesNothingToTheStudent(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	spoke, turned := map[advice.RuleName]bool{}, 0
	for range 600 {
		var history []drill.Set
		for range 1 + rng.IntN(4) {
			history = append(history, habit(rng, history))
		}
		a := advice.Judge(history, advice.Brief{})
		for _, statement := range statements(a, spoke) {
			text := statement.Text(say.Reader{})
			for _, who := range []say.Who{say.Coach, say.Anybody} {
				read := statement.Text(say.Reader{Who: who})
				if read != text {
					turned++
				}
				if rest := forYouToLook.ReplaceAllString(read, ""); toStudent.MatchString(rest) {
					t.Errorf("reader %d reads %q", who, read)
				}
			}
		}
	}
	if len(spoke) < 14 || turned < 50 {
		t.Errorf("only %d rules spoke and %d sentences were turned: this shows little", len(spoke), turned)
	}
}

// statements are all that advice says of a student, and notes the rules.
func statements(a advice.Advice, spoke map[advice.RuleName]bool) []say.Statement {
	all := append([]say.Statement{a.Statement}, a.CheckStatements...)
	for _, f := range a.Findings {
		all, spoke[f.Rule] = append(all, f.Statement), true
	}
	if p := a.Prescription; p != nil {
		all, spoke[p.Rule] = append(all, p.ReasonStatement, p.ExpectStatement, p.CautionStatement), true
	}
	if a.FollowUp != nil {
		all = append(all, a.FollowUp.Statement)
	}
	if a.Places != nil {
		all = append(all, a.Places.Statement)
	}
	if a.Card != nil {
		all = append(all, a.Card.Statement)
	}
	return all
}

// habit draws a student's next set with a habit of its own: what the adviser
// proposed last, or the standard setup.
func habit(rng *rand.Rand, before []drill.Set) drill.Set {
	set := drill.Set{
		Student: "Odile", Name: fmt.Sprintf("s%d", len(before)), Table: "North", Kind: table.NineFoot(),
		Setup: drill.StandardSetup("nine-ball", table.Left, table.NineFoot()),
	}
	switch {
	case len(before) > 0:
		set.Setup = advice.Judge(before, advice.Brief{}).Next
	case rng.IntN(3) == 0:
		set.Setup.Speed = table.Mph(16 + rng.IntN(8))
	}
	misses := []drill.WingMiss{drill.MissSideRail, drill.MissFootRail, drill.MissKissed, drill.MissJaws, drill.MissUnknown}
	often := misses[rng.IntN(len(misses))]
	made, scratch, off, far := rng.Float64(), rng.Float64()/2, rng.Float64()/4, rng.Float64()
	pocket := table.Pockets()[rng.IntN(len(table.Pockets()))]
	for i := range 10 + 10*rng.IntN(2) {
		b := drill.Break{Number: i + 1, WingMiss: often, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 3, Y: table.Inches(100 * far)}}}
		if rng.Float64() < made {
			b.WingMiss, b.Pocketed = "", []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}
		}
		switch {
		case rng.Float64() < scratch:
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: pocket}
		case rng.Float64() < off:
			b.Cue = drill.CueEnd{How: drill.OffTable}
		}
		b.CuePath = []drill.CuePath{drill.PathForward, drill.PathBack, drill.PathHeadRail, ""}[rng.IntN(4)]
		b.Shot = []drill.Shot{drill.ShotOpen, drill.ShotNone, ""}[rng.IntN(3)]
		if rng.IntN(2) == 0 {
			b.Rails = drill.ObservedCount(rng.IntN(8))
		}
		b.Rest = []drill.RestingBall{{Ball: set.Setup.HeadBall() + 1, Place: table.Place{Y: table.Inches(100 * far)}}}
		set.Breaks = append(set.Breaks, b)
	}
	return set
}

// The same advice, as the student and as a coach reads it.
func TestAdvice_ForWhoeverReads(t *testing.T) {
	view := AdviceView{ID: "a", Kind: table.NineFoot(), Advice: advice.Advice{
		Statement: say.Statement{Kind: say.NoCause, Count: 1, Of: 4, Since: 2, OfSince: 4},
	}}
	set := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	slower := set
	slower.Speed = 16
	change := NewChangeView(coaching.Change{
		Rule: "balls-off-table", Before: set, Proposed: slower, Kind: table.NineFoot(),
		State: coaching.Declined, Decision: coaching.Declined, Note: "Slowly.",
	}, say.Proposal{}, say.Reader{})
	view.Change = &change
	for _, c := range []struct {
		coach bool
		want  []string
	}{
		{false, []string{"your coach left the setup as it was", "Your coach: “Slowly.”"}},
		{true, []string{"the coach left the setup as it was", "The coach’s note: “Slowly.”"}},
	} {
		view.Reader = say.Reader{}
		if c.coach {
			view.Reader.Who = say.Coach
		}
		view.Change.Reader = view.Reader
		var page strings.Builder
		if err := AdviceSection(view).Render(t.Context(), &page); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !strings.Contains(page.String(), want) {
				t.Errorf("for a coach %v: nothing says %q:\n%s", c.coach, want, page.String())
			}
		}
	}
}

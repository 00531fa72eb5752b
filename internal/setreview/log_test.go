package setreview_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// exportedAdvice is what the adviser says of a student's export.
func exportedAdvice(t *testing.T, s *store.Store, who store.Actor) advice.Advice {
	t.Helper()
	return setreview.JudgeLog(exportedSets(t, s, who), nil)
}

// exportedSets are a student's sets as their export has them.
func exportedSets(t *testing.T, s *store.Store, who store.Actor) []drill.Set {
	t.Helper()
	var file bytes.Buffer
	log := breaklog.NewWriter(&file)
	err := s.ExportSets(t.Context(), who, store.ExportScope{Student: who.Person}, func(_ store.Person, sets []drill.Set) error { return log.Write(sets) })
	if err == nil {
		err = log.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return must(breaklog.Read(&file))(t)
}

// saysOtherwiseAlone reports whether the adviser would say something else of a student's
// export had others' breaks shown nothing.
func saysOtherwiseAlone(t *testing.T, s *store.Store, who store.Actor) bool {
	t.Helper()
	sets := exportedSets(t, s, who)
	beside := asJSON(t, setreview.JudgeLog(sets, nil))
	for i := range sets {
		sets[i].Plan.TablesPlay = drill.TablesPlay{}
	}
	return asJSON(t, setreview.JudgeLog(sets, nil)) != beside
}

func asJSON(t *testing.T, a advice.Advice) string {
	t.Helper()
	return string(must(json.Marshal(a))(t))
}

// Of random clubs with drills of odd windows, goals and house rules, speeds asked and
// measured, numbers of their own in the rules, others who break there, and coaches who
// overrule, the adviser says of a student's export what their page says, after every set.
func TestJudgeLog_SaysWhatThePageSays(t *testing.T) {
	t.Parallel()
	s := storetest.New(t)
	seen, chosen, declined, otherwise := map[advice.Verdict]int{}, 0, 0, 0
	for seed := range uint64(6) {
		c := randomClub{rand.New(rand.NewPCG(seed, 11)), storetest.AddScene(t, s), false}
		who := c.StudentActor(int(seed) % 3)
		c.haveOthersBreak(t, int(seed)%3)
		c.assignOddDrill(t, who)
		var page advice.Advice
		for n := range 5 {
			rules := c.setOwnNumbers(t)
			set := c.recordSet(t, who)
			if err := s.CloseSet(t.Context(), who, set, setreview.JudgeCase); err != nil {
				t.Fatal(err)
			}
			kept := must(s.GetSet(t.Context(), who, set))(t)
			page = must(setreview.ReadAdvice(kept.Advice))(t)
			seen[page.Verdict]++
			if got := exportedAdvice(t, s, who); asJSON(t, got) != keptJSON(t, kept, got) {
				t.Fatalf("club %d, set %d: the export says\n%s\nthe page\n%s", seed, n, asJSON(t, got), kept.Advice.JSON)
			}
			if saysOtherwiseAlone(t, s, who) {
				otherwise++
			}
			c.decide(t, kept)
			history := must(s.GetHistory(t.Context(), who, who.Person))(t)
			now := advice.Judge(history.Sets, setreview.NewBrief(store.Case{
				History: history, Window: kept.Window, Targets: kept.Targets, House: kept.House, Rules: rules,
				TablesPlay: c.tablesPlayOf(t, set),
			}))
			c.setOwnNumbers(t) // who was advised before is not advised anew
			got := exportedAdvice(t, s, who)
			if got.Says != now.Says || got.Next != now.Next {
				t.Fatalf("club %d, set %d: after the decision the export says\n%s\nnot\n%s", seed, n, asJSON(t, got), asJSON(t, now))
			}
			if got.Statement.Kind == say.CoachChose {
				chosen++
			}
			if got.Statement.Kind == say.CoachChose && got.Statement.Yes {
				declined++
			}
		}
	}
	if len(seen) < 2 || declined == 0 || chosen == declined {
		t.Errorf("only %v was said, and %d times that the coach chose, %d of them against a change", seen, chosen, declined)
	}
	if otherwise == 0 {
		t.Error("what others' breaks showed changed nothing")
	}
}

// So it does once a decision is taken back that stood when a newer set was closed.
func TestJudgeLog_SaysWhatThePageSaysOnceADecisionIsTakenBack(t *testing.T) {
	t.Parallel()
	s := storetest.New(t)
	back, other := 0, 0
	for seed := range uint64(6) {
		c := randomClub{rand.New(rand.NewPCG(seed, 23)), storetest.AddScene(t, s), false}
		who := c.StudentActor(int(seed) % 3)
		c.assignOddDrill(t, who)
		for n := range 4 {
			first := c.recordSet(t, who)
			if err := s.CloseSet(t.Context(), who, first, setreview.JudgeCase); err != nil {
				t.Fatal(err)
			}
			newer := c.recordSet(t, who)
			proposal := must(s.GetSet(t.Context(), who, first))(t)
			c.decide(t, proposal)
			if err := s.CloseSet(t.Context(), who, newer, setreview.JudgeCase); err != nil {
				t.Fatal(err)
			}
			p := proposal.Prescription
			if p == nil || p.State != store.Proposed {
				continue
			}
			stood := must(s.GetSet(t.Context(), who, newer))(t)
			err := s.ReopenDecision(t.Context(), c.Coach, p.ID, setreview.JudgeCase)
			if errors.Is(err, store.ErrConflict) { // declined, and another change is proposed by now
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			kept := must(s.GetSet(t.Context(), who, newer))(t)
			if got := exportedAdvice(t, s, who); asJSON(t, got) != keptJSON(t, kept, got) {
				t.Fatalf("club %d, set %d: the export says\n%s\nthe page\n%s", seed, n, asJSON(t, got), kept.Advice.JSON)
			}
			back++
			if string(kept.Advice.JSON) != string(stood.Advice.JSON) {
				other++
			}
		}
	}
	if other == 0 {
		t.Errorf("of %d decisions none that was taken back changed what is said", back)
	}
}

// While a coach's decision that was made before comes first, because the student broke as an
// older page had it or trained, the export says it, as every page does, and not what that set
// asked for; and otherwise what the page says.
func TestJudgeLog_SaysTheDecisionThatComesFirst(t *testing.T) {
	t.Parallel()
	s := storetest.New(t)
	first, other := map[string]int{}, 0
	for seed := range uint64(24) {
		c := randomClub{rand.New(rand.NewPCG(seed, 31)), storetest.AddScene(t, s), seed%3 == 0}
		who := c.StudentActor(int(seed) % 3)
		c.assignOddDrill(t, who)
		before := c.closeSet(t, who, c.StartSet(t, who))
		c.decideForSure(t, before)
		start := store.NewSet{Assignment: c.Assignment, Table: c.Table.ID, Setup: before.Setup}
		switch c.IntN(3) {
		case 0:
			start.Assignment, start.Training = store.AssignmentID{}, "Alone"
		case 1:
			begun := c.closeSet(t, who, c.StartSet(t, who)) // under the decision
			start.Assignment, start.Training, start.Setup = store.AssignmentID{}, "Alone", begun.Setup
		}
		set := c.closeSet(t, who, must(s.StartSet(t.Context(), who, start))(t))
		got := exportedAdvice(t, s, who)
		if set.ComesFirst == nil {
			if other++; asJSON(t, got) != keptJSON(t, set, got) {
				t.Errorf("club %d: the export says\n%s\nthe page\n%s", seed, asJSON(t, got), set.Advice.JSON)
			}
			continue
		}
		how := "older page"
		if start.Training != "" {
			how = "training"
		}
		if set.Prescription == nil {
			how += ", nothing proposed"
		}
		first[how]++
		want := set.ComesFirst.After.ForSide(set.Setup.Side)
		if got.Next.Speed != want.Speed { // where it was never measured the adviser leaves it to the student
			want.Speed = 0
		}
		if got.Statement.Kind != say.CoachChose || got.Prescription != nil || got.Next.Rounded() != want.Rounded() {
			t.Errorf("club %d, %s: the export says %q and then %+v, the coach chose %+v", seed, how, got.Says, got.Next, want)
		}
		for _, task := range must(s.GetToday(t.Context(), who))(t).Tasks {
			today := task.InstructionOn(set.Table.Kind).Setup
			if task.Assignment == set.Assignment && today.Rounded() != set.ComesFirst.After.ForSide(today.Side).Rounded() {
				t.Errorf("club %d, %s: today has %+v, the coach chose %+v", seed, how, today, set.ComesFirst.After)
			}
		}
	}
	if first["older page"] == 0 || first["older page, nothing proposed"] == 0 || first["training"] == 0 || other == 0 {
		t.Errorf("a decision came first %v times, and %d times none", first, other)
	}
}

// closeSet records ten breaks in a set, closes it and gives it back as a coach reads it.
func (c *randomClub) closeSet(t *testing.T, who store.Actor, set store.Set) store.Set {
	t.Helper()
	c.recordBreaks(t, who, set)
	if err := c.Store.CloseSet(t.Context(), who, set.ID, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	return must(c.Store.GetSet(t.Context(), c.Coach, set.ID))(t)
}

// decideForSure has the coach approve or change what a set proposes, or prescribe a change
// of their own.
func (c *randomClub) decideForSure(t *testing.T, set store.Set) {
	t.Helper()
	own := set.Setup
	own.Tip = -own.Tip - 0.05
	p, ctx := set.Prescription, t.Context()
	var err error
	switch {
	case p == nil || p.State != store.Proposed:
		err = c.Store.DecideOwnChange(ctx, c.Coach, store.OwnChange{Set: set.ID, Setup: own})
	case c.IntN(2) == 0:
		err = c.Store.DecidePrescription(ctx, c.Coach, p.ID, store.Decision{Answer: store.Approved})
	default:
		err = c.Store.DecidePrescription(ctx, c.Coach, p.ID, store.Decision{Answer: store.Changed, Setup: own})
	}
	if err != nil {
		t.Fatal(err)
	}
}

// keptJSON is what the page keeps, as the adviser writes it, and the setups in it,
// which the page has from elsewhere.
func keptJSON(t *testing.T, set store.Set, exported advice.Advice) string {
	t.Helper()
	page := must(setreview.ReadAdvice(set.Advice))(t)
	page.Next = exported.Next
	if page.Card != nil && exported.Card != nil {
		page.Card.Setup = exported.Card.Setup
	}
	return asJSON(t, page)
}

// randomClub is a club in which chance records and decides.
type randomClub struct {
	*rand.Rand
	storetest.Scene
	calm bool // its breaks go wrong in no way
}

// assignOddDrill gives a student a drill of odd numbers on an odd table.
func (c *randomClub) assignOddDrill(t *testing.T, who store.Actor) {
	t.Helper()
	kind := table.Kind{Feet: 7 + c.IntN(3), CornerMouth: 4.25, SideMouth: 4.875}
	made := storetest.StandardDrill()
	made.Kind, made.Setup = kind, drill.StandardSetup(made.Setup.Game, made.Setup.Side, kind)
	made.Setup.Speed = table.Mph([]float64{0, 16, 18.5}[c.IntN(3)])
	made.Window = kind.StandardWindow()
	made.Window.Left += table.Inches(c.IntN(9)) / 4
	made.Targets = drill.Targets{Wing: 0.35 + float64(c.IntN(30))/100, Window: 0.4}
	made.House = drill.HouseRules{ThreePoints: c.IntN(2) == 0, BreakBox: table.Inches(c.IntN(2)) * (table.Inches(math.Abs(float64(made.Setup.Cue.X))) + 0.5)}
	made.Name = fmt.Sprintf("Odd %d", c.IntN(1000))
	saved := must(c.Store.SaveDrill(t.Context(), c.Coach, store.DrillID{}, made))(t)
	c.Table = must(c.Store.SaveTable(t.Context(), c.Coach, store.Table{Name: fmt.Sprintf("Odd %d", c.IntN(1_000_000)), Kind: kind}))(t)
	c.Assignment = must(c.Store.AssignDrill(t.Context(), c.Coach, store.Assignment{Drill: saved.ID, Students: []store.PersonID{who.Person}}))(t)
}

// haveOthersBreak has the students of the club but one break three sets each, on odd tables
// of their own.
func (c *randomClub) haveOthersBreak(t *testing.T, but int) {
	t.Helper()
	for i := range 3 {
		if i == but {
			continue
		}
		who := c.StudentActor(i)
		c.assignOddDrill(t, who)
		for range 3 {
			c.closeSet(t, who, c.StartSet(t, who))
		}
	}
}

// tablesPlayOf is what was known of the club's tables when a set was closed.
func (c *randomClub) tablesPlayOf(t *testing.T, set store.SetID) drill.TablesPlay {
	t.Helper()
	for _, past := range must(c.Store.ListPastCases(t.Context(), c.Coach, time.Now().Add(-time.Hour), 1000))(t).Cases {
		if past.Set == set {
			return past.TablesPlay
		}
	}
	t.Fatalf("the set %v was never closed", set)
	return drill.TablesPlay{}
}

// setOwnNumbers sets a rule's line and another's certainty, and switches a third off
// or on, and gives the rules that are in force.
func (c *randomClub) setOwnNumbers(t *testing.T) drill.ClubRules {
	t.Helper()
	there := must(c.Store.GetRules(t.Context(), c.Coach))(t)
	return must(c.Store.SaveRules(t.Context(), c.Coach, there.Revision, []drill.RuleSetting{
		{Rule: string(advice.RuleMissBalance), Line: new(0.5 + float64(c.IntN(40))/100)},
		{Rule: string(advice.RuleSideScratch), Certainty: new(0.6 + float64(c.IntN(30))/100), Onward: new(0.55)},
		{Rule: string(advice.RuleTooEarly), Line: new(float64(c.IntN(9)) / 10)},
		{Rule: string(advice.RuleWeighing), On: new(c.IntN(2) == 0)},
	}))(t)
}

// recordSet records ten breaks that go wrong in one way more than in others.
func (c *randomClub) recordSet(t *testing.T, who store.Actor) store.SetID {
	t.Helper()
	set := c.StartSet(t, who)
	c.recordBreaks(t, who, set)
	return set.ID
}

func (c *randomClub) recordBreaks(t *testing.T, who store.Actor, set store.Set) {
	t.Helper()
	fault := c.IntN(4)
	if c.calm {
		fault = 3
	}
	for n := range drill.UsualBreaks {
		b := store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: drill.Break{
			Number: n + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: table.Inches(c.IntN(24) - 12), Y: table.Inches(20 + c.IntN(40))}},
		}}
		if c.IntN(3) == 0 {
			b.Speed = table.Mph(16 + c.IntN(5))
		}
		switch wrong := c.IntN(10) < 6; {
		case wrong && fault == 0:
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.SideRight}
		case wrong && fault == 1:
			b.WingMiss = drill.MissSideRail
		case wrong && fault == 2:
			b.Off = append(b.Off, 3)
		case c.IntN(2) == 0:
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()})
		}
		if _, err := c.Store.SaveBreak(t.Context(), who, set.ID, b); err != nil {
			t.Fatal(err)
		}
	}
}

// decide answers a proposal by chance, where there is one.
func (c *randomClub) decide(t *testing.T, set store.Set) {
	t.Helper()
	p := set.Prescription
	if p == nil || p.State != store.Proposed {
		return
	}
	d := store.Decision{Answer: []store.State{store.Approved, store.Changed, store.Declined}[c.IntN(3)]}
	if d.Answer == store.Changed {
		d.Setup = set.Setup
		d.Setup.Tip = -d.Setup.Tip - 0.05
	}
	if err := c.Store.DecidePrescription(t.Context(), c.Coach, p.ID, d); err != nil {
		t.Fatal(err)
	}
}

func must[T any](value T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

package breaklog_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func writtenText(t testing.TB, sets []drill.Set) string {
	t.Helper()
	var text bytes.Buffer
	if err := breaklog.Write(&text, sets); err != nil {
		t.Fatal(err)
	}
	return text.String()
}

func TestWrite_Example(t *testing.T) {
	want := strings.Join([]string{
		strings.Join(breaklog.ColumnNames(), ","),
		`Odile,a1,1,2026-03-02T18:05:00Z,nine-ball,North 2,9,4.5,5,left,1-3-2-8-9-5-6-4-7,head,3L,-18,25,0,-0.1,0,18,8@foot-left,"-3.5,41",,,back,"1@-20,31;2@6,28",6,3,open,,,,18,,,,,,,`,
		`Odile,a1,2,2026-03-02T18:07:10Z,nine-ball,North 2,9,4.5,5,left,1-3-2-8-9-5-6-4-7,head,3L,-18,25,0,-0.1,0,18,,scratch@side-right,,side-rail,,,5,2,,,,,18,,,,,,,`,
		"",
	}, "\r\n")
	if got := writtenText(t, readSets(t, openFixture(t, "example.csv"))); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestWrite_FixturesComeBackTheSame(t *testing.T) {
	for _, name := range []string{"example.csv", "paper.csv", "evening.csv"} {
		want := readSets(t, openFixture(t, name))
		text := writtenText(t, want)
		if got := readSets(t, text); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: got %+v\nwant %+v", name, got, want)
		}
		if again := writtenText(t, readSets(t, text)); again != text {
			t.Errorf("%s: written again it is\n%s\nnot\n%s", name, again, text)
		}
	}
}

// A spreadsheet must see text, and the text must come back to the letter.
func TestWrite_NoFormulas(t *testing.T) {
	for _, note := range []string{"=1+1", "+1", "-x", "@a", "\t=1", "'=1", "''+", "'tis", "it's =", "' -", "'", "''", "\n=1", "a,\"b\"\r\nc\rd"} {
		set := readSets(t, openFixture(t, "paper.csv"))[0]
		set.Breaks[0].Note = note
		if !strings.ContainsAny(note, "\t\n") {
			set.Student, set.Name, set.Table = note, note+"!", note
		}
		text := writtenText(t, []drill.Set{set})
		for _, start := range []string{",=", ",+", ",@", ",\"=", ",\"\t", ",\"\n", "\r\n=", "\r\n+", "\r\n@", ",-x"} {
			if strings.Contains(text, start) {
				t.Errorf("note %q: a cell begins with %q:\n%s", note, start, text)
			}
		}
		set.Breaks[0].Note = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(note)
		if got := readSets(t, text)[0]; !reflect.DeepEqual(got, set) {
			t.Errorf("note %q: got %+v\nwant %+v", note, got, set)
		}
	}
}

func TestWrite_RefusesWhatCannotBeReadBack(t *testing.T) {
	for name, spoil := range map[string]func(*drill.Set){
		"no student":    func(s *drill.Set) { s.Student = " " },
		"no name":       func(s *drill.Set) { s.Name = "" },
		"table name":    func(s *drill.Set) { s.Table = "a\nb" },
		"kind":          func(s *drill.Set) { s.Kind.Feet = 6 },
		"mouths":        func(s *drill.Set) { s.Kind.CornerMouth = 0 },
		"setup":         func(s *drill.Set) { s.Setup.Tip = 2 },
		"break numbers": func(s *drill.Set) { s.Breaks[1].Number = 1 },
		"cue ball":      func(s *drill.Set) { s.Breaks[0].Cue = drill.CueEnd{} },
		"note":          func(s *drill.Set) { s.Breaks[0].Note = "\xff" },
		"time":          func(s *drill.Set) { s.Breaks[0].At = time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC) },
		"rules twice": func(s *drill.Set) {
			s.Plan.Rules.Settings = []drill.RuleSetting{{Rule: "a", On: new(true)}, {Rule: "a", On: new(false)}}
		},
		"a rule of nothing": func(s *drill.Set) { s.Plan.Rules.Settings = []drill.RuleSetting{{Rule: "a"}} },
		"a rule's line":     func(s *drill.Set) { s.Plan.Rules.Settings = []drill.RuleSetting{{Rule: "a", Line: new(1.5)}} },
		"tables of nobody":  func(s *drill.Set) { s.Plan.TablesPlay.Character = []int{1} },
		"tables far off":    func(s *drill.Set) { s.Plan.TablesPlay = drill.TablesPlay{Breaks: 9, Spread: []int{1_001}} },
		"another set same":  nil,
	} {
		sets := append(readSets(t, openFixture(t, "paper.csv")), readSets(t, openFixture(t, "example.csv"))...)
		if spoil != nil {
			spoil(&sets[0])
		} else {
			sets[0].Student, sets[0].Name = "Odile", "a1 "
		}
		var text bytes.Buffer
		if err := breaklog.Write(&text, sets); err == nil || text.Len() > 0 {
			t.Errorf("%s: error %v after %d bytes", name, err, text.Len())
		}
	}
}

// What a club kept under a name that nobody may type now goes out and comes back.
func TestWrite_NamesThatWereKeptBefore(t *testing.T) {
	sets := readSets(t, openFixture(t, "example.csv"))[:1]
	sets[0].Student, sets[0].Table = "Odile \ufffd \u202eB", "North\u2028 1"
	var text bytes.Buffer
	if err := breaklog.Write(&text, sets); err != nil {
		t.Fatal(err)
	}
	if back := readSets(t, text.String()); back[0].Student != sets[0].Student || back[0].Table != sets[0].Table {
		t.Errorf("%q on %q came back", back[0].Student, back[0].Table)
	}
}

type fullWriter struct{ err error }

func (f fullWriter) Write([]byte) (int, error) { return 0, f.err }

func TestWrite_SaysWhenTheDiskIsFull(t *testing.T) {
	noRoom := errors.New("no room")
	if err := breaklog.Write(fullWriter{noRoom}, readSets(t, openFixture(t, "paper.csv"))); !errors.Is(err, noRoom) {
		t.Errorf("%v", err)
	}
}

func TestWriteThenRead_IsTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sets []drill.Set
		start := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
		for i := range rapid.IntRange(0, 3).Draw(t, "students") {
			for j := range rapid.IntRange(1, 3).Draw(t, "sets") {
				set := drawSet(t, start)
				set.Student, set.Name = fmt.Sprint(drawName(t, "student"), i), fmt.Sprint(drawName(t, "set"), j)
				if len(sets) > 0 && j > 0 {
					set.Student = sets[len(sets)-1].Student
				}
				start = start.AddDate(0, 0, 1)
				sets = append(sets, set)
			}
		}
		var text bytes.Buffer
		if err := breaklog.Write(&text, sets); err != nil {
			t.Fatal(err)
		}
		got, err := breaklog.Read(&text)
		if err != nil || len(got) != len(sets) || len(sets) > 0 && !reflect.DeepEqual(got, sets) {
			t.Fatalf("%v\ngot  %+v\nwant %+v", err, got, sets)
		}
	})
}

func drawName(t *rapid.T, label string) string {
	return rapid.StringMatching(`['=+@-]?[A-Za-zÀ-ž0-9",;' ]{0,12}`).
		Filter(func(s string) bool { return strings.TrimSpace(s) == s }).Draw(t, label)
}

func drawSet(t *rapid.T, start time.Time) drill.Set {
	kind := rapid.SampledFrom(table.Sizes()).Draw(t, "size")
	kind.CornerMouth = table.Inches(rapid.Float64Range(3.5, 6.5).Draw(t, "corner"))
	s := drill.StandardSetup(rapid.SampledFrom(rack.Games()).Draw(t, "game"), rapid.SampledFrom([]table.Side{table.Left, table.Right}).Draw(t, "side"), kind)
	s.Cue = table.Place{X: table.Inches(rapid.Float64Range(-19, 19).Draw(t, "x")), Y: table.Inches(rapid.Float64Range(0, 19).Draw(t, "y"))}
	s.Order = rack.ShuffleOrder(s.Game, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "rack"), 1)))
	s.Contact = table.Inches(rapid.Float64Range(-1, 1).Draw(t, "contact"))
	s.Tip = drill.RadiusFraction(rapid.Float64Range(-1, 1).Draw(t, "tip"))
	s.Wing = s.Game.WingSlot(rapid.SampledFrom([]table.Side{table.Left, table.Right}).Draw(t, "wing"))
	set := drill.Set{Kind: kind, Setup: s, Table: drawName(t, "table")}
	for i := range rapid.IntRange(1, 12).Draw(t, "breaks") {
		b := drawBreak(t, s, kind)
		b.Number = i + 1
		if rapid.Bool().Draw(t, "timed") || i == 0 {
			b.At = start.Add(time.Duration(rapid.Int64Range(0, int64(time.Hour)).Draw(t, "at")))
		}
		set.Breaks = append(set.Breaks, b)
	}
	set.Setup.Speed = table.Mph(rapid.SampledFrom([]float64{0, 14.5, 18, 22.25}).Draw(t, "asked speed"))
	set.Plan = drawPlan(t, set)
	return set
}

// drawPlan is what a set was broken for, each part of it known or not.
func drawPlan(t *rapid.T, set drill.Set) (p drill.SetPlan) {
	if rapid.Bool().Draw(t, "with a window") {
		p.Window = table.Window{Left: -table.Inches(rapid.Float64Range(2, 18).Draw(t, "left")), Right: 7.25, Head: 22, Foot: 51.5}
	}
	if rapid.Bool().Draw(t, "with goals") {
		p.Targets = drill.Targets{Wing: 0.5, Window: rapid.Float64Range(0.05, 1).Draw(t, "window goal"), Shot: 0.35, RanOut: 0.1}
	}
	if rapid.Bool().Draw(t, "in a house") {
		p.House = drill.HouseRules{ThreePoints: rapid.Bool().Draw(t, "three points"), BreakBox: table.Inches(rapid.SampledFrom([]float64{0, 8, 9.5}).Draw(t, "box"))}
	}
	if rapid.Bool().Draw(t, "closed") {
		p.Closed = set.Breaks[0].At.Add(time.Hour)
	}
	if rapid.Bool().Draw(t, "own rules") {
		p.Rules = drawRules(t)
	}
	if rapid.Bool().Draw(t, "among others") {
		number := rapid.IntRange(-40, 40)
		p.TablesPlay = drill.TablesPlay{
			Breaks: rapid.IntRange(1, 6_000).Draw(t, "of others"), Character: rapid.SliceOfN(number, 4, 4).Draw(t, "character"),
			Spread: rapid.SliceOfN(number, 4, 4).Draw(t, "spread"), Departures: rapid.SliceOfN(number, 100, 100).Draw(t, "departures"),
		}
	}
	for range rapid.IntRange(0, 2).Draw(t, "decisions") {
		d := drill.PlanDecision{Answer: rapid.SampledFrom([]string{"approved", "changed", "declined", "own", drill.EarlierDecision}).Draw(t, "answer"), Setup: set.Setup}
		if d.Answer != "own" && d.Answer != drill.EarlierDecision {
			d.Rule = "cue-ball-wide"
		}
		if d.Answer != "declined" {
			d.Setup = drawChange(t, d.Setup)
		}
		p.Decisions = append(p.Decisions, d)
	}
	return p
}

// drawRules are a club's rules, some numbers of each rule its own.
func drawRules(t *rapid.T) (c drill.ClubRules) {
	c.Revision = rapid.IntRange(0, 999).Draw(t, "revision")
	for _, rule := range []string{"unsteady", "dry-break", "worth-9"} {
		s := drill.RuleSetting{Rule: rule}
		for _, number := range []**float64{&s.Line, &s.Certainty, &s.Onward, &s.Step} {
			if rapid.Bool().Draw(t, "set") {
				*number = new(rapid.Float64Range(0.5001, 0.9999).Draw(t, "number"))
			}
		}
		if rapid.Bool().Draw(t, "switched") {
			s.On, s.MinBreaks = new(rapid.Bool().Draw(t, "on")), new(rapid.IntRange(0, 500).Draw(t, "fewest"))
		}
		if !s.IsStandard() {
			c.Settings = append(c.Settings, s)
		}
	}
	return c
}

// drawChange makes one part of a setup another, or turns it round.
func drawChange(t *rapid.T, s drill.Setup) drill.Setup {
	switch rapid.IntRange(0, 4).Draw(t, "part") {
	case 0:
		s.Speed = 16
	case 1:
		s.Cue.X /= 2
	case 2:
		s.Tip = -0.25
	case 3:
		s.Order = rack.ShuffleOrder(s.Game, rand.New(rand.NewPCG(5, 1)))
	default:
		s = s.Mirror()
	}
	return s
}

func drawBreak(t *rapid.T, s drill.Setup, k table.Kind) drill.Break {
	place := func(label string) table.Place {
		return table.Place{X: table.Inches(rapid.Float64Range(-19, 19).Draw(t, label)), Y: table.Inches(rapid.Float64Range(0, 76).Draw(t, label))}
	}
	b := drill.Break{
		Speed:   table.Mph(rapid.SampledFrom([]float64{0, 16.4, 21}).Draw(t, "speed")),
		CuePath: rapid.SampledFrom(append(drill.CuePaths(), "")).Draw(t, "path"),
		Shot:    rapid.SampledFrom(append(drill.Shots(), "")).Draw(t, "shot"),
		RanOut:  rapid.SampledFrom([]drill.RanOut{"", drill.RanOutYes, drill.RanOutNo}).Draw(t, "ran out"),
		Racked:  rapid.SampledFrom([]drill.Racked{"", drill.RackedTight, drill.RackedLoose}).Draw(t, "racked"),
		Note:    rapid.StringMatching(`[ '=+@\-\n",;a-zß漢]{0,20}`).Draw(t, "note"),
	}
	switch rapid.IntRange(0, 3).Draw(t, "how") {
	case 0:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	case 1:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: rapid.SampledFrom(table.Pockets()).Draw(t, "scratch")}
	default:
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: place("cue")}
	}
	for _, ball := range rapid.Permutation(s.Order.Balls()).Draw(t, "balls") {
		switch rapid.IntRange(0, 6).Draw(t, "where") {
		case 0:
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: rapid.SampledFrom(table.Pockets()).Draw(t, "pocket")})
		case 1:
			b.Off = append(b.Off, ball)
		case 2:
			b.Rest = append(b.Rest, drill.RestingBall{Ball: ball, Place: place("rest")})
		}
	}
	if _, dropped := b.PocketOf(s.WingBall()); !dropped {
		b.WingMiss = rapid.SampledFrom(append(drill.WingMisses(), "")).Draw(t, "miss")
	}
	if rapid.Bool().Draw(t, "counted") {
		b.Rails = drill.ObservedCount(rapid.IntRange(0, 9).Draw(t, "rails"))
		b.PastString = drill.ObservedCount(rapid.IntRange(0, 9).Draw(t, "past"))
	}
	return b
}

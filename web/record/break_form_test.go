package record

import (
	"cmp"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

func setup() drill.Setup { return drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot()) }

// drawBreak draws a break that can have happened.
func drawBreak(t *rapid.T, s drill.Setup) drill.Break {
	b := drill.Break{Number: rapid.IntRange(1, 10).Draw(t, "number"), Note: rapid.SampledFrom([]string{"", "rack was loose", "zwei\nZeilen"}).Draw(t, "note")}
	b.Shot = rapid.SampledFrom(append(drill.Shots(), "")).Draw(t, "shot")
	place := func(name string) table.Place {
		return table.Place{X: table.Inches(rapid.IntRange(-240, 240).Draw(t, name+" x")) / 10, Y: table.Inches(rapid.IntRange(10, 990).Draw(t, name+" y")) / 10}
	}
	balls := append([]rack.Ball{s.WingBall()}, otherBalls(s, true)...)
	for _, ball := range balls {
		switch fate := rapid.IntRange(0, 9).Draw(t, "fate"); {
		case fate < 6:
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: table.Pockets()[fate]})
		case fate == 6:
			b.Off = append(b.Off, ball)
		case fate == 7:
			b.Rest = append(b.Rest, drill.RestingBall{Ball: ball, Place: place("rest")})
		}
	}
	slices.SortFunc(b.Rest, func(one, other drill.RestingBall) int { return cmp.Compare(one.Ball, other.Ball) })
	if _, dropped := b.PocketOf(s.WingBall()); !dropped {
		b.WingMiss = rapid.SampledFrom(append(drill.WingMisses(), "")).Draw(t, "miss")
	}
	for _, off := range b.Off {
		if off == s.WingBall() {
			b.WingMiss = ""
		}
	}
	switch rapid.IntRange(0, 2).Draw(t, "cue") {
	case 0:
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: place("cue")}
		b.CuePath = rapid.SampledFrom(append(drill.CuePaths(), "")).Draw(t, "path")
	case 1:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: rapid.SampledFrom(table.Pockets()).Draw(t, "scratch")}
	case 2:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	}
	if rapid.Bool().Draw(t, "counted") {
		b.Rails, b.PastString = drill.ObservedCount(rapid.IntRange(0, 9).Draw(t, "rails")), drill.ObservedCount(0)
		b.Speed = 17.5
	}
	return b
}

func TestBreakForm_FilledAndReadIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := setup()
		b := drawBreak(t, s)
		if err := b.Check(s, table.NineFoot()); err != nil {
			t.Fatalf("the drawn break is impossible: %v", err)
		}
		f := fillBreakForm(b, s, say.InchesAndMiles)
		read := readBreak(f, s, b.Number)
		if !f.IsValid() {
			t.Fatalf("the filled form was refused: %v", f.Problems)
		}
		if !reflect.DeepEqual(read, b) {
			t.Fatalf("read  %+v\nwant %+v", read, b)
		}
	})
}

// The three lowest balls have fields among the details; where the drill watches the
// leave, five in the open; and whatever was written down on the phone stays.
func TestRecordView_RestBalls(t *testing.T) {
	v := recordView{Set: store.Set{Setup: setup()}, Form: page.NewForm(map[string]string{"rest_7": "3,40"})}
	if got := v.restBalls(); !slices.Equal(got, []rack.Ball{1, 2, 3, 7}) || !v.hasDetails() {
		t.Errorf("%v", got)
	}
	v.Set.Targets.Shot = 0.5
	if got := v.restBalls(); !slices.Equal(got, []rack.Ball{1, 2, 3, 4, 5, 7}) || v.hasDetails() {
		t.Errorf("watching the leave: %v", got)
	}
}

func TestReadBreak_RefusesBesideTheField(t *testing.T) {
	for name, c := range map[string]struct {
		values map[string]string
		field  string
	}{
		"nothing said of the wing ball": {map[string]string{"cue": "off-table"}, "wing"},
		"another pocket, but which":     {map[string]string{"wing": "other", "cue": "off-table"}, "wing_other"},
		"stopped, but where":            {map[string]string{"wing": "made", "cue": "stopped"}, "cue"},
		"a place in words":              {map[string]string{"wing": "made", "cue": "stopped", "cue_x": "middle", "cue_y": "4"}, "cue_x"},
		"rails in words":                {map[string]string{"wing": "made", "cue": "off-table", "rails": "some"}, "rails"},
		"a rest place in words":         {map[string]string{"wing": "made", "cue": "off-table", "rest_1": "near the side"}, "rest_1"},
		"a pocket of another table":     {map[string]string{"wing": "made", "cue": "off-table", "ball_2": "middle"}, "pocketed"},
		"a speed in words":              {map[string]string{"wing": "made", "cue": "off-table", "speed": "fast"}, "speed"},
	} {
		f := page.NewForm(c.values)
		readBreak(f, setup(), 1)
		if f.ErrorFor(c.field) == "" {
			t.Errorf("%s: problems %v, want one at %s", name, f.Problems, c.field)
		}
	}
}

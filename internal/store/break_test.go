package store

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func TestBreakRow_ThereAndBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		b := anyBreak(t)
		back, err := drillBreak(breakRow(b))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back, b) {
			t.Fatalf("came back as\n%+v\nwas\n%+v", back, b)
		}
	})
}

func anyBreak(t *rapid.T) drill.Break {
	places := rapid.Custom(func(t *rapid.T) table.Place {
		return table.Place{X: table.Inches(rapid.Float64Range(-25, 25).Draw(t, "x")), Y: table.Inches(rapid.Float64Range(0, 100).Draw(t, "y"))}
	})
	b := drill.Break{
		Number: rapid.IntRange(1, 10).Draw(t, "number"),
		Speed:  table.Mph(rapid.Float64Range(0, 40).Draw(t, "speed")),
		Note:   rapid.StringN(0, 20, -1).Draw(t, "note"),
		Shot:   rapid.SampledFrom(append(drill.Shots(), "")).Draw(t, "shot"),
	}
	if rapid.Bool().Draw(t, "timed") {
		b.At = time.UnixMicro(rapid.Int64Range(0, 4e15).Draw(t, "at")).UTC()
	}
	if rapid.Bool().Draw(t, "counted") {
		b.Rails = drill.ObservedCount(rapid.IntRange(0, 9).Draw(t, "rails"))
	}
	b.Cue.How = rapid.SampledFrom([]drill.CueOutcome{drill.Stopped, drill.Scratched, drill.OffTable}).Draw(t, "cue")
	switch b.Cue.How {
	case drill.Stopped:
		b.Cue.Place = places.Draw(t, "cue place")
	case drill.Scratched:
		b.Cue.Scratch = rapid.SampledFrom(table.Pockets()).Draw(t, "scratch")
	}
	for ball := rack.Ball(1); ball <= 9; ball++ {
		switch rapid.IntRange(0, 3).Draw(t, "fate") {
		case 1:
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: rapid.SampledFrom(table.Pockets()).Draw(t, "pocket")})
		case 2:
			b.Off = append(b.Off, ball)
		case 3:
			b.Rest = append(b.Rest, drill.RestingBall{Ball: ball, Place: places.Draw(t, "place")})
		}
	}
	return b
}

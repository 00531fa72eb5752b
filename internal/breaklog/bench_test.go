package breaklog_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"testing"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// manyBreaks is the log of a club: 100,000 breaks in sets of ten by 200
// students, with the cells a phone fills.
func manyBreaks() []drill.Set {
	rng := rand.New(rand.NewPCG(1, 2))
	start := time.Date(2026, 1, 1, 18, 0, 0, 0, time.UTC)
	var sets []drill.Set
	for student := range 200 {
		setup := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
		setup.Speed = 0
		for n := range 50 {
			set := drill.Set{Student: fmt.Sprintf("Student %d", student), Name: fmt.Sprintf("set %d", n),
				Table: "North 2", Kind: table.NineFoot(), Setup: setup}
			for i := range 10 {
				b := drill.Break{Number: i + 1, At: start.Add(time.Duration(n*600+i) * time.Minute),
					CuePath: drill.PathBack, Rails: drill.ObservedCount(rng.IntN(9)), Shot: drill.ShotOpen,
					Cue:  drill.CueEnd{How: drill.Stopped, Place: table.Place{X: table.Inches(rng.IntN(40) - 20), Y: table.Inches(rng.IntN(90))}},
					Rest: []drill.RestingBall{{Ball: 1, Place: table.Place{X: -20, Y: table.Inches(rng.IntN(90))}}}}
				if rng.IntN(2) == 0 {
					b.Pocketed = []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}}
				} else {
					b.WingMiss = drill.MissSideRail
				}
				set.Breaks = append(set.Breaks, b)
			}
			sets = append(sets, set)
		}
	}
	return sets
}

func BenchmarkRead_100000(b *testing.B) {
	var file bytes.Buffer
	if err := breaklog.Write(&file, manyBreaks()); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(file.Len()))
	b.ReportAllocs()
	for b.Loop() {
		sets, err := breaklog.Read(bytes.NewReader(file.Bytes()))
		if err != nil || len(sets) != 10000 {
			b.Fatal(len(sets), err)
		}
	}
}

func BenchmarkWrite_100000(b *testing.B) {
	sets := manyBreaks()
	b.ReportAllocs()
	for b.Loop() {
		if err := breaklog.Write(io.Discard, sets); err != nil {
			b.Fatal(err)
		}
	}
}

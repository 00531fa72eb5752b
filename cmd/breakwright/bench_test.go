package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"testing"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/rehearsal"
)

// clubLog is the log of so many students of every fault in turn, with so many sets
// of ten; every fifth set moves an inch in, up to the long string.
func clubLog(b testing.TB, students, sets int) []byte {
	b.Helper()
	rng := rand.New(rand.NewPCG(1, 1))
	start := time.Date(2026, 1, 5, 18, 0, 0, 0, time.UTC)
	var all []drill.Set
	for i := range students {
		faults := rehearsal.Faults()
		s := rehearsal.DrawStudent(faults[i%len(faults)], rng)
		setup := s.Start
		for n := range sets {
			if n%5 == 4 && setup.Cue.X*setup.Side.Sign() >= 1 {
				setup.Cue.X -= setup.Side.Sign()
			}
			set := drill.Set{Student: fmt.Sprintf("Student %d", i), Name: fmt.Sprint(n), Table: "North 2", Kind: s.Kind, Setup: setup}
			for k := range drill.UsualBreaks {
				broken := s.Break(setup, rng)
				broken.Number, broken.At = k+1, start.AddDate(0, 0, n).Add(time.Duration(k)*time.Minute)
				set.Breaks = append(set.Breaks, broken)
			}
			all = append(all, set)
		}
	}
	var file bytes.Buffer
	if err := breaklog.Write(&file, all); err != nil {
		b.Fatal(err)
	}
	return file.Bytes()
}

// A hundred thousand breaks are to take two seconds on one core. In 2026-11 these, whose
// students begin at as many places as there are students, took 2.5 s (a thousand students)
// and 2.0, on a machine on which they had taken 4.3 and 3.5 before eight numbers went at a
// time and memory was collected less often; where the machine was faster, they had taken 3.0
// and 2.1, and those of a rehearsed class of a thousand 1.5.
func BenchmarkAdvise_100000(b *testing.B) {
	for _, c := range []struct{ students, sets int }{{1000, 10}, {100, 100}} {
		b.Run(fmt.Sprintf("%d_students", c.students), func(b *testing.B) {
			file := clubLog(b, c.students, c.sets)
			b.ReportAllocs()
			b.SetBytes(int64(len(file)))
			for b.Loop() {
				if code := runCommand(context.Background(), []string{"advise", "--format=json", "-"}, bytes.NewReader(file), io.Discard, io.Discard); code != exitOK {
					b.Fatal(code)
				}
			}
		})
	}
}

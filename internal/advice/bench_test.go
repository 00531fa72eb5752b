package advice

import (
	"math/rand/v2"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// longHistory is a student with so many sets of ten.
func longHistory(seed uint64, sets int) []drill.Set {
	rng := rand.New(rand.NewPCG(seed, 21))
	y := standardStudent()
	s := y.start
	var history []drill.Set
	for i := range sets {
		if i%5 == 4 {
			s.Cue.X = -table.Inches(10 + rng.IntN(12))
		}
		history = append(history, virtualSet(y, rng, i, s))
	}
	return history
}

// A class of a thousand, ten sets each: 100,000 breaks an operation.
func BenchmarkJudge_ThousandStudents(b *testing.B) {
	histories := make([][]drill.Set, 1000)
	for i := range histories {
		histories[i] = longHistory(uint64(i), 10)
	}
	b.ResetTimer()
	for b.Loop() {
		for _, h := range histories {
			Judge(h, Brief{})
		}
	}
}

// One student with 10,000 breaks an operation.
func BenchmarkJudge_TenThousandBreaks(b *testing.B) {
	h := longHistory(1, 1000)
	b.ResetTimer()
	for b.Loop() {
		Judge(h, Brief{})
	}
}

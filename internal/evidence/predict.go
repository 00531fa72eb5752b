package evidence

import "math"

// fillMakesAhead returns how likely each number of makes is in the next breaks:
// element k is the chance of exactly k, for k from 0 to breaks, and they sum to 1
// (the beta-binomial distribution). It writes them into the room of chances. Terms
// are built outwards from the likeliest count, so that none is lost to underflow.
func (b Beta) fillMakesAhead(chances []float64, breaks int) []float64 {
	b = b.properOrUniform()
	breaks = max(breaks, 0)
	chances = chances[:breaks+1]
	m, top := float64(breaks), int(float64(breaks)*b.Mean())
	k := float64(top)
	chances[top] = math.Exp(logChoose(breaks, top) + logBeta(b.A+k, b.B+m-k) - logBeta(b.A, b.B))
	for i := top; i < breaks; i++ {
		k := float64(i)
		chances[i+1] = chances[i] * (m - k) / (k + 1) * (b.A + k) / (b.B + m - k - 1)
	}
	for i := top; i > 0; i-- {
		k := float64(i)
		chances[i-1] = chances[i] * k / (m - k + 1) * (b.B + m - k) / (b.A + k - 1)
	}
	return chances
}

// LineQuestion asks on which side of a line a rate lies.
type LineQuestion struct {
	// Line is the rate in question, such as a target of 0.45.
	Line float64
	// Certainty is how probable one side must be before it is believed, such
	// as 0.9. At one half or less every belief is an answer.
	Certainty float64
}

// LineAnswer is what a belief says to a Question.
type LineAnswer int

// The answers.
const (
	Unsure LineAnswer = iota
	Above
	Below
)

// AnswerFor returns the answer of a belief.
func (q LineQuestion) AnswerFor(b Beta) LineAnswer {
	above := b.ProbAbove(q.Line)
	switch {
	case above >= q.Certainty && above >= 0.5:
		return Above
	case 1-above >= q.Certainty:
		return Below
	}
	return Unsure
}

// chanceSettledInto returns how likely the question is to have an answer, either
// one, after so many more breaks.
func (q LineQuestion) chanceSettledInto(b Beta, breaks int, room []float64) float64 {
	breaks = max(breaks, 0)
	below := firstFailing(breaks, func(k int) bool { return q.AnswerFor(b.Observe(k, breaks)) == Below })
	above := firstFailing(breaks, func(k int) bool { return q.AnswerFor(b.Observe(k, breaks)) != Above })
	unsure := 0.0
	for _, chance := range b.fillMakesAhead(room, breaks)[below:max(below, above)] {
		unsure += chance
	}
	return max(0, 1-unsure)
}

// firstFailing returns the first k of 0..most for which holds is false, or most+1.
// It relies on holds never turning true again.
func firstFailing(most int, holds func(k int) bool) int {
	low, high := 0, most+1
	for low < high {
		middle := (low + high) / 2
		if holds(middle) {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low
}

// SettlingLimits says how far BreaksToSettle looks ahead.
type SettlingLimits struct {
	// Chance is how likely an answer must become, such as 0.5 for "as likely
	// as not".
	Chance float64
	// Step is the size of a set: answers are multiples of it. Less than 1
	// counts as 1.
	Step int
	// Most is where looking ahead ends.
	Most int
}

// BreaksToSettle returns how many more breaks, in whole sets, make it likely
// that the question has an answer: 0 when it has one already. When even Most
// breaks are not likely to settle it, it returns Most and false: the rate is too
// near the line to tell.
func (q LineQuestion) BreaksToSettle(b Beta, p SettlingLimits) (breaks int, likely bool) {
	b = b.properOrUniform()
	if q.AnswerFor(b) != Unsure {
		return 0, true
	}
	step := max(p.Step, 1)
	room := make([]float64, 0, max(p.Most, 0)+1)
	for breaks = step; breaks <= p.Most; breaks += step {
		if q.chanceSettledInto(b, breaks, room) >= p.Chance {
			return breaks, true
		}
	}
	return max(p.Most, 0), false
}

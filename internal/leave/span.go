package leave

import "math"

// span is a range of directions in radians from lo to hi, measured from some
// line; empty unless lo < hi.
type span struct{ lo, hi float64 }

func (s span) width() float64  { return max(s.hi-s.lo, 0) }
func (s span) middle() float64 { return (s.lo + s.hi) / 2 }

func (s span) and(t span) span { return span{max(s.lo, t.lo), min(s.hi, t.hi)} }

// maxSpans bounds the pieces that a window can be cut into.
const maxSpans = 24

// spans are what is left of a window after pieces were taken out of it, in order.
type spans struct {
	n     int
	piece [maxSpans]span
}

func spansOf(s span) (out spans) {
	if s.lo < s.hi {
		out.n, out.piece[0] = 1, s
	}
	return out
}

// remove takes a piece out and reports whether there was any of it to take.
func (s *spans) remove(out span) bool {
	if !(out.lo < out.hi) {
		return false
	}
	if !s.overlaps(out) {
		return false
	}
	taken := false
	var left spans
	for _, p := range s.piece[:s.n] {
		before, after := p.and(span{math.Inf(-1), out.lo}), p.and(span{out.hi, math.Inf(1)})
		if before.width()+after.width() < p.width() {
			taken = true
		}
		left.add(before)
		left.add(after)
	}
	*s = left
	return taken
}

func (s *spans) overlaps(out span) bool {
	for _, p := range s.piece[:s.n] {
		if p.lo < out.hi && out.lo < p.hi {
			return true
		}
	}
	return false
}

func (s *spans) add(p span) {
	if p.lo < p.hi && s.n < maxSpans {
		s.piece[s.n] = p
		s.n++
	}
}

// intersect returns what both have in common.
func (s spans) intersect(t spans) (both spans) {
	for _, p := range s.piece[:s.n] {
		for _, q := range t.piece[:t.n] {
			both.add(p.and(q))
		}
	}
	return both
}

// widest returns the widest piece; of equal ones the first.
func (s *spans) widest() span {
	best := span{}
	for _, p := range s.piece[:s.n] {
		if p.width() > best.width() {
			best = p
		}
	}
	return best
}

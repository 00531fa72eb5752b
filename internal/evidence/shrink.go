package evidence

import "math"

// Count is so many made of so many tried.
type Count struct {
	Made, Tried int
}

// Rate returns made over tried, 0 when nothing was tried.
func (c Count) Rate() float64 {
	if !c.isUsable() {
		return 0
	}
	return float64(c.Made) / float64(c.Tried)
}

func (c Count) isUsable() bool {
	return isPossibleCount(c.Made, c.Tried) && c.Tried > 0
}

// Population is what a group (the sets of a student, the students of a class) has
// in common: a beta distribution of rates, by its mean and its strength.
type Population struct {
	// Mean is the rate of the group.
	Mean float64
	// Strength is how many breaks of one's own weigh as much as the group: A+B
	// of the beta. It is infinite when the members differ no more than luck
	// makes them, and 0 when each stands alone.
	Strength float64
}

// FitPopulation estimates the population from counts by matching moments
// (Kleinman 1973), members weighing by what they tried. Where the counts vary less
// than pure luck would, there is nothing to tell members apart and Strength is
// infinite: never a negative variance. Nothing to go on (no usable count, or
// fewer than two) is a mean of what there is, one half by default, and infinite
// strength.
func FitPopulation(counts []Count) Population {
	members, made, tried, squares := 0.0, 0.0, 0.0, 0.0
	for _, c := range counts {
		if c.isUsable() {
			n := float64(c.Tried)
			members, made, tried, squares = members+1, made+float64(c.Made), tried+n, squares+n*n
		}
	}
	if members == 0 {
		return Population{Mean: 0.5, Strength: math.Inf(1)}
	}
	mean, spread := made/tried, 0.0
	for _, c := range counts {
		if c.isUsable() {
			off := c.Rate() - mean
			spread += float64(c.Tried) * off * off
		}
	}
	luck := mean * (1 - mean)
	over := spread - luck*(members-1)
	room := luck * (tried - squares/tried - (members - 1))
	if !(over > 1e-12*luck) || !(room > 0) {
		return Population{Mean: mean, Strength: math.Inf(1)}
	}
	return Population{Mean: mean, Strength: max(0, room/over-1)}
}

// ShrinkRate returns a member's rate drawn towards the mean of the group, the more so
// the fewer breaks it rests on. Nothing tried returns the mean.
func (p Population) ShrinkRate(c Count) float64 {
	if !c.isUsable() || math.IsInf(p.Strength, 1) {
		return p.Mean
	}
	own := float64(c.Tried) / (float64(c.Tried) + p.Strength)
	return p.Mean + own*(c.Rate()-p.Mean)
}

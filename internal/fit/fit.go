package fit

import (
	"errors"
	"fmt"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Seen is a setup's banks and the breaks that a student recorded under it.
type Seen struct {
	Banks  Pair
	Setup  drill.Setup // as it was broken with, from either side
	Breaks []drill.Break
}

// ErrNothing is a fit to no breaks.
var ErrNothing = errors.New("no breaks to fit to")

// Fit estimates a student's hands from breaks under one setup or several.
func Fit(all []Seen) (Estimate, error) {
	sightings := make([][]counted, len(all))
	n := 0
	for i, s := range all {
		if s.Setup.For(table.Left).Rounded() != s.Banks.Tip.setup.Rounded() {
			return Estimate{}, fmt.Errorf("fit: banks of another setup: %+v, not %+v", s.Banks.Tip.setup, s.Setup)
		}
		var list []sighting
		for _, b := range s.Breaks {
			if s.Setup.Side == table.Right {
				b = b.Mirror()
			}
			list = append(list, sightingOf(b, s.Banks.Tip.setup, s.Banks.Tip.kind))
		}
		sightings[i] = count(list)
		n += len(list)
	}
	if n == 0 {
		return Estimate{}, ErrNothing
	}
	heights, places := likelihood(all, sightings, tip), likelihood(all, sightings, place)
	heights.temper(n)
	places.temper(n)
	e := heights.estimate()
	e.Breaks = n
	e.Causes = causes(heights, places)
	e.Odd = heights.odd(all, sightings) > oddErrors
	// From the right, right and left are changed over.
	if all[len(all)-1].Setup.Side == table.Right {
		e.Contact = e.Contact.mirror()
	}
	return e, nil
}

// surface is the logarithm of the likelihood of all that was seen, for every
// pair of hands on a grid, in the order contact, contact scatter, other, tip
// scatter.
type surface struct {
	grid
	log []float64
}

// at gives the index of a pair of hands.
func (s surface) at(contact, scatter, other, tipScatter int) int {
	return ((contact*len(s.contactScatter.at)+scatter)*len(s.other.at)+other)*len(s.tipScatter.at) + tipScatter
}

// prior gives the prior probability of a pair of hands.
func (s surface) prior(contact, scatter, other, tipScatter int) float64 {
	return s.contact.prior[contact] * s.contactScatter.prior[scatter] * s.other.prior[other] * s.tipScatter.prior[tipScatter]
}

// each visits every pair of hands.
func (s surface) each(visit func(contact, scatter, other, tipScatter int)) {
	for c := range s.contact.at {
		for a := range s.contactScatter.at {
			for o := range s.other.at {
				for t := range s.tipScatter.at {
					visit(c, a, o, t)
				}
			}
		}
	}
}

func likelihood(all []Seen, sightings [][]counted, moves moved) surface {
	s := surface{grid: newGrid(moves)}
	s.log = make([]float64, len(s.contact.at)*len(s.contactScatter.at)*len(s.other.at)*len(s.tipScatter.at))
	for i, seen := range all {
		bank := seen.Banks.Tip
		if moves == place {
			bank = seen.Banks.Place
		}
		s.add(bank, sightings[i])
	}
	return s
}

// add adds what was seen under one setup.
func (s surface) add(b *Bank, seen []counted) {
	others := make([][]float64, 0, len(s.other.at)*len(s.tipScatter.at))
	for _, mean := range s.other.at {
		for _, sd := range s.tipScatter.at {
			others = append(others, weigh(b.other, b.spread(), mean, sd))
		}
	}
	var c chances
	for i, mean := range s.contact.at {
		for j, sd := range s.contactScatter.at {
			contact := weigh(b.contact, drawContact, mean, sd)
			first := s.at(i, j, 0, 0)
			for k, other := range others {
				c.fill(b, contact, other)
				s.log[first+k] += c.logOf(seen)
			}
		}
	}
}

// alikeness is how much alike the breaks of one student are beyond their hands:
// one table, one cloth, one pace, which the bank varies from break to break. It
// is an intraclass correlation, chosen so that the ranges hold the truth as
// often as they say (FIT.md), and not estimated from anybody's breaks.
const alikeness = 0.025

// temper counts n breaks as the fewer that they are worth: n over Kish's design
// effect 1 + (n-1)·alikeness (Kish 1965, from memory).
func (s surface) temper(n int) {
	effect := designEffect(float64(n))
	for i := range s.log {
		s.log[i] /= effect
	}
}

func designEffect(n float64) float64 { return 1 + (n-1)*alikeness }

// oddErrors is how far above its mean, in standard deviations, X² must lie for
// breaks to be called odd: one in a hundred of the model's own students is
// (FIT.md).
const oddErrors = 3

// highest is the largest logarithm, to be taken off before exponentials.
func (s surface) highest() float64 {
	high := math.Inf(-1)
	for _, l := range s.log {
		high = math.Max(high, l)
	}
	return high
}

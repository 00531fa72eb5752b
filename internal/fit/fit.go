package fit

import (
	"errors"
	"fmt"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// RecordedBreaks is a setup's banks and the breaks that a student recorded under it.
type RecordedBreaks struct {
	Banks  BankPair
	Setup  drill.Setup // as it was broken with, from either side
	Breaks []drill.Break
}

// ErrNoBreaks is a fit to no breaks.
var ErrNoBreaks = errors.New("no breaks to fit to")

// EstimateHands estimates a student's hands from breaks under one setup or several.
func EstimateHands(all []RecordedBreaks) (Estimate, error) {
	sightings := make([][]observationCount, len(all))
	n := 0
	for i, s := range all {
		if s.Setup.ForSide(table.Left).Rounded() != s.Banks.Tip.setup.Rounded() {
			return Estimate{}, fmt.Errorf("fit: banks of another setup: %+v, not %+v", s.Banks.Tip.setup, s.Setup)
		}
		var list []observation
		for _, b := range s.Breaks {
			if s.Setup.Side == table.Right {
				b = b.Mirror()
			}
			list = append(list, readObservation(b, s.Banks.Tip.setup, s.Banks.Tip.kind))
		}
		sightings[i] = countObservations(list)
		n += len(list)
	}
	if n == 0 {
		return Estimate{}, ErrNoBreaks
	}
	heights, places := newLikelihoodSurface(all, sightings, tip), newLikelihoodSurface(all, sightings, place)
	heights.discountBreaks(n)
	places.discountBreaks(n)
	e := heights.sumUpEstimate()
	e.Breaks = n
	e.Causes = weighCauses(heights, places)
	e.Odd = heights.oddness(all, sightings) > oddErrors
	// From the right, right and left are changed over.
	if all[len(all)-1].Setup.Side == table.Right {
		e.Contact = e.Contact.mirrorValue()
	}
	return e, nil
}

// likelihoodSurface is the logarithm of the likelihood of all that was seen, for every
// pair of hands on a grid, in the order contact, contact scatter, other, tip
// scatter.
type likelihoodSurface struct {
	handsGrid
	log []float64
}

// indexOf returns the index of a pair of hands.
func (s likelihoodSurface) indexOf(contact, scatter, other, tipScatter int) int {
	return ((contact*len(s.contactScatter.at)+scatter)*len(s.other.at)+other)*len(s.tipScatter.at) + tipScatter
}

// priorOf returns the prior probability of a pair of hands.
func (s likelihoodSurface) priorOf(contact, scatter, other, tipScatter int) float64 {
	return s.contact.prior[contact] * s.contactScatter.prior[scatter] * s.other.prior[other] * s.tipScatter.prior[tipScatter]
}

// visitHands visits every pair of hands.
func (s likelihoodSurface) visitHands(visit func(contact, scatter, other, tipScatter int)) {
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

func newLikelihoodSurface(all []RecordedBreaks, sightings [][]observationCount, moves variedPart) likelihoodSurface {
	s := likelihoodSurface{handsGrid: newHandsGrid(moves)}
	s.log = make([]float64, len(s.contact.at)*len(s.contactScatter.at)*len(s.other.at)*len(s.tipScatter.at))
	for i, seen := range all {
		bank := seen.Banks.Tip
		if moves == place {
			bank = seen.Banks.Place
		}
		s.addLikelihood(bank, sightings[i])
	}
	return s
}

// addLikelihood adds what was seen under one setup.
func (s likelihoodSurface) addLikelihood(b *BreakBank, seen []observationCount) {
	others := make([][]float64, 0, len(s.other.at)*len(s.tipScatter.at))
	for _, mean := range s.other.at {
		for _, sd := range s.tipScatter.at {
			others = append(others, importanceWeights(b.other, b.otherSpread(), mean, sd))
		}
	}
	var c outcomeChances
	for i, mean := range s.contact.at {
		for j, sd := range s.contactScatter.at {
			contact := importanceWeights(b.contact, drawContact, mean, sd)
			first := s.indexOf(i, j, 0, 0)
			for k, other := range others {
				c.fillFromBank(b, contact, other)
				s.log[first+k] += c.logLikelihood(seen)
			}
		}
	}
}

// breakCorrelation is how much alike the breaks of one student are beyond their hands:
// one table, one cloth, one pace, which the bank varies from break to break. It
// is an intraclass correlation, chosen so that the ranges hold the truth as
// often as they say (FIT.md), and not estimated from anybody's breaks.
const breakCorrelation = 0.025

// discountBreaks counts n breaks as the fewer that they are worth: n over Kish's design
// effect 1 + (n-1)·alikeness (Kish 1965, from memory).
func (s likelihoodSurface) discountBreaks(n int) {
	effect := designEffect(float64(n))
	for i := range s.log {
		s.log[i] /= effect
	}
}

func designEffect(n float64) float64 { return 1 + (n-1)*breakCorrelation }

// oddErrors is how far above its mean, in standard deviations, X² must lie for
// breaks to be called odd: one in a hundred of the model's own students is
// (FIT.md).
const oddErrors = 3

// highestLog is the largest logarithm, to be taken off before exponentials.
func (s likelihoodSurface) highestLog() float64 {
	high := math.Inf(-1)
	for _, l := range s.log {
		high = math.Max(high, l)
	}
	return high
}

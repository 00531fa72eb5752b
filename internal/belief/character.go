package belief

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"breakwright/internal/response"
)

// characterGrain is in which parts of a standard deviation the characters of tables are told
// apart: those of two students beside nearly the same others are one.
const characterGrain float32 = 0.25

// characterBelief is what is believed of how a club's tables play, in whole grains: each
// number's mean and its standard deviation.
type characterBelief struct {
	mean, spread [response.CharacterSize]int16
}

// characterSpreads are the standard deviations of the numbers before a break was seen. That
// blows are handed on otherwise than is computed is thought possible, and no more.
var characterSpreads = [response.CharacterSize]float64{1, 1, 1, response.Instant: 0.4}

// anyTable is of a table of which nobody knows anything, and on which a rack hands on a blow
// as computed; instantTable is the same with blows that are handed on from pair to pair.
var anyTable, instantTable = characterBelief{spread: priorSpread()}, makeInstantTable()

// instantShare is how likely such a table is taken to be before a break was seen: no balls
// do quite that, but how much they do is what models of a break differ in most. Ten breaks
// of which all was noted mostly tell.
const instantShare = 0.02

func makeInstantTable() characterBelief {
	c := anyTable
	c.mean[response.Instant] = stepsOf(1, characterGrain)
	return c
}

func priorSpread() (spread [response.CharacterSize]int16) {
	for i := range response.Instant {
		spread[i] = stepsOf(float32(characterSpreads[i]), characterGrain)
	}
	return spread
}

// middle is the likeliest character.
func (b characterBelief) middle() (c response.Character) {
	for i, mean := range b.mean {
		c[i] = ofSteps(mean, characterGrain)
	}
	return c
}

// character is that of the table of one hand of the cloud.
func (b characterBelief) character(of *Hand) response.Character {
	c := b.middle()
	for i := range response.Instant {
		c[i] += ofSteps(b.spread[i], characterGrain) * of.Table[i]
	}
	return c
}

// tableEvidence is what breaks say of every hand of the cloud, were they struck on a table of
// a character.
type tableEvidence struct {
	character characterBelief
	logPrior  float64
	// facts has, by each fact, the logarithm of the likelihood of every hand.
	facts [facts][]float64
}

// newTableEvidence has seen no break on a table that is so likely.
func newTableEvidence(c characterBelief, share float64) tableEvidence {
	e := tableEvidence{character: c, logPrior: math.Log(share)}
	for f := range e.facts {
		e.facts[f] = make([]float64, len(cloud))
	}
	return e
}

// tellOfTable is how much of what others' breaks showed is put to their tables and not to
// themselves: of a few students whose strokes differ, much is their own.
const tellOfTable = 0.3

// character returns how the tables play, by what is seen more often of everybody than was
// expected: the likeliest numbers, were each outcome's count normal (a step of ridge
// regression; Hoerl & Kennard 1970).
func (s *Shown) character() characterBelief {
	const size = response.CharacterSize
	precision := mat.NewSymDense(size, nil)
	toward := mat.NewVecDense(size, nil)
	for i := range size {
		precision.SetSym(i, i, 1/(characterSpreads[i]*characterSpreads[i]))
	}
	for index := range response.OutputCount() {
		f, _ := response.FactAt(index)
		if int(f) >= facts {
			continue
		}
		trust := tellOfTable / (s.Expected[index] + steadiness)
		for i := range size {
			slope := s.Slopes[i][index]
			toward.SetVec(i, toward.AtVec(i)+trust*slope*(s.Seen[index]-s.Expected[index]))
			for j := i; j < size; j++ {
				precision.SetSym(i, j, precision.At(i, j)+trust*slope*s.Slopes[j][index])
			}
		}
	}
	return solveCharacter(precision, toward)
}

// furthestCharacter is how far from the middle a table may play, in standard deviations.
const furthestCharacter = 2.5

// solveCharacter returns the mean and spread of a normal belief of a precision.
func solveCharacter(precision *mat.SymDense, toward *mat.VecDense) (b characterBelief) {
	var factors mat.Cholesky
	factors.Factorize(precision) // a sum of squares and of the prior's: always positive
	var mean mat.VecDense
	var covariance mat.SymDense
	if factors.SolveVecTo(&mean, toward) != nil || factors.InverseTo(&covariance) != nil {
		return anyTable
	}
	for i := range b.mean {
		most := furthestCharacter * characterSpreads[i]
		least := -most
		if i == response.Instant {
			least = 0
		}
		b.mean[i] = stepsOf(float32(min(max(mean.AtVec(i), least), most)), characterGrain)
	}
	for i := range response.Instant { // how a blow is handed on is the same with every hand
		b.spread[i] = stepsOf(float32(math.Sqrt(covariance.At(i, i))), characterGrain)
	}
	return b
}

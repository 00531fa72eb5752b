package belief

import (
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// OutcomeShares returns the mean chance of every outcome under a setup, by its index,
// of the hands of some causes as they are believed now.
func (s *Student) OutcomeShares(k table.Kind, setup drill.Setup, causes ...Cause) []float64 {
	weights := s.handWeights()
	return s.meanShares(k, setup, func(i int) float64 {
		if !slices.Contains(causes, cloud[i].Cause) {
			return 0
		}
		return weights[i]
	})
}

// OrdinaryShares returns the same of hands with nothing amiss, before a break was seen:
// what a coach would expect of anybody.
func (s *Student) OrdinaryShares(k table.Kind, setup drill.Setup) []float64 {
	return s.meanShares(k, setup, func(i int) float64 {
		if cloud[i].Cause != Nothing {
			return 0
		}
		return 1
	})
}

// meanShares returns nil when no hand has a weight.
func (s *Student) meanShares(k table.Kind, setup drill.Setup, weightOf func(int) float64) []float64 {
	var most float64
	for i := range cloud {
		most = max(most, weightOf(i))
	}
	if most == 0 {
		return nil
	}
	shares, total := make([]float64, response.Width), 0.0
	instructed := s.situationOf(setup, k)
	for i := range cloud {
		w := weightOf(i)
		if w < most/100 {
			continue
		}
		total += w
		for index, chance := range s.chances(instructed, i) {
			shares[index] += w * float64(chance)
		}
	}
	for index := range shares {
		shares[index] /= total
	}
	return shares
}

// MeanSpeedOffset returns how much faster than told the stroke is believed to be.
func (s *Student) MeanSpeedOffset() table.Mph {
	return table.Mph(s.meanOver(func(h Hand) float64 { return float64(h.Speed) }))
}

// MeanTipOffset returns how much higher than told the tip is believed to strike, in
// fractions of the ball's radius.
func (s *Student) MeanTipOffset() float64 { return s.meanOver(func(h Hand) float64 { return h.Tip }) }

// meanOver returns the mean of a part over the hands, as they are believed now.
func (s *Student) meanOver(part func(Hand) float64) float64 {
	sum := 0.0
	for i, w := range s.handWeights() {
		sum += w * part(cloud[i].Hand)
	}
	return sum
}

package evidence

import (
	"errors"
	"math"
)

// JamesStein returns the rates of members with equally many breaks each, shrunk
// as by Efron and Morris (1975), JASA 70:311: on the scale √n asin(2y-1), where
// all have the same variance, towards the mean by 1 - (k-3)/V. It is the second
// opinion to Population.Shrink. Never is a rate drawn past the mean. It refuses
// fewer than four members and members with different or no breaks.
func JamesStein(counts []Count) ([]float64, error) {
	n, err := equallyMany(counts)
	if err != nil {
		return nil, err
	}
	scaled := make([]float64, len(counts))
	for i, c := range counts {
		scaled[i] = math.Sqrt(n) * math.Asin(2*c.Rate()-1)
	}
	shrinkAround(scaled, 1)
	for i, x := range scaled {
		scaled[i] = (math.Sin(x/math.Sqrt(n)) + 1) / 2
	}
	return scaled, nil
}

// JamesSteinRaw is JamesStein on the rates themselves with the variance of their
// mean, as in Efron and Morris (1977), Scientific American 236:119.
func JamesSteinRaw(counts []Count) ([]float64, error) {
	n, err := equallyMany(counts)
	if err != nil {
		return nil, err
	}
	rates, mean := make([]float64, len(counts)), 0.0
	for i, c := range counts {
		rates[i] = c.Rate()
		mean += rates[i] / float64(len(counts))
	}
	shrinkAround(rates, mean*(1-mean)/n)
	return rates, nil
}

// shrinkAround moves values towards their mean by 1 - (k-3) variance / V, in
// place, and returns nothing past the mean.
func shrinkAround(values []float64, variance float64) {
	mean, spread := 0.0, 0.0
	for _, x := range values {
		mean += x / float64(len(values))
	}
	for _, x := range values {
		spread += (x - mean) * (x - mean)
	}
	keep := 0.0
	if free := float64(len(values)-3) * variance; spread > free {
		keep = 1 - free/spread
	}
	for i, x := range values {
		values[i] = mean + keep*(x-mean)
	}
}

// equallyMany returns the number of breaks that every member has.
func equallyMany(counts []Count) (float64, error) {
	if len(counts) < 4 {
		return 0, errors.New("shrinking needs at least four members")
	}
	for _, c := range counts {
		if !c.usable() || c.Tried != counts[0].Tried {
			return 0, errors.New("shrinking needs equally many breaks from every member")
		}
	}
	return float64(counts[0].Tried), nil
}

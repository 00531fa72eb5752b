package picture

import (
	"math"
	"strconv"
)

// rowStep is how many units wide a set's place is in a row of sets.
const rowStep = 20

// describeBand says the band and the target of a bar whose count stands beside it.
func describeBand(r RateView) string {
	words := "not watched"
	if low, width, drawn := r.bandShares(); drawn && r.Of > 0 {
		words = strconv.Itoa(int(math.Round(100*low))) + " to " + percentWords(low+width)
	}
	if r.Target > 0 {
		words += ", target " + strconv.Itoa(int(math.Round(100*clampShare(r.Target))))
	}
	return words
}

// rowBox is the viewBox of a row of sets.
func (s SparkView) rowBox() string { return "0 0 " + strconv.Itoa(rowStep*len(s.Sets)) + " 54" }

// rowDots is the path of all dots in whole units: each a line without length.
func (s SparkView) rowDots() string {
	var b []byte
	for i, set := range s.Sets {
		b = append(appendRowPoint(append(b, 'M'), i, set), "h0"...)
	}
	return string(b)
}

// rowJoins is the path through the sets under one setup; "" when no two are.
func (s SparkView) rowJoins() string {
	var b []byte
	for i, set := range s.Sets {
		if i == 0 || set.NewSetup {
			continue
		}
		if i == 1 || s.Sets[i-1].NewSetup {
			b = appendRowPoint(append(b, 'M'), i-1, s.Sets[i-1])
		}
		b = appendRowPoint(append(b, 'L'), i, set)
	}
	return string(b)
}

func appendRowPoint(b []byte, i int, set SetRate) []byte {
	b = append(strconv.AppendInt(b, int64(rowStep*i+rowStep/2), 10), ' ')
	return strconv.AppendInt(b, int64(math.Round(sparkY(RateView{Made: set.Made, Of: set.Of}.shareMade()))), 10)
}

package breaklog

import (
	"strconv"
	"strings"
)

// refused says why a number was not read; empty when it was.
type refused string

// decimal reads a plain decimal number: digits, a decimal point, a sign.
func decimal(s string) (float64, refused) {
	digits := strings.TrimLeft(s, "+-")
	if digits == "" || len(s)-len(digits) > 1 || strings.Trim(digits, "0123456789.") != "" {
		return 0, whyNoNumber(s)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, whyNoNumber(s)
	}
	return v + 0, "" // + 0 turns -0 into 0
}

func whyNoNumber(s string) refused {
	switch {
	case strings.ContainsRune(s, '−') || strings.ContainsRune(s, '–'):
		return "write the minus sign as a plain hyphen, as in -0.1"
	case strings.Count(s, ",") == 1 && strings.Trim(s, "+-0123456789,") == "":
		return refused("write numbers with a decimal point: " + strings.Replace(s, ",", ".", 1))
	}
	return "a decimal number such as 18 or -0.1 is accepted"
}

// number reads a cell that holds a number; given is false when it is empty or
// was objected to.
func (r *reader) number(c column) (v float64, given bool) {
	cell := r.cell(c)
	if cell == "" {
		return 0, false
	}
	v, why := decimal(cell)
	if why != "" {
		r.object(c, string(why))
		return 0, false
	}
	return v, true
}

// whole reads a cell that holds a whole number of 0 or more.
func (r *reader) whole(c column, accepted string) (n int, given bool) {
	cell := r.cell(c)
	if cell == "" {
		return 0, false
	}
	v, err := strconv.ParseUint(cell, 10, 31)
	if err != nil {
		r.object(c, accepted)
		return 0, false
	}
	return int(v), true
}

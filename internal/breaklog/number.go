package breaklog

import (
	"strconv"
	"strings"
)

// numberRefusal says why a number was not read; empty when it was.
type numberRefusal string

// parseDecimal reads a plain decimal number: digits, a decimal point, a sign.
func parseDecimal(s string) (float64, numberRefusal) {
	digits := s
	if s != "" && (s[0] == '+' || s[0] == '-') {
		digits = s[1:]
	}
	if digits == "" || strings.ContainsFunc(digits, isNoDecimalSign) {
		return 0, explainNoNumber(s)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, explainNoNumber(s)
	}
	return v + 0, "" // + 0 turns -0 into 0
}

func isNoDecimalSign(letter rune) bool { return (letter < '0' || letter > '9') && letter != '.' }

func explainNoNumber(s string) numberRefusal {
	switch {
	case strings.ContainsRune(s, '−') || strings.ContainsRune(s, '–'):
		return "write the minus sign as a plain hyphen, as in -0.1"
	case strings.Count(s, ",") == 1 && strings.Trim(s, "+-0123456789,") == "":
		return numberRefusal("write numbers with a decimal point: " + strings.Replace(s, ",", ".", 1))
	}
	return "a decimal number such as 18 or -0.1 is accepted"
}

// readNumber reads a cell that holds a number; given is false when it is empty or
// was objected to.
func (r *logReader) readNumber(c logColumn) (v float64, given bool) {
	cell := r.cellText(c)
	if cell == "" {
		return 0, false
	}
	v, why := parseDecimal(cell)
	if why != "" {
		r.rejectCell(c, string(why))
		return 0, false
	}
	return v, true
}

// readWhole reads a cell that holds a whole number of 0 or more.
func (r *logReader) readWhole(c logColumn, accepted string) (n int, given bool) {
	cell := r.cellText(c)
	if cell == "" {
		return 0, false
	}
	v, err := strconv.ParseUint(cell, 10, 31)
	if err != nil {
		r.rejectCell(c, accepted)
		return 0, false
	}
	return int(v), true
}

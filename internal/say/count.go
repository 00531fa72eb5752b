package say

import (
	"strconv"
)

// Number writes a whole number in letters up to ten, "none" for 0: "three", "12".
func Number(n int) string {
	letters := [...]string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	if n >= 0 && n < len(letters) {
		return letters[n]
	}
	return strconv.Itoa(n)
}

// Thousands writes a number in groups of three digits: "50,000".
func Thousands(n int) string {
	digits := strconv.Itoa(n)
	from := 1 // a first digit, or the sign and one
	if n < 0 {
		from = 2
	}
	for at := len(digits) - 3; at >= from; at -= 3 {
		digits = digits[:at] + "," + digits[at:]
	}
	return digits
}

// Count writes how many, in digits: "0 breaks", "1 break", "10 breaks".
func Count(n int, one, many string) string { return digits(n) + " " + noun(n, one, many) }

// CountOrNo is Count with a word for none: "no students", "1 student".
func CountOrNo(n int, one, many string) string {
	if n == 0 {
		return "no " + many
	}
	return Count(n, one, many)
}

// CountFromOne is Count with a word for one and large numbers in groups: "one
// set", "1,200 sets".
func CountFromOne(n int, one, many string) string {
	if n == 1 {
		return "one " + one
	}
	return Thousands(n) + " " + many
}

// OfTotal writes a count and what it is out of: "3 of 10".
func OfTotal(count, total int) string { return strconv.Itoa(count) + " of " + strconv.Itoa(total) }

// CountOf writes a count out of a total of something: "1 of 1 student", "3 of 34 sets".
func CountOf(count, total int, one, many string) string {
	return OfTotal(count, total) + " " + noun(total, one, many)
}

// OfTotalUnbroken is OfTotal with spaces at which no line ends.
func OfTotalUnbroken(count, total int) string {
	return strconv.Itoa(count) + "\u00a0of\u00a0" + strconv.Itoa(total)
}

// OfWatched is [OfTotal] of breaks in which something was watched: "not watched"
// where it was in none.
func OfWatched(count, watched int) string {
	if watched == 0 {
		return "not watched"
	}
	return OfTotal(count, watched)
}

// Times writes how often: "never", "once", "twice", "3 times".
func Times(n int) string {
	switch n {
	case 0:
		return "never"
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return strconv.Itoa(n) + " times"
}

func noun(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

func digits(n int) string { return strconv.Itoa(n) }

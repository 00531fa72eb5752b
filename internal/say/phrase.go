package say

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Capitalize begins a phrase with a capital letter.
func Capitalize(phrase string) string { return withFirst(phrase, unicode.ToUpper) }

// Decapitalize begins a phrase with a small letter, to go on inside a sentence.
func Decapitalize(phrase string) string { return withFirst(phrase, unicode.ToLower) }

func withFirst(phrase string, turn func(rune) rune) string {
	first, size := utf8.DecodeRuneInString(phrase)
	if size == 0 {
		return ""
	}
	return string(turn(first)) + phrase[size:]
}

// Sentence makes a phrase a sentence: a capital, and a full stop. Of nothing it
// makes nothing.
func Sentence(phrase string) string {
	if phrase == "" {
		return ""
	}
	return Capitalize(phrase) + "."
}

// Join writes phrases one after another: "a", "a and b", "a, b and c".
func Join(phrases []string) string {
	last := len(phrases) - 1
	if last < 1 {
		return strings.Join(phrases, "")
	}
	return strings.Join(phrases[:last], ", ") + " and " + phrases[last]
}

// Day writes the date of a moment, in that moment's zone: "2 January 2006".
func Day(at time.Time) string { return at.Format("2 January 2006") }

// DayOfYear writes a date whose year is plain from where it stands: "2 January".
func DayOfYear(at time.Time) string { return at.Format("2 January") }

// ShortDay writes a date for a narrow column: "2 Jan".
func ShortDay(at time.Time) string { return at.Format("2 Jan") }

// ShortMoment writes a day and a time of day for a narrow column: "2 Jan, 15:04".
func ShortMoment(at time.Time) string { return at.Format("2 Jan, 15:04") }

// ShortWeekdayMoment is [ShortMoment] with its weekday: "Mon 2 Jan, 15:04".
func ShortWeekdayMoment(at time.Time) string { return at.Format("Mon 2 Jan, 15:04") }

// Weekday writes a date soon to come or just gone: "Monday 2 January".
func Weekday(at time.Time) string { return at.Format("Monday 2 January") }

// WeekdayOfYear writes a weekday with its year: "Monday 2 January 2006".
func WeekdayOfYear(at time.Time) string { return at.Format("Monday 2 January 2006") }

// Moment writes a day and a time of day: "2 January, 15:04".
func Moment(at time.Time) string { return at.Format("2 January, 15:04") }

// WeekdayMoment writes a weekday and a time of day: "Monday 2 January, 15:04".
func WeekdayMoment(at time.Time) string { return at.Format("Monday 2 January, 15:04") }

// MomentOfYear writes a day with its year and a time of day: "2 January 2006, 15:04".
func MomentOfYear(at time.Time) string { return at.Format("2 January 2006, 15:04") }

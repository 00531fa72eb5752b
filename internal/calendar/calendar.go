// Package calendar writes a calendar file of whole days, as RFC 5545
// (iCalendar) has it, for programs that keep people's calendars. It knows no
// drill and no due day; it refuses to repeat events or to know time zones,
// which whole days do without. Reading is not its business.
package calendar

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"
)

// Calendar is what a file holds.
type Calendar struct {
	// Name is what a program shows for the whole (RFC 7986, 5.1).
	Name string
	Days []Day
}

// Day is an event that lasts a whole day and leaves its people free.
type Day struct {
	// ID stays the same for the same thing in every file, so that a program
	// that has it changes it rather than adding another (3.8.4.7). It must be
	// unique in the world and must not be empty.
	ID string
	// Date is the day; only its year, month and day in its own location count.
	Date time.Time
	// StampedAt is when this state of it was written down: a program takes the later
	// of two (3.8.7.2).
	StampedAt time.Time
	Title     string
	Details   string // may be empty and have line feeds
}

// productID identifies the program (3.7.3).
const productID = "-//Breakwright//Breakwright//EN"

// Write writes the calendar. The same calendar is the same file, byte by byte.
func Write(to io.Writer, c Calendar) error {
	w := calendarWriter{out: bufio.NewWriter(to)}
	w.writeLine("BEGIN", "VCALENDAR")
	w.writeLine("VERSION", "2.0")
	w.writeLine("PRODID", productID)
	w.writeLine("CALSCALE", "GREGORIAN")
	w.writeLine("METHOD", "PUBLISH")
	w.writeText("NAME", c.Name)
	w.writeText("X-WR-CALNAME", c.Name) // what most programs read instead
	for _, d := range c.Days {
		w.writeDay(d)
	}
	w.writeLine("END", "VCALENDAR")
	if err := w.out.Flush(); err != nil {
		return fmt.Errorf("write calendar: %w", err)
	}
	return nil
}

// calendarWriter writes lines. A buffered writer remembers its first error, so only
// Flush is asked.
type calendarWriter struct{ out *bufio.Writer }

// writeDay writes an event. Without an end it lasts its one day (3.6.1).
func (w calendarWriter) writeDay(d Day) {
	w.writeLine("BEGIN", "VEVENT")
	w.writeLine("UID", escapeText(d.ID))
	w.writeLine("DTSTAMP", d.StampedAt.UTC().Format("20060102T150405Z"))
	w.writeLine("DTSTART;VALUE=DATE", d.Date.Format("20060102"))
	w.writeText("SUMMARY", d.Title)
	w.writeText("DESCRIPTION", d.Details)
	w.writeLine("TRANSP", "TRANSPARENT")
	w.writeLine("END", "VEVENT")
}

// writeText writes a property of free text, unless it is empty.
func (w calendarWriter) writeText(name, value string) {
	if value != "" {
		w.writeLine(name, escapeText(value))
	}
}

// longestLine is how many octets a line may have, its end left out (3.1).
const longestLine = 75

// writeLine writes a content line, folded: what is too long goes on in the next line
// after a space, never within a letter (3.1).
func (w calendarWriter) writeLine(name, value string) {
	rest := name + ":" + value
	room := longestLine
	for len(rest) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(rest[cut]) {
			cut--
		}
		_, _ = w.out.WriteString(rest[:cut] + "\r\n ")
		rest = rest[cut:]
		room = longestLine - 1 // the space counts
	}
	_, _ = w.out.WriteString(rest + "\r\n")
}

// textEscapes are those of free text (3.3.11).
var textEscapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`)

// escapeText makes any text one value: control signs other than a tab have no place
// in it (3.3.11), and what is no UTF-8 is shown as such.
func escapeText(text string) string {
	text = textEscapes.Replace(strings.ToValidUTF8(text, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, text)
}

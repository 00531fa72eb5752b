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
	// On is the day; only its year, month and day in its own location count.
	On time.Time
	// Made is when this state of it was written down: a program takes the later
	// of two (3.8.7.2).
	Made    time.Time
	Title   string
	Details string // may be empty and have line feeds
}

// maker identifies the program (3.7.3).
const maker = "-//Breakwright//Breakwright//EN"

// Write writes the calendar. The same calendar is the same file, byte by byte.
func Write(to io.Writer, c Calendar) error {
	w := writer{out: bufio.NewWriter(to)}
	w.line("BEGIN", "VCALENDAR")
	w.line("VERSION", "2.0")
	w.line("PRODID", maker)
	w.line("CALSCALE", "GREGORIAN")
	w.line("METHOD", "PUBLISH")
	w.text("NAME", c.Name)
	w.text("X-WR-CALNAME", c.Name) // what most programs read instead
	for _, d := range c.Days {
		w.day(d)
	}
	w.line("END", "VCALENDAR")
	if err := w.out.Flush(); err != nil {
		return fmt.Errorf("write calendar: %w", err)
	}
	return nil
}

// writer writes lines. A buffered writer remembers its first error, so only
// Flush is asked.
type writer struct{ out *bufio.Writer }

// day writes an event. Without an end it lasts its one day (3.6.1).
func (w writer) day(d Day) {
	w.line("BEGIN", "VEVENT")
	w.line("UID", escape(d.ID))
	w.line("DTSTAMP", d.Made.UTC().Format("20060102T150405Z"))
	w.line("DTSTART;VALUE=DATE", d.On.Format("20060102"))
	w.text("SUMMARY", d.Title)
	w.text("DESCRIPTION", d.Details)
	w.line("TRANSP", "TRANSPARENT")
	w.line("END", "VEVENT")
}

// text writes a property of free text, unless it is empty.
func (w writer) text(name, value string) {
	if value != "" {
		w.line(name, escape(value))
	}
}

// longestLine is how many octets a line may have, its end left out (3.1).
const longestLine = 75

// line writes a content line, folded: what is too long goes on in the next line
// after a space, never within a letter (3.1).
func (w writer) line(name, value string) {
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

// escapes are those of free text (3.3.11).
var escapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`)

// escape makes any text one value: control signs other than a tab have no place
// in it (3.3.11), and what is no UTF-8 is shown as such.
func escape(text string) string {
	text = escapes.Replace(strings.ToValidUTF8(text, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, text)
}

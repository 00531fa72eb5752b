package calendar

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

func written(t testing.TB, c Calendar) string {
	t.Helper()
	var file bytes.Buffer
	if err := Write(&file, c); err != nil {
		t.Fatal(err)
	}
	return file.String()
}

var friday = Day{
	ID: "018f@breakwright", Date: time.Date(2026, 3, 6, 0, 0, 0, 0, time.UTC),
	StampedAt: time.Date(2026, 3, 2, 19, 5, 7, 0, time.FixedZone("", 3600)), Title: "Find the wing ball", Details: "For Thursday evening.\nTen breaks, as always; take your time.",
}

// RFC 5545: 3.4 (the object), 3.6.1 (an event with a DATE and no end lasts that
// day), 3.3.4 (dates), 3.3.5 (times in UTC), 3.3.11 (escapes).
func TestWrite_AnEvent(t *testing.T) {
	want := strings.Join([]string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Breakwright//Breakwright//EN", "CALSCALE:GREGORIAN", "METHOD:PUBLISH",
		"NAME:Harbour Lane\\, due days", "X-WR-CALNAME:Harbour Lane\\, due days",
		"BEGIN:VEVENT", "UID:018f@breakwright", "DTSTAMP:20260302T180507Z", "DTSTART;VALUE=DATE:20260306",
		"SUMMARY:Find the wing ball", "DESCRIPTION:For Thursday evening.\\nTen breaks\\, as always\\; take your time.", "TRANSP:TRANSPARENT",
		"END:VEVENT", "END:VCALENDAR", "",
	}, "\r\n")
	if got := written(t, Calendar{Name: "Harbour Lane, due days", Days: []Day{friday}}); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// RFC 5545, 3.3.11, has this very example: "Project XYZ Final Review\nConference
// Room - 3B\nCome Prepared." is one value of DESCRIPTION.
func TestEscape(t *testing.T) {
	for text, want := range map[string]string{
		"Project XYZ Final Review\nConference Room - 3B\nCome Prepared.": `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`,
		`back\slash; semi, comma: colon "quoted"`:                        `back\\slash\; semi\, comma: colon "quoted"`,
		"a\r\nb\rc":                `a\nb\nc`,
		"tab\tstays, \x00 \x1b go": "tab\tstays\\,   go",
		"no \xff UTF-8":            "no \uFFFD UTF-8",
		"END:VEVENT\r\nBEGIN:X":    `END:VEVENT\nBEGIN:X`,
	} {
		if got := escapeText(text); got != want {
			t.Errorf("%q is written as %q, want %q", text, got, want)
		}
	}
}

// RFC 5545, 3.1: lines end in CRLF, none has more than 75 octets, a folded one
// goes on after a single space, and no letter is cut.
func TestLines_AreFolded(t *testing.T) {
	for _, title := range []string{
		strings.Repeat("x", 300), strings.Repeat("é", 150), strings.Repeat("🎱", 90), "a" + strings.Repeat("€", 80),
		strings.Repeat("y", 67), strings.Repeat("y", 68),
	} {
		day := friday
		day.Title = title
		file := written(t, Calendar{Days: []Day{day}})
		if strings.Contains(strings.ReplaceAll(file, "\r\n", ""), "\n") || strings.Contains(strings.ReplaceAll(file, "\r\n", ""), "\r") {
			t.Error("a line does not end in CRLF")
		}
		for _, line := range strings.Split(file, "\r\n") {
			if len(line) > 75 || !utf8.ValidString(line) {
				t.Errorf("%d octets, or a letter was cut: %q", len(line), line)
			}
		}
		unfolded := strings.ReplaceAll(file, "\r\n ", "")
		if !strings.Contains(unfolded, "\r\nSUMMARY:"+title+"\r\n") {
			t.Errorf("unfolded, %.20s… is not there", title)
		}
	}
}

type fullDisk struct{}

var errFull = errors.New("the disk is full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWrite_TellsOfAFullDisk(t *testing.T) {
	if err := Write(fullDisk{}, Calendar{}); !errors.Is(err, errFull) {
		t.Errorf("%v", err)
	}
}

// Whatever stands in a title, it is one property of one event.
func FuzzWrite(f *testing.F) {
	for _, s := range []string{"plain", "END:VEVENT\r\n", "🎱\x00\xff", strings.Repeat("é;,\\", 60)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, title string) {
		day := friday
		day.Title = "t" + title
		file := strings.ReplaceAll(written(t, Calendar{Days: []Day{day}}), "\r\n ", "")
		if strings.Count(file, "\r\nBEGIN:VEVENT\r\n") != 1 || strings.Count(file, "\r\nEND:VEVENT\r\n") != 1 || strings.Count(file, "\r\nSUMMARY:") != 1 || !utf8.ValidString(file) {
			t.Fatalf("%q becomes\n%s", title, file)
		}
	})
}

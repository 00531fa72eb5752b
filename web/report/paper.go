package report

import (
	"net/http"
	"strings"

	"breakwright/web/page"
)

// paperSize is a size of paper that a report is laid out for.
type paperSize string

// The sizes.
const (
	a4     paperSize = "a4"
	letter paperSize = "letter"
)

const fieldPaper = "paper"

// letterCountries print on Letter, the rest of the world on A4 (Unicode CLDR,
// supplemental data, paperSize US-Letter; from memory).
const letterCountries = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE"

// choosePaper is the paper that the address asks for; else the one that is usual in
// the country of the browser's first language, A4 where it names none.
func choosePaper(r *http.Request) paperSize {
	switch asked := paperSize(r.URL.Query().Get(fieldPaper)); asked {
	case a4, letter:
		return asked
	}
	first, _, _ := strings.Cut(r.Header.Get("Accept-Language"), ",")
	language, _, _ := strings.Cut(first, ";")
	for _, part := range strings.Split(language, "-")[1:] {
		if len(part) == 2 && strings.Contains(letterCountries, strings.ToUpper(part)) {
			return letter
		}
	}
	return a4
}

// stylesheetPath is the stylesheet that has the size of the paper, and nothing else.
func (p paperSize) stylesheetPath() string { return "css/report-" + string(p) + ".css" }

// label names it.
func (p paperSize) label() string {
	if p == letter {
		return "Letter"
	}
	return "A4"
}

func paperOptions() []page.Option {
	return []page.Option{{Value: string(a4), Words: a4.label()}, {Value: string(letter), Words: letter.label()}}
}

package browser

import (
	"bytes"
	"os/exec"
	"strings"

	"github.com/chromedp/cdproto/page"
)

// ReadPrinted returns the words on the paper that the page comes out on, in the order in
// which they stand there, one space between two.
func (w *Window) ReadPrinted() string {
	w.t.Helper()
	printed := w.PrintPDF(func(p *page.PrintToPDFParams) { p.PreferCSSPageSize = new(true) })
	reader := exec.CommandContext(w.t.Context(), "pdftotext", "-", "-") // of poppler-utils
	reader.Stdin = bytes.NewReader(printed)
	text, err := reader.Output()
	if err != nil {
		w.t.Fatalf("read what was printed: %v", err)
	}
	return strings.Join(strings.Fields(string(text)), " ")
}

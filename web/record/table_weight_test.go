//go:build !quick

package record_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"net/http"
	"path"
	"regexp"
	"strings"
	"testing"

	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// The bounds of a first visit, in bytes over the wire. The whole of it is what a
// slow phone waits for; the scripts are what it must read as well.
const (
	mostBytes       = 60 << 10
	mostScriptBytes = 30 << 10
	headerBytes     = 400 // of an answer, about
)

// What a first visit to the page at the table brings over the wire, the service
// worker and all that it keeps for later included.
func TestTable_Weight(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	student := site.SignInStudent(t, site.Students[0])
	student.Post(t, "/today/"+site.Assignment.String(), student.Get(t, "/today/"+site.Assignment.String()).FormValues(t, "form.actions"))
	total, scripts := 0, 0
	seen := map[string]bool{}
	var load func(address string)
	load = func(address string) {
		if seen[address] {
			return
		}
		seen[address] = true
		page := student.SendWithHeaders(t, http.MethodGet, address, nil, map[string]string{"Accept-Encoding": "gzip"}).RequireStatus(t, http.StatusOK)
		size := len(page.Text) + headerBytes
		total += size
		if path.Ext(address) == ".js" {
			scripts += size
		}
		t.Logf("%6d  %s", size, address)
		for _, next := range loads(address, unzip(t, page)) {
			load(next)
		}
	}
	for _, address := range []string{"/table", "/sync", "/sw.js"} {
		load(address)
	}
	t.Logf("%d bytes in all, %d of them scripts", total, scripts)
	if total > mostBytes {
		t.Errorf("a first visit weighs %d bytes, more than %d", total, mostBytes)
	}
	if scripts > mostScriptBytes {
		t.Errorf("its scripts weigh %d bytes, more than %d", scripts, mostScriptBytes)
	}
	if len(seen) < 15 {
		t.Errorf("only %d files were weighed", len(seen))
	}
}

func unzip(t *testing.T, page *webtest.Page) string {
	t.Helper()
	if page.Header.Get("Content-Encoding") != "gzip" {
		return page.Text
	}
	r, err := gzip.NewReader(strings.NewReader(page.Text))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

var (
	inPage   = regexp.MustCompile(`<(?:link|script)[^>]* (?:href|src)="(/[^"]+)"`)
	inWorker = regexp.MustCompile(`files = (\[[^\]]*\])`)
)

// loads lists what a file makes the browser load.
func loads(address, text string) []string {
	var next []string
	switch address {
	case "/table":
		for _, found := range inPage.FindAllStringSubmatch(text, -1) {
			next = append(next, found[1])
		}
	case "/sw.js":
		if found := inWorker.FindStringSubmatch(text); found != nil {
			_ = json.NewDecoder(bytes.NewReader([]byte(found[1]))).Decode(&next) // none is caught by the count
		}
	}
	return next
}

// A poor phone on a slow network: the time from opening the page for the first
// time, nothing of it on the phone, until a break can be tapped in.
func BenchmarkTable_SlowPhone(b *testing.B) {
	site := webtest.New(b)
	student := site.SignInStudent(b, site.Students[0])
	set := student.Post(b, "/today/"+site.Assignment.String(), student.Get(b, "/today/"+site.Assignment.String()).FormValues(b, "form.actions"))
	id := strings.Split(set.Path, "/")[3]
	for b.Loop() {
		b.StopTimer()
		w := browser.OpenWindow(b, browser.SmallPhone)
		w.SignIn(site.URL, site.Students[0].Code, webtest.PIN)
		w.WaitFor(`bw.person().then(Boolean)`)
		w.ClearStorage()
		w.EmulateSlowPhone()
		b.StartTimer()
		w.Navigate(site.URL + "/table?set=" + id)
		w.WaitFor(`document.querySelector("#entry") && !document.querySelector("#entry").hidden`)
	}
}

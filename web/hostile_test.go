//go:build !quick

package web_test

import (
	"maps"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/web/route"
	"breakwright/web/webtest"
)

// hostileValues have each broken a program somewhere: what no database keeps,
// numbers beyond a type, and texts that other languages read as their own.
var hostileValues = []string{
	"a\x00b", "\xff\xfe\xfa", "\xc3\x28", "2147483648", "-9223372036854775809", "1e400", "NaN", "-0", "9999999999999999999999",
	"'; drop table club; --", "<script>alert(1)</script>", "{{.}}", "%00", "../../etc/passwd", "\r\nSet-Cookie: a=b",
	"\u202eright to left", "00000000-0000-0000-0000-000000000000", "0001-01-01", "999999-12-31", "", " ", strings.Repeat("9", 400), strings.Repeat("ä", 70_000),
}

// formsOf lists the forms of all pages that somebody may see. Signing out is
// left out: it would end the test.
func (w world) formsOf(t *testing.T, p *webtest.Client, who ...route.Audience) map[string]webtest.Form {
	t.Helper()
	forms := map[string]webtest.Form{}
	for _, r := range w.site.Routes {
		if r.Method != http.MethodGet || !slices.Contains(who, r.Audience) || r.Pace != route.Page {
			continue
		}
		got := p.Get(t, w.address(t, r))
		for _, form := range got.Forms(t) {
			if form.Method == http.MethodPost && form.Path != "/sign-out" {
				forms[form.Path] = form
			}
		}
	}
	return forms
}

// isSentence is a capital, a figure or what was typed at the beginning, and one stop at
// the end.
var isSentence = regexp.MustCompile(`^[\p{Lu}\d“"].*[^.!?][.!?]$`)

// Nothing that stands in a field makes a page fall over, and what is wrong with it is
// said in a sentence.
func TestHostile_EveryField(t *testing.T) {
	w := newWorld(t)
	for name, p := range map[string]struct {
		client *webtest.Client
		who    []route.Audience
	}{
		"coach":   {w.site.SignInCoach(t), []route.Audience{route.Coach, route.Member}},
		"student": {w.site.SignInStudent(t, w.first.Students[0]), []route.Audience{route.Student, route.Member}},
		"nobody":  {w.site.NewClient(t), []route.Audience{route.Anyone}},
	} {
		forms := w.formsOf(t, p.client, p.who...)
		if len(forms) == 0 {
			t.Fatalf("the %s finds no forms", name)
		}
		turn := 0
		for _, path := range slices.Sorted(maps.Keys(forms)) {
			form := forms[path]
			for _, field := range slices.Sorted(maps.Keys(form.Values)) {
				// Each field gets three of the values, and all fields together get all.
				for range 3 {
					value := hostileValues[turn%len(hostileValues)]
					turn++
					sent := maps.Clone(form.Values)
					sent[field] = []string{value}
					got := p.client.WithoutRedirects().Post(t, form.Path, sent)
					if got.Code >= 500 {
						t.Errorf("the %s sends %.20q as %s to %s and gets %d", name, value, field, form.Path, got.Code)
					}
					for _, shown := range got.FindAll(t, "p.error, .notice.wrong li a") {
						if words := shown.FirstChild; words != nil && !isSentence.MatchString(words.Data) {
							t.Errorf("the %s sends %.20q as %s to %s and reads %q", name, value, field, form.Path, words.Data)
						}
					}
				}
			}
		}
	}
}

// A letter that no database keeps is refused beside its field, whichever form it is
// typed into: it is neither left out nor changed for another behind a person's back.
func TestHostile_LettersThatAreNoneAreRefused(t *testing.T) {
	w := newWorld(t)
	for name, p := range map[string]struct {
		client *webtest.Client
		who    []route.Audience
	}{
		"coach":   {w.site.SignInCoach(t), []route.Audience{route.Coach, route.Member}},
		"student": {w.site.SignInStudent(t, w.first.Students[0]), []route.Audience{route.Student, route.Member}},
		"nobody":  {w.site.NewClient(t), []route.Audience{route.Anyone}},
	} {
		tried := 0
		for path, form := range w.formsOf(t, p.client, p.who...) {
			for _, field := range form.Written {
				sent := maps.Clone(form.Values)
				sent.Set(field, "1\x002")
				got := p.client.WithoutRedirects().Post(t, path, sent)
				tried++
				if got.Code == http.StatusNotFound {
					continue // what it is about is said by the button that is pressed
				}
				if got.Code != http.StatusUnprocessableEntity || !strings.Contains(strings.ToLower(got.Text), "something in it is no letter") {
					t.Errorf("the %s sends a zero byte as %s to %s and gets %d", name, field, path, got.Code)
				}
			}
		}
		if tried == 0 {
			t.Errorf("the %s finds no fields", name)
		}
	}
}

// Nothing that stands in an address, a header or a body makes a route fall over.
func TestHostile_EveryRoute(t *testing.T) {
	w := newWorld(t)
	people := map[route.Audience]*webtest.Client{
		route.Coach: w.site.SignInCoach(t), route.Student: w.site.SignInStudent(t, w.first.Students[0]), route.Anyone: w.site.NewClient(t),
	}
	people[route.Member] = people[route.Coach]
	routes := slices.DeleteFunc(slices.Clone(w.site.Routes), func(r route.Route) bool {
		return r.Pattern == "/sign-out" || r.Pace == route.Stream
	})
	queries := []string{"class", "student", "table", "from", "game", "feet", "change", "rest", "span", "paper", "for", "next", "who", "rule", "x", "y"}
	rapid.Check(t, func(rt *rapid.T) {
		r := rapid.SampledFrom(routes).Draw(rt, "route")
		value := rapid.OneOf(rapid.SampledFrom(hostileValues), rapid.StringN(0, 200, 400)).Draw(rt, "value")
		query := url.Values{rapid.SampledFrom(queries).Draw(rt, "query"): {value}}
		headers := map[string]string{"Sec-Fetch-Site": "same-origin"}
		header := rapid.SampledFrom([]string{"If-None-Match", "Accept-Encoding", "HX-Request", "X-Request-Id", "Accept", "Referer", "Cookie"}).Draw(rt, "header")
		if clean := strings.Map(printable, value); header != "Cookie" && clean != "" {
			headers[header] = clean[:min(len(clean), 8000)]
		}
		form := url.Values{"id": {value}, "revision": {value}, "name": {value}, value: {value}}
		got := people[r.Audience].WithoutRedirects().SendWithHeaders(t, r.Method, w.address(t, r)+"?"+query.Encode(), form, headers)
		if got.Code >= 500 {
			rt.Fatalf("%s %s answers %d", r.Method, r.Pattern, got.Code)
		}
	})
}

// printable keeps what Go's client lets into a header.
func printable(r rune) rune {
	if r < ' ' || r == 0x7f {
		return -1
	}
	return r
}

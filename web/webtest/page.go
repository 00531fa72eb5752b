package webtest

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/andybalholm/cascadia"
	"golang.org/x/net/html"
)

// Page is an answer that can be looked into.
type Page struct {
	Code int
	// Path is where it came from in the end, after redirects.
	Path   string
	Header http.Header
	Text   string
	root   *html.Node
}

// RequireStatus fails the test unless the page has that status.
func (p *Page) RequireStatus(t testing.TB, want int) *Page {
	t.Helper()
	if p.Code != want {
		t.Fatalf("%s answered %d, want %d: %.400s", p.Path, p.Code, want, p.TextOf(t, "main"))
	}
	return p
}

// FindAll returns the elements that a CSS selector finds.
func (p *Page) FindAll(t testing.TB, selector string) []*html.Node {
	t.Helper()
	if p.root == nil {
		root, err := html.Parse(strings.NewReader(p.Text))
		if err != nil {
			t.Fatal(err)
		}
		p.root = root
	}
	compiled, err := cascadia.ParseGroup(selector)
	if err != nil {
		t.Fatal(err)
	}
	return cascadia.QueryAll(p.root, compiled)
}

// TextOf returns the text of all elements that a selector finds, white space
// folded; "" when there are none.
func (p *Page) TextOf(t testing.TB, selector string) string {
	t.Helper()
	var b strings.Builder
	for _, n := range p.FindAll(t, selector) {
		collectText(n, &b)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

func collectText(n *html.Node, b *strings.Builder) {
	if n.Type == html.TextNode {
		b.WriteString(n.Data + " ")
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		collectText(c, b)
	}
}

// RequireText fails the test unless the elements of a selector say all the words.
func (p *Page) RequireText(t testing.TB, selector string, words ...string) *Page {
	t.Helper()
	text := p.TextOf(t, selector)
	for _, want := range words {
		if !strings.Contains(text, want) {
			t.Fatalf("%s: %s says %q, not %q", p.Path, selector, text, want)
		}
	}
	return p
}

// RequireCount fails the test unless a selector finds so many elements.
func (p *Page) RequireCount(t testing.TB, selector string, want int) *Page {
	t.Helper()
	if got := len(p.FindAll(t, selector)); got != want {
		t.Fatalf("%s has %d of %s, want %d", p.Path, got, selector, want)
	}
	return p
}

// AttributeOf returns an attribute of the first element that a selector finds, or "".
func (p *Page) AttributeOf(t testing.TB, selector, name string) string {
	t.Helper()
	for _, n := range p.FindAll(t, selector) {
		for _, a := range n.Attr {
			if a.Key == name {
				return a.Val
			}
		}
	}
	return ""
}

// FormValues returns what a form on the page would send untouched: hidden fields,
// values and what is chosen.
func (p *Page) FormValues(t testing.TB, selector string) url.Values {
	t.Helper()
	return formValues(p.FindAll(t, selector+" input,"+selector+" textarea,"+selector+" option[selected]"))
}

// Form is a form of a page, as a browser would send it untouched.
type Form struct {
	Path, Method string
	Values       url.Values
	// Written are the fields in which words or numbers are typed, Secret those for a
	// passphrase, a PIN or a code, which a browser is told by what it may fill in.
	Written, Secret []string
}

// Forms lists the forms of a page. Of answers that are not chosen yet the first
// is.
func (p *Page) Forms(t testing.TB) []Form {
	t.Helper()
	var forms []Form
	for _, n := range p.FindAll(t, "form") {
		form := Form{Path: attributeOf(n, "action"), Method: strings.ToUpper(attributeOf(n, "method")), Values: formValues(cascadia.QueryAll(n, fieldsOfForm))}
		for _, field := range cascadia.QueryAll(n, writtenFields) {
			form.Written = append(form.Written, attributeOf(field, "name"))
		}
		for _, field := range cascadia.QueryAll(n, secretFields) {
			form.Secret = append(form.Secret, attributeOf(field, "name"))
		}
		if form.Path == "" {
			form.Path = p.Path
		}
		for _, choice := range cascadia.QueryAll(n, fieldsOfForm) {
			if name := attributeOf(choice, "name"); name != "" && !form.Values.Has(name) {
				form.Values.Set(name, attributeOf(choice, "value"))
			}
		}
		forms = append(forms, form)
	}
	return forms
}

var (
	fieldsOfForm  = cascadia.MustCompile("input, textarea, option[selected]")
	secretFields  = cascadia.MustCompile(`input[type="password"], input[autocomplete="one-time-code"]`)
	writtenFields = cascadia.MustCompile(`textarea[name], input[name][type="text"], input[name][type="search"]`)
)

func formValues(fields []*html.Node) url.Values {
	values := url.Values{}
	for _, n := range fields {
		attrs := map[string]string{}
		for _, a := range n.Attr {
			attrs[a.Key] = a.Val
		}
		_, checked := attrs["checked"]
		switch {
		case n.Data == "option":
			values.Add(attributeOf(n.Parent, "name"), attrs["value"])
		case n.Data == "textarea":
			var b strings.Builder
			collectText(n, &b)
			values.Add(attrs["name"], strings.TrimSuffix(b.String(), " "))
		case attrs["type"] == "image", attrs["type"] == "submit", (attrs["type"] == "radio" || attrs["type"] == "checkbox") && !checked:
		default:
			values.Add(attrs["name"], attrs["value"])
		}
	}
	return values
}

func attributeOf(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

package picture_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/a-h/templ"

	"breakwright/internal/table"
)

// node is an element read back from a picture.
type node struct {
	name     string
	attr     map[string]string
	parent   *node
	children []*node
	text     string
}

// draw renders a component and reads it back as strict XML, under one root.
func draw(t *testing.T, c templ.Component) (string, *node) {
	t.Helper()
	var b bytes.Buffer
	if err := c.Render(t.Context(), &b); err != nil {
		t.Fatalf("render: %v", err)
	}
	return b.String(), parse(t, b.String())
}

func parse(t *testing.T, source string) *node {
	t.Helper()
	root := &node{name: "root"}
	at := root
	d := xml.NewDecoder(strings.NewReader(source))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, source)
		}
		switch token := token.(type) {
		case xml.StartElement:
			n := &node{name: token.Name.Local, attr: map[string]string{}, parent: at}
			for _, a := range token.Attr {
				if _, twice := n.attr[a.Name.Local]; twice {
					t.Errorf("<%s> has %s twice", n.name, a.Name.Local)
				}
				n.attr[a.Name.Local] = a.Value
			}
			at.children = append(at.children, n)
			at = n
		case xml.EndElement:
			at = at.parent
		case xml.CharData:
			at.text += string(token)
		}
	}
	if at != root {
		t.Fatalf("<%s> is never closed", at.name)
	}
	return root
}

// all visits the nodes in drawing order.
func (n *node) all(visit func(*node)) {
	for _, c := range n.children {
		visit(c)
		c.all(visit)
	}
}

// find lists the elements with that name and class; "" is any.
func (n *node) find(name, class string) []*node {
	var found []*node
	n.all(func(c *node) {
		hasClass := class == "" || strings.Contains(" "+c.attr["class"]+" ", " "+class+" ")
		if (name == "" || c.name == name) && hasClass {
			found = append(found, c)
		}
	})
	return found
}

func (n *node) one(t *testing.T, name, class string) *node {
	t.Helper()
	found := n.find(name, class)
	if len(found) != 1 {
		t.Fatalf("%d of <%s class=%q>, want one", len(found), name, class)
	}
	return found[0]
}

// inches reads an attribute in user units: ten to the inch.
func (n *node) inches(t *testing.T, name string) table.Inches {
	t.Helper()
	f, err := strconv.ParseFloat(n.attr[name], 64)
	if err != nil {
		t.Fatalf("<%s> %s: %v", n.name, name, err)
	}
	return table.Inches(f / 10)
}

// centre reads cx and cy, or the translation, as a place: the package comment's
// transform.
func (n *node) centre(t *testing.T) table.Place {
	t.Helper()
	if moved, ok := n.attr["transform"]; ok {
		xy := numbers(t, strings.TrimSuffix(strings.TrimPrefix(moved, "translate("), ")"))
		return table.Place{X: table.Inches(xy[0] / 10), Y: table.Inches(-xy[1] / 10)}
	}
	return table.Place{X: n.inches(t, "cx"), Y: -n.inches(t, "cy")}
}

var numberPattern = regexp.MustCompile(`-?\d*\.?\d+`)

func numbers(t *testing.T, s string) []float64 {
	t.Helper()
	var all []float64
	for _, m := range numberPattern.FindAllString(s, -1) {
		f, err := strconv.ParseFloat(m, 64)
		if err != nil {
			t.Fatalf("number %q: %v", m, err)
		}
		all = append(all, f)
	}
	return all
}

var commandPattern = regexp.MustCompile(`[A-Za-z][^A-Za-z]*`)

// subpaths reads the points a path names with M, L, H and V, one list for each
// M. Relative commands (the small shapes around a point) are left out.
func subpaths(t *testing.T, d string) [][]table.Place {
	t.Helper()
	var all [][]table.Place
	var last table.Place
	for _, c := range commandPattern.FindAllString(d, -1) {
		n := numbers(t, c[1:])
		switch c[0] {
		case 'M', 'L':
			last = table.Place{X: table.Inches(n[0] / 10), Y: table.Inches(-n[1] / 10)}
		case 'H':
			last.X = table.Inches(n[0] / 10)
		case 'V':
			last.Y = table.Inches(-n[0] / 10)
		default:
			continue
		}
		if c[0] == 'M' {
			all = append(all, nil)
		}
		all[len(all)-1] = append(all[len(all)-1], last)
	}
	return all
}

// drawn is how exactly coordinates are written: a tenth of a unit, a hundredth
// of an inch, so at most half of that off on either axis.
const drawn table.Inches = 0.0051

func same(a, b table.Place) bool {
	return math.Abs(float64(a.X-b.X)) <= float64(drawn) && math.Abs(float64(a.Y-b.Y)) <= float64(drawn)
}

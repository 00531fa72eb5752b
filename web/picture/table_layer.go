package picture

import (
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"breakwright/internal/table"
)

// fonts is only for a picture that stands alone; the stylesheet takes the page's.
const fonts = "system-ui,sans-serif"

// labelledBy names the title and description of a picture.
func labelledBy(id string) string { return id + "-t " + id + "-d" }

// tapAttributes tells a script the scale: see the package comment.
func tapAttributes(t TableView) templ.Attributes {
	if !t.Tappable {
		return nil
	}
	return templ.Attributes{
		"data-inches-per-unit": strconv.FormatFloat(1.0/UnitsPerInch, 'f', -1, 64),
		"data-feet":            strconv.Itoa(t.Kind.Feet),
		"data-width":           t.Kind.Width().String(),
		"data-length":          t.Kind.Length().String(),
	}
}

// rect gives the attributes of a rectangle between two corners.
func rect(left, right, head, foot table.Inches) templ.Attributes {
	return templ.Attributes{"x": u(left), "y": v(foot), "width": u(right - left), "height": u(foot - head)}
}

// outer is the outside of the rails.
func outer(t TableView) templ.Attributes {
	w, l := t.Kind.Width()/2+railWidth, t.Kind.Length()
	return rect(-w, w, -railWidth, l+railWidth)
}

// bed is the cloth, under the cushions too.
func bed(k table.Kind) templ.Attributes {
	w, l := k.Width()/2+cushionWidth, k.Length()
	return rect(-w, w, -cushionWidth, l+cushionWidth)
}

// linePath draws the head string from nose to nose and the long string from
// the head rail to it, as a hint.
func linePath(k table.Kind) string {
	head := k.HeadString()
	return "M" + at(table.Place{X: k.Rail(table.Left), Y: head}) + "H" + u(k.Rail(table.Right)) +
		"M" + at(table.Place{}) + "V" + v(head)
}

// spotPath draws head, centre and foot spot as round caps of empty lines.
func spotPath(k table.Kind) string {
	var b strings.Builder
	for _, p := range []table.Place{k.HeadSpot(), k.CentreSpot(), k.FootSpot()} {
		b.WriteString("M" + at(p) + "h0")
	}
	return b.String()
}

// label is where a sight's number stands: further out on the rail.
func (s sight) label() table.Place {
	return table.Place{X: s.at.X + s.out.X*1.05, Y: s.at.Y + s.out.Y*1.05}
}

// centred places a text so that capitals and figures of that size stand with
// their middle on the place. (dominant-baseline is not drawn alike everywhere.)
func centred(p table.Place, fontSize float64) templ.Attributes {
	return templ.Attributes{"x": u(p.X), "y": units(-float64(p.Y)*UnitsPerInch + capShift*fontSize)}
}

// capShift is half the height of capitals and lining figures in ems: about
// 0.72 em in the usual sans-serif faces.
const capShift = 0.36

package picture

import (
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"breakwright/internal/table"
)

// fontFamily is only for a picture that stands alone; the stylesheet takes the page's.
const fontFamily = "system-ui,sans-serif"

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

// rectAttributes returns the attributes of a rectangle between two corners.
func rectAttributes(left, right, head, foot table.Inches) templ.Attributes {
	return templ.Attributes{"x": formatX(left), "y": formatY(foot), "width": formatX(right - left), "height": formatX(foot - head)}
}

// railsRect is the outside of the rails.
func railsRect(t TableView) templ.Attributes {
	w, l := t.Kind.Width()/2+railWidth, t.Kind.Length()
	return rectAttributes(-w, w, -railWidth, l+railWidth)
}

// bedRect is the cloth, under the cushions too.
func bedRect(k table.Kind) templ.Attributes {
	w, l := k.Width()/2+cushionWidth, k.Length()
	return rectAttributes(-w, w, -cushionWidth, l+cushionWidth)
}

// linePath draws the head string from nose to nose and the long string from
// the head rail to it, as a hint.
func linePath(k table.Kind) string {
	head := k.HeadString()
	return "M" + formatPlace(table.Place{X: k.SideRailX(table.Left), Y: head}) + "H" + formatX(k.SideRailX(table.Right)) +
		"M" + formatPlace(table.Place{}) + "V" + formatY(head)
}

// spotPath draws head, centre and foot spot as round caps of empty lines.
func spotPath(k table.Kind) string {
	var b strings.Builder
	for _, p := range []table.Place{k.HeadSpot(), k.CentreSpot(), k.FootSpot()} {
		b.WriteString("M" + formatPlace(p) + "h0")
	}
	return b.String()
}

// numberPlace is where a sight's number stands: further out on the rail.
func (s railDiamond) numberPlace() table.Place {
	return table.Place{X: s.at.X + s.out.X*1.05, Y: s.at.Y + s.out.Y*1.05}
}

// centredText places a text so that capitals and figures of that size stand with
// their middle on the place. (dominant-baseline is not drawn alike everywhere.)
func centredText(p table.Place, fontSize float64) templ.Attributes {
	return templ.Attributes{"x": formatX(p.X), "y": formatUnits(-float64(p.Y)*UnitsPerInch + capShift*fontSize)}
}

// capShift is half the height of capitals and lining figures in ems: about
// 0.72 em in the usual sans-serif faces.
const capShift = 0.36

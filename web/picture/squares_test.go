package picture_test

import (
	"bytes"
	"encoding/xml"
	"strconv"
	"strings"
	"testing"

	"breakwright/internal/table"
	"breakwright/web/picture"
)

// readTexts returns every text of an SVG and where it stands.
func readTexts(t *testing.T, svg string) map[string][][2]float64 {
	t.Helper()
	texts := map[string][][2]float64{}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if err != nil {
			return texts
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "text" {
			continue
		}
		var at [2]float64
		for _, a := range start.Attr {
			switch a.Name.Local {
			case "x":
				at[0], err = strconv.ParseFloat(a.Value, 64)
			case "y":
				at[1], err = strconv.ParseFloat(a.Value, 64)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		var name string
		if err := d.DecodeElement(&name, &start); err != nil {
			t.Fatal(err)
		}
		texts[name] = append(texts[name], at)
	}
}

// The names stand beside the middle of their squares, at both ends, and
// outside of the cloth; they are read back from the drawing.
func TestSquares_NamesStandBesideTheirSquares(t *testing.T) {
	for _, k := range []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot()} {
		v := picture.SquaresView{ID: "s", Kind: k, Columns: []string{"a", "b", "c", "d"}, Rows: []string{"1", "2", "3", "4", "5", "6", "7", "8"}}
		window := k.StandardWindow()
		v.Window = &window
		var drawn bytes.Buffer
		if err := picture.SquaresSVG(v).Render(t.Context(), &drawn); err != nil {
			t.Fatal(err)
		}
		texts := readTexts(t, drawn.String())
		if len(texts) != 12 {
			t.Fatalf("%s: %d names", k, len(texts))
		}
		for i, name := range v.Columns {
			want := float64(-k.Width()/2+(table.Inches(i)+0.5)*k.DiamondSpacing()) * picture.UnitsPerInch
			for _, at := range texts[name] {
				outside := at[1] > 0 || at[1] < -float64(k.Length())*picture.UnitsPerInch
				if len(texts[name]) != 2 || at[0] < want-0.1 || at[0] > want+0.1 || !outside {
					t.Errorf("%s: column %s at %v, want x %g", k, name, texts[name], want)
				}
			}
		}
		for i, name := range v.Rows {
			// The text's foot stands a little below the middle of its row.
			want := -float64((table.Inches(i)+0.5)*k.DiamondSpacing()) * picture.UnitsPerInch
			for _, at := range texts[name] {
				outside := max(at[0], -at[0]) > float64(k.Width()/2)*picture.UnitsPerInch
				if len(texts[name]) != 2 || at[1] < want || at[1] > want+20 || !outside {
					t.Errorf("%s: row %s at %v, want y %g", k, name, texts[name], want)
				}
			}
		}
		if !strings.Contains(drawn.String(), "stroke-dasharray") || !strings.Contains(drawn.String(), "<desc") {
			t.Errorf("%s: the window or the words for hearing are missing", k)
		}
	}
}

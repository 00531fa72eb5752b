package roster_test

import (
	"net/http"
	"strconv"
	"strings"
	"testing"

	"rsc.io/qr"

	"breakwright/internal/account"
	"breakwright/web/webtest"
)

func TestCodesAreForThoseWhoHaveNotJoined(t *testing.T) {
	s := newSite(t)
	s.join(t, 1)
	sheet := s.get(t, s.class()+"/codes").RequireText(t, ".answer", "2 cards").RequireCount(t, ".card", 2).RequireText(t, "main", "Left out: 1 student")
	sheet.RequireText(t, ".card", "Odile", "Wen", "Harbour Lane", account.FormatCode(s.Students[0].Code), strings.TrimPrefix(s.URL, "http://")+"/join/ "+s.Students[0].Code)
	if strings.Contains(sheet.Text, s.Students[1].Code) {
		t.Error("the code of a student who joined is printed")
	}
	sheet.RequireText(t, ".notice.care", "No phone can open these cards", strings.TrimPrefix(s.URL, "http://"), "--listen 0.0.0.0:").RequireText(t, ".hint", "https")
	s.get(t, s.class()+"/codes?all=1").RequireCount(t, ".card", 3).RequireText(t, ".card", "Bram")
	s.join(t, 0)
	s.join(t, 2)
	s.get(t, s.class()+"/codes").RequireText(t, ".answer", "all have joined").RequireCount(t, ".card", 0)
}

func TestCodesOfHostileNames(t *testing.T) {
	s := newSite(t)
	names := "<script>alert(1)</script>\n🎱\n" + strings.Repeat("W", 120)
	s.add(t, made("names", names)).RequireStatus(t, http.StatusOK)
	s.get(t, s.class()+"/codes").RequireCount(t, ".card", 6).RequireCount(t, "main script", 0).RequireText(t, ".card-name", "<script>alert(1)</script>", "🎱")
}

// The drawing is read back module by module and compared with the symbol that
// ISO/IEC 18004 gives for the address, four light modules around it.
func TestQRCodeIsDrawnWhole(t *testing.T) {
	s := newSite(t)
	sheet := s.get(t, s.class()+"/codes")
	address := s.URL + "/join/" + s.Students[1].Code // Bram's is the first by name
	want, err := qr.Encode(address, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	if label := sheet.AttributeOf(t, ".card svg[role=img]", "aria-label"); label != "QR code that opens "+address {
		t.Errorf("the text alternative is %q", label)
	}
	const quiet = 4
	side := want.Size + 2*quiet
	if box := sheet.AttributeOf(t, ".card svg", "viewBox"); box != "0 0 "+strconv.Itoa(side)+" "+strconv.Itoa(side) {
		t.Errorf("viewBox %q for %d modules", box, want.Size)
	}
	dark := readModules(t, sheet)
	count := 0
	for y := range side {
		for x := range side {
			// Black is false outside the symbol.
			if black := want.Black(x-quiet, y-quiet); dark[[2]int{x, y}] != black {
				t.Fatalf("module %d,%d: drawn %v, want %v", x, y, dark[[2]int{x, y}], black)
			} else if black {
				count++
			}
		}
	}
	if len(dark) != count || count == 0 {
		t.Errorf("%d dark modules drawn, %d wanted", len(dark), count)
	}
}

// readModules follows the path's bars: "M4 4h7v1h-7z".
func readModules(t *testing.T, sheet *webtest.Page) map[[2]int]bool {
	t.Helper()
	dark := map[[2]int]bool{}
	for bar := range strings.SplitSeq(strings.TrimPrefix(sheet.AttributeOf(t, ".card svg path.dark", "d"), "M"), "M") {
		numbers := strings.FieldsFunc(bar, func(r rune) bool { return strings.ContainsRune(" hvz", r) })
		if len(numbers) != 5 || numbers[3] != "1" || numbers[4] != "-"+numbers[2] {
			t.Fatalf("bar %q", bar)
		}
		at := make([]int, 3)
		for i := range at {
			n, err := strconv.Atoi(numbers[i])
			if err != nil {
				t.Fatal(err)
			}
			at[i] = n
		}
		for x := range at[2] {
			dark[[2]int{at[0] + x, at[1]}] = true
		}
	}
	return dark
}

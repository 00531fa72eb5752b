package component

import (
	"fmt"
	"strings"

	"rsc.io/qr"
)

// quietZone is the empty border a QR code needs on every side, in modules
// (ISO/IEC 18004:2015, 5.3.8; clause number from memory).
const quietZone = 4

// QRCode is a QR code to be drawn, a unit a module.
type QRCode struct {
	// Label says what the code is for those who do not see it.
	Label string
	// Side is the length of a side with its quiet zone; Path the dark modules.
	Side int
	Path string
}

// EncodeQRCode encodes text at level M, which reads with up to 15 % of it damaged
// (ISO/IEC 18004), enough for a sheet that was folded.
func EncodeQRCode(text, label string) (QRCode, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return QRCode{}, fmt.Errorf("make the QR code of %q: %w", text, err)
	}
	return QRCode{Label: label, Side: code.Size + 2*quietZone, Path: darkModulesPath(code)}, nil
}

// darkModulesPath draws each run of dark modules in a row as one bar.
func darkModulesPath(code *qr.Code) string {
	var path strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			start := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if n := x - start; n > 0 {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", start+quietZone, y+quietZone, n, n)
			}
		}
	}
	return path.String()
}

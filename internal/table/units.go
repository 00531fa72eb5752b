package table

import "strconv"

// Inches is a length or a coordinate on the cloth.
type Inches float64

// Mph is a speed in miles an hour.
type Mph float64

// MillimetresPerInch and MetresPerSecondPerMph are exact by definition
// (international yard and pound agreement, 1959).
const (
	MillimetresPerInch    = 25.4
	MetresPerSecondPerMph = 0.44704
)

// Centimetres returns the length in cm.
func (i Inches) Centimetres() float64 { return float64(i) * MillimetresPerInch / 10 }

// Metres returns the length in m.
func (i Inches) Metres() float64 { return float64(i) * MillimetresPerInch / 1000 }

// InchesFromMetres is the inverse of Inches.Metres.
func InchesFromMetres(metres float64) Inches { return Inches(metres * 1000 / MillimetresPerInch) }

// String writes the shortest decimal, without a unit: "18", "-2.5".
func (i Inches) String() string { return strconv.FormatFloat(float64(i), 'f', -1, 64) }

// MetresPerSecond returns the speed in m/s.
func (m Mph) MetresPerSecond() float64 { return float64(m) * MetresPerSecondPerMph }

// KilometresPerHour returns the speed in km/h.
func (m Mph) KilometresPerHour() float64 { return float64(m) * MetresPerSecondPerMph * 3.6 }

// String writes the shortest decimal, without a unit: "18", "17.5".
func (m Mph) String() string { return strconv.FormatFloat(float64(m), 'f', -1, 64) }

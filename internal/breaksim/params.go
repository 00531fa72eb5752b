package breaksim

import (
	"errors"
	"fmt"
	"strings"
)

// ModelParams are the constants of the balls, the cloth, the cushions and of the
// computation, each in the unit its row of Listing says. Start from Defaults.
type ModelParams struct {
	Mass            float64
	Restitution     float64
	FrictionFloor   float64
	FrictionExtra   float64
	FrictionFade    float64
	Young           float64
	Poisson         float64
	Gravity         float64
	Slide           float64
	Roll            float64
	SpinDown        float64
	BedRestitution  float64
	LiftOff         float64
	NoseHeight      float64
	CushionLively   float64
	CushionTiring   float64
	CushionFriction float64
	FacingShare     float64
	CornerCut       float64
	SideCut         float64
	CornerShelf     float64
	SideShelf       float64
	StepsPerContact float64
	CreepSpeed      float64
	Overlap         float64
	MaxSeconds      float64
	MaxEvents       float64
}

// Param is one row of the list of constants, as a page shows it.
type Param struct {
	Key, Description, Unit string
	// Default is what Defaults uses; from Low to High is plausible.
	Default, Low, High float64
	// Source is where the default and the range come from.
	Source string
	field  func(*ModelParams) *float64
}

// ValueIn returns the constant's value in a set of Params.
func (r Param) ValueIn(p ModelParams) float64 { return *r.field(&p) }

// SetValueIn changes the constant in a set of Params.
func (r Param) SetValueIn(p *ModelParams, value float64) { *r.field(p) = value }

const (
	alPage   = "Alciatore, physical-properties page (from memory)"
	alA14    = "Alciatore TP A.14, fit to Marlow 1995 (from memory)"
	mjp10    = "Mathavan, Jackson, Parkin 2010 (abstract; snooker, below 2.5 m/s)"
	wpaNine  = "WPA table and equipment specification s.9"
	assumed  = "assumption of this model, no source"
	computed = "choice of the computation, see MODEL.md"
)

// ListParams returns every constant in one place: balls, cloth, cushions, pockets,
// then the computation's own.
func ListParams() []Param {
	return []Param{
		{"mass", "mass of a ball", "kg", 0.170, 0.156, 0.1701, "WPA equipment specification s.16: 5.5 to 6 oz", func(p *ModelParams) *float64 { return &p.Mass }},
		{"restitution", "ball on ball: speed of parting by speed of meeting", "1", 0.95, 0.92, 0.98, alPage, func(p *ModelParams) *float64 { return &p.Restitution }},
		{"friction-floor", "ball on ball friction of fast slip: a in a + b·exp(-c·slip)", "1", 0.009951, 0.005, 0.03, alA14, func(p *ModelParams) *float64 { return &p.FrictionFloor }},
		{"friction-extra", "further friction of slow slip: b", "1", 0.108, 0.04, 0.15, alA14, func(p *ModelParams) *float64 { return &p.FrictionExtra }},
		{"friction-fade", "how fast it fades with slip: c", "s/m", 1.088, 0.8, 1.4, alA14, func(p *ModelParams) *float64 { return &p.FrictionFade }},
		{"young", "Young's modulus of a ball", "GPa", 5.84, 2.5, 6.5, "a cue maker's article on phenolic balls; range assumed", func(p *ModelParams) *float64 { return &p.Young }},
		{"poisson", "Poisson's ratio of a ball", "1", 0.34, 0.3, 0.4, "a cue maker's article on phenolic balls; range assumed", func(p *ModelParams) *float64 { return &p.Poisson }},
		{"gravity", "gravity", "m/s²", 9.81, 9.78, 9.83, "textbook", func(p *ModelParams) *float64 { return &p.Gravity }},
		{"slide", "friction of a ball sliding on the cloth", "1", 0.2, 0.15, 0.4, alPage + "; snooker cloth 0.178-0.245, Mathavan, Jackson, Parkin 2009", func(p *ModelParams) *float64 { return &p.Slide }},
		{"roll", "rolling resistance: deceleration by gravity", "1", 0.01, 0.005, 0.015, alPage, func(p *ModelParams) *float64 { return &p.Roll }},
		{"spin-down", "slowing of spin about the vertical", "rad/s²", 10, 5, 15, alPage, func(p *ModelParams) *float64 { return &p.SpinDown }},
		{"bed-restitution", "ball bouncing on the bed: speed up by speed down", "1", 0.5, 0.3, 0.7, "from memory, no source at hand", func(p *ModelParams) *float64 { return &p.BedRestitution }},
		{"lift-off", "slower rises count as staying on the cloth", "m/s", 0.05, 0.02, 0.1, assumed, func(p *ModelParams) *float64 { return &p.LiftOff }},
		{"nose-height", "height of the cushion's nose by ball diameter", "1", 0.635, 0.625, 0.645, "WPA equipment specification s.7 (from memory)", func(p *ModelParams) *float64 { return &p.NoseHeight }},
		{"cushion-restitution", "cushion: energy restitution along the slanted contact, at no speed", "1", 0.9, 0.8, 1, assumed + ": with the next row it keeps the speed ratio of a square hit within 0.6-0.9 (" + alPage + "); " + mjp10 + " has 0.98", func(p *ModelParams) *float64 { return &p.CushionLively }},
		{"cushion-tiring", "what it loses for each m/s into the cushion", "s/m", 0.025, 0, 0.05, assumed + ": see the row before", func(p *ModelParams) *float64 { return &p.CushionTiring }},
		{"cushion-friction", "friction between ball and cushion", "1", 0.14, 0.1, 0.3, mjp10, func(p *ModelParams) *float64 { return &p.CushionFriction }},
		{"facing-share", "restitution of a pocket's facing by the cushion's", "1", 0.8, 0.6, 1, assumed, func(p *ModelParams) *float64 { return &p.FacingShare }},
		{"corner-cut", "angle between nose and facing of a corner", "degrees", 142, 141, 143, wpaNine, func(p *ModelParams) *float64 { return &p.CornerCut }},
		{"side-cut", "angle between nose and facing of a side pocket", "degrees", 104, 103, 105, wpaNine, func(p *ModelParams) *float64 { return &p.SideCut }},
		{"corner-shelf", "corner: from the mouth to where a ball drops", "in", 1.75, 1, 2.25, wpaNine + " (from memory); 1 5/8 to 1 7/8 in dealers' copies of BCA's", func(p *ModelParams) *float64 { return &p.CornerShelf }},
		{"side-shelf", "side pocket: from the mouth to where a ball drops", "in", 0.1875, 0, 0.375, wpaNine + " (from memory) and dealers' copies of BCA's", func(p *ModelParams) *float64 { return &p.SideShelf }},
		{"steps-per-contact", "steps a contact of two balls is cut into", "1", 80, 20, 1000, computed, func(p *ModelParams) *float64 { return &p.StepsPerContact }},
		{"creep-speed", "slip below which friction between pressed balls eases off", "m/s", 0.02, 0.005, 0.1, computed, func(p *ModelParams) *float64 { return &p.CreepSpeed }},
		{"overlap", "depth that touching bodies may sink before it counts as a hit", "µm", 1, 0.01, 10, computed, func(p *ModelParams) *float64 { return &p.Overlap }},
		{"max-seconds", "a break still running then is left unsettled", "s", 60, 20, 300, computed, func(p *ModelParams) *float64 { return &p.MaxSeconds }},
		{"max-events", "a break with more events is left unsettled", "1", 20000, 2000, 1e6, computed, func(p *ModelParams) *float64 { return &p.MaxEvents }},
	}
}

// Defaults returns every constant its default.
func Defaults() ModelParams {
	var p ModelParams
	for _, row := range ListParams() {
		row.SetValueIn(&p, row.Default)
	}
	return p
}

// ErrParams is wrapped by every refusal of Check.
var ErrParams = errors.New("constants of the break not plausible")

// Check refuses constants outside their plausible range, naming each.
func (p ModelParams) Check() error {
	var out []string
	for _, row := range ListParams() {
		if v := row.ValueIn(p); !(v >= row.Low && v <= row.High) {
			out = append(out, fmt.Sprintf("%s (%s) is %g %s: plausible is %g to %g", row.Key, row.Description, v, row.Unit, row.Low, row.High))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return fmt.Errorf("%w: %s", ErrParams, strings.Join(out, "; "))
}

package breaksim

import (
	"math"

	"breakwright/internal/table"
)

// constants are the Params turned into what the formulas need, in metres,
// kilograms, seconds and radians, once for each Table.
type constants struct {
	radius, diameter float64
	mass, inertia    float64
	gravity          float64
	slideDecel       float64 // of a sliding ball's centre
	slide            float64
	rollDecel        float64
	spinDown         float64
	bedRestitution   float64
	liftOff          float64
	restitution      float64
	muFloor, muExtra float64
	muFade           float64

	// Hertz: force = stiffness·depth^1.5 between two balls, bedStiffness for a
	// ball on the flat bed; damping as in damper.
	stiffness, bedStiffness float64
	damping, bedDamping     float64
	creep                   float64
	stepsPerContact         float64
	// instantContacts: see WithInstantContacts.
	instantContacts bool

	noseHeight  float64 // above the bed
	noseReach   float64 // flat distance from nose to centre of a ball on the bed at contact
	cushionE    float64
	cushionSlow float64
	cushionMu   float64
	facingShare float64

	overlap    float64
	maxSeconds float64
	maxEvents  int
}

func newConstants(p ModelParams) constants {
	r := table.BallRadius.Metres()
	c := constants{
		radius: r, diameter: 2 * r,
		mass: p.Mass, inertia: 0.4 * p.Mass * r * r,
		gravity: p.Gravity, slide: p.Slide,
		slideDecel: p.Slide * p.Gravity, rollDecel: p.Roll * p.Gravity, spinDown: p.SpinDown,
		bedRestitution: p.BedRestitution, liftOff: p.LiftOff,
		restitution: p.Restitution,
		muFloor:     p.FrictionFloor, muExtra: p.FrictionExtra, muFade: p.FrictionFade,
		creep: p.CreepSpeed, stepsPerContact: p.StepsPerContact,
		noseHeight: p.NoseHeight * 2 * r,
		cushionE:   p.CushionLively, cushionSlow: p.CushionTiring, cushionMu: p.CushionFriction,
		facingShare: p.FacingShare,
		overlap:     p.Overlap * 1e-6,
		maxSeconds:  p.MaxSeconds, maxEvents: int(p.MaxEvents),
	}
	above := c.noseHeight - r
	c.noseReach = math.Sqrt(r*r - above*above)
	c.stiffness = hertzStiffness(p.Young*1e9, p.Poisson, r/2)
	c.bedStiffness = hertzStiffness(p.Young*1e9, p.Poisson, r)
	c.damping = dampingFactor(c.restitution, c.stiffness, c.mass/2)
	c.bedDamping = dampingFactor(c.bedRestitution, c.bedStiffness, c.mass)
	return c
}

// hertzStiffness returns k in force = k·depth^1.5 for two equal materials touching with
// the given effective radius (Landau & Lifshitz vol. 7, section 9).
func hertzStiffness(young, poisson, effectiveRadius float64) float64 {
	effective := young / (2 * (1 - poisson*poisson))
	return 4.0 / 3 * effective * math.Sqrt(effectiveRadius)
}

// dampingFactor returns η in damping force = η·depth^¼·(speed of closing). With that
// power the restitution is the same at every speed; the closed form is Antypov
// & Elliott 2011 (Europhys. Lett. 94:50004), after Tsuji, Tanaka, Ishida 1992
// (both from memory, checked by the tests of the restitution that comes out).
func dampingFactor(restitution, stiffness, effectiveMass float64) float64 {
	l := math.Log(restitution)
	alpha := -math.Sqrt(5) * l / math.Sqrt(l*l+math.Pi*math.Pi)
	return alpha * math.Sqrt(stiffness*effectiveMass)
}

// contactTime is how long two balls that meet at that speed stay together
// without damping (Hertz; Landau & Lifshitz vol. 7, section 9, problem).
func (c *constants) contactTime(meeting float64) float64 {
	const least = 1e-4 // a slower meeting is timed as this one
	effective := c.mass / 2
	return 2.943 * math.Pow(5*effective/(4*c.stiffness), 0.4) * math.Pow(max(meeting, least), -0.2)
}

// ballFriction is the friction between two balls slipping at that speed.
func (c *constants) ballFriction(slip float64) float64 {
	return c.muFloor + c.muExtra*math.Exp(-c.muFade*slip)
}

package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Breaker breaks one rack under a setup, with all chance from rng. What is not
// observed stays empty. The break's number is the caller's to give.
type Breaker interface {
	Break(s drill.Setup, rng *rand.Rand) drill.Break
}

// Student is somebody who breaks, and what is hidden about them.
type Student struct {
	Name string
	Breaker
	Kind    table.Kind
	Start   drill.Setup // the setup of the first set
	Window  table.Window
	Targets drill.Targets
	Fault   Fault
	// Variant is a finer word for the fault, such as "too far out", or for how a
	// faultless student stands; empty when there is no more to say.
	Variant string
	// Remedies are the first changes that are right.
	Remedies []Remedy
	// Best is a setup under which the fault is gone: what somebody who knew the
	// student's secret would tell them.
	Best drill.Setup
	// NotesMisses and CountsRails report whether the student notes what the wing
	// ball met and counts the balls that met a rail.
	NotesMisses, CountsRails bool
	// byWorth says that the student's breaks are valued by what they are worth, not
	// by wing ball and window.
	byWorth bool
	// rackChecked breaks as the student does once the rack is checked; nil when
	// that makes no difference.
	rackChecked Breaker
	// followsHalf says that every second change is not made; hasMoods that days
	// differ.
	followsHalf, hasMoods bool
	// reportParts are further parts of the report the student belongs to.
	reportParts []string
}

// valueOf is what a break under some setup is worth to the student, on average.
func (s Student) valueOf(r Rates) float64 {
	if s.byWorth {
		return r.Worth
	}
	return r.Good
}

// Fault is what is hidden about a student.
type Fault string

// The faults.
const (
	NoFault    Fault = "none"
	Place      Fault = "place"      // the cue ball stands too far in or out
	Contact    Fault = "contact"    // the head ball is met off the line that is told
	Tip        Fault = "tip"        // too much draw or too much follow
	Speed      Fault = "speed"      // balls fly, or the break is weak
	Steadiness Fault = "steadiness" // told a speed at which the stroke falls apart

	// These only computed students have.
	SideSpin  Fault = "side spin"  // the cue ball is struck beside the middle
	LooseRack Fault = "loose rack" // gaps between the balls
	NoEffect  Fault = "no effect"  // no change affects the breaks
)

// Faults lists those of both models as the report does; ComputedFaults adds those
// that only computed breaks can have.
func Faults() []Fault { return []Fault{Place, Contact, Tip, Speed, Steadiness, NoFault} }

// ComputedFaults lists the faults of computed students.
func ComputedFaults() []Fault {
	return []Fault{Place, Contact, Tip, Speed, SideSpin, Steadiness, LooseRack, NoFault, NoEffect}
}

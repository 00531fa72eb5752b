package rackplan

import (
	"fmt"
	"math"

	"breakwright/internal/rack"
)

// Whose breaks a plan rests on, as it is said to its reader.
const (
	YourOwn    = "your own"
	StudentOwn = "the student’s own"
)

// NamesSwap reports whether two balls are named: they should change places, or may.
func (p Plan) NamesSwap() bool {
	return p.Verdict == VerdictSwap || p.Verdict == VerdictTooEarly && p.Gain >= LeastGain
}

// Describe tells the plan in two or three sentences. whose is [YourOwn] or
// [StudentOwn].
func (p Plan) Describe(whose string) string {
	switch p.Verdict {
	case VerdictSwap:
		return fmt.Sprintf("Let the %s and the %s change places (%s and %s): %s. %s",
			p.ball(p.A), p.ball(p.B), p.A, p.B, p.gainWords(), p.basisWords(whose))
	case VerdictTooEarly:
		if !p.NamesSwap() {
			return "Too early to say whether a swap would help: more breaks with the lowest balls placed will tell. " + p.basisWords(whose)
		}
		return fmt.Sprintf("Too early: the %s and the %s might change places (%s and %s), %s. %s",
			p.ball(p.A), p.ball(p.B), p.A, p.B, p.gainWords(), p.basisWords(whose))
	}
	by := fmt.Sprintf("by %s %d breaks and computed ones", whose, p.Breaks)
	if p.Breaks < FewestBreaks {
		by = "by computed breaks; " + whose + " are too few yet to say more"
	}
	return "Leave the rack as it is: no swap that the rules allow brings " + p.leastWords() + ", " + by + "."
}

func (p Plan) ball(s rack.Slot) string {
	b, _ := p.Order.BallAt(p.Game, s)
	return b.String()
}

// groupBalls is how many balls a group of eight-ball has.
const groupBalls = 7

func (p Plan) gainWords() string {
	what, by := "shots with position on the next ball", 10.0
	switch {
	case p.Game == rack.EightBall:
		what, by = "balls of the better group down or with a shot, of seventy,", 10*groupBalls
	case p.Goal == GoalShot:
		what = "shots on the lowest ball"
	}
	return fmt.Sprintf("about %s more %s in ten breaks, from %s to %s four times in five",
		roundedWord(by*p.Gain), what, roundedWord(by*p.Low), roundedWord(by*p.High))
}

// leastWords is LeastGain.
func (p Plan) leastWords() string {
	if p.Game == rack.EightBall {
		return "seven balls more, of the better group’s seven hundred in a hundred breaks, down or with a shot"
	}
	return "a shot more in a hundred breaks"
}

// roundedWord writes a number to a tenth, and no negative zero.
func roundedWord(v float64) string { return fmt.Sprintf("%.1f", math.Round(v*10)/10+0) }

func (p Plan) basisWords(whose string) string {
	return fmt.Sprintf("%.0f %% of this rests on %s %d breaks, the rest on computed ones.", p.OwnShare*100, whose, p.Breaks)
}

// Brief is the plan as short as a card is and with what rule books say as short.
func (p Plan) Brief() string {
	says := "Keep the rack: no legal swap helps."
	switch p.Verdict {
	case VerdictSwap:
		says = fmt.Sprintf("Swap %s and %s, to %s: %s.", p.A, p.B, p.Next, p.gainWords())
	case VerdictTooEarly:
		says = "Keep the rack; too early for a swap."
	}
	return says + " " + p.noteInBrief()
}

// Note is what stands beside every plan: what rule books say of orders, and what
// changes the spot.
func (p Plan) Note() string {
	switch p.Game {
	case rack.TenBall:
		return "Rule books ask for no purposeful order of the other balls, unless an event allows one (some have the 2 and the 3 in the rear corners): a set order is for practice and for such events."
	case rack.EightBall:
		return "Rule books ask for no purposeful order beyond the 8 in the middle and one ball of each group in the rear corners, unless an event allows one: a set order is for practice and for such events."
	}
	return "Rule books ask for no purposeful order of the other balls, unless an event allows one: a set order is for practice and for such events. Since mid-2025 they have the 9 on the foot spot unless the event puts the 1 there; the two racks break differently, and have plans of their own."
}

// noteInBrief is Note as short as a card is.
func (p Plan) noteInBrief() string {
	if p.Game == rack.NineBall {
		return "A set order is for practice and for events that allow one; rule books spot the 9 unless the event puts the 1 there, and each of the two racks has a plan of its own."
	}
	return "A set order is for practice and for events that allow one."
}

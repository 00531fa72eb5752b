package leave

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// PlayedShot is a shot that was played, and what came of it.
type PlayedShot struct {
	// Window is the width of its window.
	Window table.Degrees
	// After is how many more balls had to be made for Made: 0 when only the shot
	// itself was written down.
	After int
	Made  bool
}

// usualWindow is what a shot within a run is taken to be: that of a ball some two
// feet from the pocket and the cue ball two feet from it, half-way cut (our
// choice; with it a club player runs eight balls out once in seven shots).
const usualWindow table.Degrees = 0.48

// PlayedShotOf reads what was played off a break: the likeliest shot of its leave and
// whether the breaker ran out from there. ok is false when that was not written down,
// when the breaker had lost the table, or when there was no direct shot to begin with.
func PlayedShotOf(b drill.Break, l Leave) (s PlayedShot, ok bool) {
	if b.RanOut == "" || l.Hand != InPlay || l.Won {
		return PlayedShot{}, false
	}
	first, any := FindShots(l, PlayerAt(Club)).Direct()
	if !any {
		return PlayedShot{}, false
	}
	return PlayedShot{Window: first.Window, After: len(l.Placed) + len(l.Unplaced) - 1, Made: b.RanOut == drill.RanOutYes}, true
}

// FitPlayer returns how well somebody shoots, from their sets, starting from a club
// player: by the racks that they ran out, and those that they did not.
func FitPlayer(own []drill.Set) Player {
	var shots []PlayedShot
	for _, s := range own {
		for _, b := range s.Breaks {
			if played, ok := PlayedShotOf(b, FromBreak(b, s.Setup, s.Kind)); ok {
				shots = append(shots, played)
			}
		}
	}
	return PlayerAt(FitAccuracy(Club, shots))
}

// FitAccuracy returns the accuracy that shots speak for, starting from a level: the
// middle of what is believed about it (on a scale of ratios) after the shots, when
// before them a ratio of e^0.5 to the level either way is one standard deviation.
// So a few shots move it little, and none leave it where it was. It stays within a
// quarter and four times the level.
func FitAccuracy(level Accuracy, shots []PlayedShot) Accuracy {
	const steps = 160
	spread, reach := 0.5, math.Log(4)
	var logs [steps + 1]float64
	best := math.Inf(-1)
	for i := range logs {
		z := reach * (2*float64(i)/steps - 1)
		logs[i] = -z * z / (2 * spread * spread)
		a := Accuracy(float64(level) * math.Exp(z))
		for _, s := range shots {
			logs[i] += math.Log(likelihood(a, s))
		}
		best = max(best, logs[i])
	}
	total, sum := 0.0, 0.0
	for i, l := range logs {
		w := math.Exp(l - best)
		total += w
		sum += w * reach * (2*float64(i)/steps - 1)
	}
	return Accuracy(float64(level) * math.Exp(sum/total))
}

// likelihood is the chance of what came of a shot. It keeps a hundredth for shots that
// went otherwise for other reasons, so that one miss of a hanging ball says no more
// than it should.
func likelihood(a Accuracy, s PlayedShot) float64 {
	const otherwise = 0.01
	sd := table.Degrees(a).Radians()
	chance := shareWithin(s.Window.Radians(), sd) * math.Pow(shareWithin(usualWindow.Radians(), sd), float64(s.After))
	chance = otherwise + (1-2*otherwise)*chance
	if s.Made {
		return chance
	}
	return 1 - chance
}

package drill

import (
	"fmt"
	"slices"
	"strings"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// MaxNote is the longest note, in bytes.
const MaxNote = 2000

// FastestMeasured is the fastest break that is believed when measured: faster than
// any published figure (35 mph is called extreme; Alciatore, typical speeds).
const FastestMeasured table.Mph = 40

// Check says what in the break cannot have happened under this setup on this
// kind of table. Field names are the break log's columns.
func (b Break) Check(s Setup, k table.Kind) error {
	var p Problems
	if b.Number < 1 {
		p.Add("break", "breaks are numbered from 1")
	}
	if b.Speed != 0 && !(b.Speed > 0 && b.Speed <= FastestMeasured) {
		p.Add("speed", fmt.Sprintf("a speed of %s mph is not believed", b.Speed))
	}
	b.checkBalls(s, k, &p)
	b.checkCueEnd(k, &p)
	b.checkWords(s, &p)
	b.checkCounts(s, &p)
	if len(b.Note) > MaxNote {
		p.Add("note", fmt.Sprintf("a note has at most %d characters", MaxNote))
	}
	return p.Err()
}

func (b Break) checkBalls(s Setup, k table.Kind, p *Problems) {
	var gone ballFields
	for _, d := range b.Pocketed {
		recordBallOnce(s, &gone, d.Ball, "pocketed", p)
		if _, err := table.ParsePocket(string(d.Pocket)); err != nil {
			p.Add("pocketed", err.Error())
		}
	}
	for _, ball := range b.Off {
		recordBallOnce(s, &gone, ball, "off", p)
	}
	for _, r := range b.Rest {
		recordBallOnce(s, &gone, r.Ball, "rest", p)
		if !k.OnCloth(r.Place) {
			p.Add("rest", fmt.Sprintf("the %s cannot stop at %s: that is off the cloth", r.Ball, r.Place))
		}
	}
}

// ballFields has for each ball the field that says where it went, by number; empty
// while none does.
type ballFields [rack.HighestBall + 1]string

// fieldWords tells what a field says of a ball.
var fieldWords = map[string]string{"pocketed": "pocketed", "off": "off the table", "rest": "at rest on the cloth"}

// recordBallOnce notes where a ball went and objects when it went twice.
func recordBallOnce(s Setup, gone *ballFields, ball rack.Ball, field string, p *Problems) {
	if ball > rack.HighestBall || !s.Order.HasBall(ball) {
		p.Add(field, fmt.Sprintf("the %s is not in this rack", ball))
		return
	}
	switch before := gone[ball]; before {
	case "":
	case field:
		p.Add(field, fmt.Sprintf("the %s is there twice", ball))
	default:
		p.Add(field, fmt.Sprintf("the %s cannot be %s and %s", ball, fieldWords[before], fieldWords[field]))
	}
	gone[ball] = field
}

func (b Break) checkCueEnd(k table.Kind, p *Problems) {
	switch b.Cue.How {
	case Stopped:
		if !k.OnCloth(b.Cue.Place) {
			p.Add("cue", fmt.Sprintf("the cue ball cannot stop at %s: that is off the cloth", b.Cue.Place))
		}
	case Scratched:
		if _, err := table.ParsePocket(string(b.Cue.Scratch)); err != nil {
			p.Add("cue", "say which pocket the cue ball scratched in")
		}
	case OffTable:
	default:
		p.Add("cue", "say where the cue ball stopped, or that it scratched, or that it left the table")
	}
}

func (b Break) checkWords(s Setup, p *Problems) {
	if b.WingMiss != "" {
		if accepted := append(WingMisses(), NotWatched); !slices.Contains(accepted, b.WingMiss) {
			p.Add("wing_miss", acceptedWords(string(b.WingMiss), accepted))
		} else if _, dropped := b.PocketOf(s.WingBall()); dropped && b.IsWatched() {
			p.Add("wing_miss", fmt.Sprintf("the wing ball, the %s, dropped: it did not miss", s.WingBall()))
		}
	}
	if b.CuePath != "" && !slices.Contains(CuePaths(), b.CuePath) {
		p.Add("cue_path", acceptedWords(string(b.CuePath), CuePaths()))
	}
	if b.Shot != "" && !slices.Contains(Shots(), b.Shot) {
		p.Add("shot", acceptedWords(string(b.Shot), Shots()))
	}
	if b.RanOut != "" && b.RanOut != RanOutYes && b.RanOut != RanOutNo {
		p.Add("ran_out", acceptedWords(string(b.RanOut), []RanOut{RanOutYes, RanOutNo}))
	}
	if b.Racked != "" && b.Racked != RackedTight && b.Racked != RackedLoose {
		p.Add("racked", acceptedWords(string(b.Racked), []Racked{RackedTight, RackedLoose}))
	}
}

func (b Break) checkCounts(s Setup, p *Problems) {
	for _, c := range []struct {
		field string
		n     *int
	}{{"rails", b.Rails}, {"past_string", b.PastString}} {
		if c.n != nil && (*c.n < 0 || *c.n > s.Game.BallCount()) {
			p.Add(c.field, fmt.Sprintf("%d balls: from 0 to %d, the balls of this rack", *c.n, s.Game.BallCount()))
		}
	}
}

func acceptedWords[T ~string](got string, accepted []T) string {
	words := make([]string, len(accepted))
	for i, a := range accepted {
		words[i] = string(a)
	}
	return fmt.Sprintf("%q is not one of %s", got, strings.Join(words, ", "))
}

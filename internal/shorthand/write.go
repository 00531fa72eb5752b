package shorthand

import (
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Write writes a break under a setup so that Read gives it back, but for what
// shorthand has no sign for: where object balls stopped, whether the rack was
// run out, the time, and a way of the cue ball that nobody saw. A cue ball that
// stopped is written in inches.
func Write(b drill.Break, s drill.Setup) string {
	pieces := []string{wingSign(b, s)}
	for _, p := range b.Pocketed {
		if p.Ball != s.WingBall() {
			pieces = append(pieces, p.Ball.String()+sign(Pockets, p.Pocket))
		}
	}
	for _, ball := range b.Off {
		if ball != s.WingBall() {
			pieces = append(pieces, ball.String()+off)
		}
	}
	pieces = append(pieces, cueSign(b.Cue), sign(Paths, b.CuePath), sign(Shots, b.Shot), counted("r", b.Rails), counted("p", b.PastString))
	if b.Speed != 0 {
		pieces = append(pieces, "v"+b.Speed.String())
	}
	if b.Note != "" {
		pieces = append(pieces, "/ "+b.Note)
	}
	return strings.Join(filled(pieces), " ")
}

func wingSign(b drill.Break, s drill.Setup) string {
	pocket, down := b.PocketOf(s.WingBall())
	switch {
	case b.WingMade(s):
		return Made
	case down:
		return sign(Pockets, pocket)
	}
	for _, ball := range b.Off {
		if ball == s.WingBall() {
			return off
		}
	}
	if miss := sign(Misses, b.WingMiss); miss != "" {
		return miss
	}
	return sign(Misses, drill.MissUnknown)
}

func cueSign(end drill.CueEnd) string {
	switch end.How {
	case drill.Scratched:
		return sign(Pockets, end.Scratch)
	case drill.OffTable:
		return off
	}
	return table.Place{X: end.Place.X + 0, Y: end.Place.Y + 0}.String()
}

func counted(what string, n *int) string {
	if n == nil {
		return ""
	}
	return what + strconv.Itoa(*n)
}

func filled(pieces []string) []string {
	var all []string
	for _, p := range pieces {
		if p != "" {
			all = append(all, p)
		}
	}
	return all
}

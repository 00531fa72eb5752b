package breaklog

import (
	"strings"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// seen reads what a row says of its break.
func (r *reader) seen() drill.Break {
	var b drill.Break
	number, given := r.whole(colBreak, numbered)
	if !given && r.cell(colBreak) == "" {
		r.object(colBreak, numbered)
	}
	b.Number = number
	b.At = r.time()
	b.Speed = r.speed()
	b.Pocketed = r.pocketed()
	b.Cue = r.cueEnd()
	b.Off = r.off()
	b.WingMiss = word(r, colWingMiss, wingMissWords)
	b.CuePath = word(r, colCuePath, cuePathWords)
	b.Rest = r.rest()
	b.Rails = r.count(colRails)
	b.PastString = r.count(colPastString)
	b.Shot = word(r, colShot, shotWords)
	b.RanOut = word(r, colRanOut, ranOutWords)
	b.Note = r.remark()
	return b
}

const numbered = "breaks are numbered 1, 2, 3 and so on within the set"

// Years in which a break is believed to have been played; the zero time stands
// for "not observed".
const firstYear, lastYear = 1900, 2999

func (r *reader) time() time.Time {
	cell := r.cell(colAt)
	if cell == "" {
		return time.Time{}
	}
	at, err := time.Parse(time.RFC3339, cell)
	at = at.UTC()
	if err != nil || !believedTime(at) {
		r.object(colAt, "a time with its zone such as 2026-03-02T18:05:00Z or 2026-03-02T19:05:00+01:00 is accepted")
		return time.Time{}
	}
	return at
}

func believedTime(at time.Time) bool { return at.Year() >= firstYear && at.Year() <= lastYear }

func (r *reader) speed() table.Mph {
	v, given := r.number(colSpeed)
	if given && !(v > 0 && v <= float64(drill.FastestSeen)) {
		r.object(colSpeed, "a speed above 0 and up to "+drill.FastestSeen.String()+" mph is accepted; leave it empty when it was not measured")
		return 0
	}
	return table.Mph(v)
}

func (r *reader) count(c column) *int {
	n, given := r.whole(c, "a number of balls from 0 up is accepted")
	if !given {
		return nil
	}
	return drill.Count(n)
}

// remark reads the note, the one cell that is kept to the last space.
func (r *reader) remark() string {
	cell := unguard(withLineFeeds(r.raw(colNote)))
	if strings.IndexByte(cell, 0) >= 0 {
		r.object(colNote, "a note is letters, signs and line ends")
		return ""
	}
	return strings.Clone(cell)
}

func (r *reader) pocketed() []drill.Pocketed {
	var list []drill.Pocketed
	for part := range r.parts(colPocketed) {
		ball, pocket, found := strings.Cut(part, "@")
		b, err := rack.ParseBall(strings.TrimSpace(ball))
		p, known := pocketWords.known[strings.TrimSpace(pocket)]
		if !found || err != nil || !known {
			r.object(colPocketed, "balls and their pockets such as 7@foot-left;1@side-right are accepted; the pockets are "+pocketWords.accepted)
			return nil
		}
		list = addTo(list, drill.Pocketed{Ball: b, Pocket: p})
	}
	return list
}

func (r *reader) off() []rack.Ball {
	var list []rack.Ball
	for part := range r.parts(colOff) {
		b, err := rack.ParseBall(part)
		if err != nil {
			r.object(colOff, "object balls from 1 to 15 such as 3;7 are accepted")
			return nil
		}
		list = append(list, b)
	}
	return list
}

func (r *reader) rest() []drill.Rest {
	var list []drill.Rest
	for part := range r.parts(colRest) {
		ball, at, found := strings.Cut(part, "@")
		b, err := rack.ParseBall(strings.TrimSpace(ball))
		place, ok := parsePlace(at)
		if !found || err != nil || !ok {
			r.object(colRest, "balls and their places in inches such as 1@-20,31;2@6,28 are accepted")
			return nil
		}
		list = addTo(list, drill.Rest{Ball: b, Place: place})
	}
	return list
}

func (r *reader) cueEnd() drill.CueEnd {
	cell := r.cell(colCue)
	how, pocket, scratched := strings.Cut(cell, "@")
	switch {
	case cell == "off-table":
		return drill.CueEnd{How: drill.OffTable}
	case scratched && strings.TrimSpace(how) == "scratch":
		if p, known := pocketWords.known[strings.TrimSpace(pocket)]; known {
			return drill.CueEnd{How: drill.Scratched, Scratch: p}
		}
		r.object(colCue, "a scratch names its pocket, as in scratch@side-right; the pockets are "+pocketWords.accepted)
		return drill.CueEnd{}
	}
	place, ok := parsePlace(cell)
	if !ok {
		r.object(colCue, "where the cue ball stopped, in inches such as -3.5,41, or scratch@side-right or the like, or off-table is accepted")
		return drill.CueEnd{}
	}
	return drill.CueEnd{How: drill.Stopped, Place: place}
}

func parsePlace(s string) (table.Place, bool) {
	xs, ys, found := strings.Cut(s, ",")
	x, whyX := decimal(strings.TrimSpace(xs))
	y, whyY := decimal(strings.TrimSpace(ys))
	return table.Place{X: table.Inches(x), Y: table.Inches(y)}, found && whyX == "" && whyY == ""
}

// parts goes through the ;-separated parts of a cell; an empty cell has none.
func (r *reader) parts(c column) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		rest, more := r.cell(c), true
		if rest == "" {
			return
		}
		for more {
			var part string
			part, rest, more = strings.Cut(rest, ";")
			if !yield(strings.TrimSpace(part)) {
				return
			}
		}
	}
}

// addTo appends to a list that is mostly one or two long, without the spare
// room that append would leave in each of a hundred thousand lists.
func addTo[T any](list []T, item T) []T {
	if len(list) == cap(list) && len(list) < 3 {
		grown := make([]T, len(list), len(list)+1)
		copy(grown, list)
		list = grown
	}
	return append(list, item)
}

package shorthand

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// Field is the name of the problems that are about the line as such, such as a
// piece that is no shorthand; those about what it says have the break log's
// columns as package drill gives them.
const Field = "line"

// ReadBreak reads the line of a break under a setup on a kind of table, with places and
// speeds in the units in which they were typed. What cannot
// be read, or cannot have happened, comes back as [drill.Problems] in the order
// of the line; the break is then as far as it was read.
func ReadBreak(line string, number int, s drill.Setup, k table.Kind, u say.Units) (drill.Break, error) {
	line, note, _ := strings.Cut(line, "/")
	r := breakReader{setup: s, kind: k, units: u, b: drill.Break{Number: number, Note: strings.TrimSpace(note)}}
	pieces := strings.Fields(strings.ToLower(line))
	switch len(pieces) {
	case 0:
		r.addProblem("write at least what the wing ball did and where the cue ball went, as in “s c5”")
	default:
		r.readWing(pieces[0])
		for _, piece := range pieces[1:] {
			r.readPiece(piece)
		}
		if r.b.Cue.How == "" && len(r.problems) == 0 {
			r.addProblem("say where the cue ball went: a square such as c5, a pocket for a scratch, or o when it left the table")
		}
	}
	if len(r.problems) > 0 {
		return r.b, r.problems
	}
	return r.b, r.b.Check(s, k)
}

// breakReader is a line being read.
type breakReader struct {
	setup    drill.Setup
	kind     table.Kind
	units    say.Units
	b        drill.Break
	problems drill.Problems
}

func (r *breakReader) addProblem(says string, args ...any) {
	r.problems.Add(Field, fmt.Sprintf(says, args...))
}

// readWing reads the first piece: what the wing ball did.
func (r *breakReader) readWing(piece string) {
	ball := r.setup.WingBall()
	if miss, ok := meaningOf(MissSigns, piece); ok {
		r.b.WingMiss = miss
		return
	}
	if pocket, ok := meaningOf(PocketSigns, piece); ok {
		r.addPocketed(ball, pocket)
		return
	}
	switch piece {
	case MadeSign:
		r.addPocketed(ball, r.setup.WingPocket())
	case offSign:
		r.b.Off = append(r.b.Off, ball)
	default:
		r.addProblem("“%s”: begin with the wing ball, the %s: 1 in its corner; s f k j or ? when it stayed up; x when nobody watched it; or the pocket it dropped in", piece, ball)
	}
}

func (r *breakReader) addPocketed(b rack.Ball, p table.Pocket) {
	r.b.Pocketed = append(r.b.Pocketed, drill.Pocketed{Ball: b, Pocket: p})
}

// readPiece reads any piece but the first.
func (r *breakReader) readPiece(piece string) {
	if r.readOtherBall(piece) || r.readCueEnd(piece) || r.readExtra(piece) {
		return
	}
	r.addProblem("“%s” is no piece of a break: a ball and its pocket is 2hr, a square is c5", piece)
}

// readOtherBall reads "2hr" and "7o" and reports whether the piece was of that form.
func (r *breakReader) readOtherBall(piece string) bool {
	digits := strings.TrimRight(piece, "abcdefghijklmnopqrstuvwxyz")
	fate := piece[len(digits):]
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 || n > 15 || digits[0] == '+' {
		return false
	}
	pocket, known := meaningOf(PocketSigns, fate)
	switch {
	case known:
		r.addPocketed(rack.Ball(n), pocket)
	case fate == offSign:
		r.b.Off = append(r.b.Off, rack.Ball(n))
	case fate == "":
		r.addProblem("the %d: say which pocket, as in %dhr, or %do when it left the table", n, n, n)
	default:
		return false
	}
	return true
}

// readCueEnd reads where the cue ball went, unless that was read before.
func (r *breakReader) readCueEnd(piece string) bool {
	var end drill.CueEnd
	pocket, scratch := meaningOf(PocketSigns, piece)
	place, square := SquareCentre(piece, r.kind)
	switch {
	case scratch:
		end = drill.CueEnd{How: drill.Scratched, Scratch: pocket}
	case square:
		end = drill.CueEnd{How: drill.Stopped, Place: place}
	case piece == offSign:
		end = drill.CueEnd{How: drill.OffTable}
	case strings.Contains(piece, ","):
		place, err := table.ParsePlace(piece)
		if err != nil {
			r.addProblem("“%s”: %s across and along are written as -3.5,41", piece, r.units.Long(say.Place))
			return true
		}
		end = drill.CueEnd{How: drill.Stopped, Place: r.units.ReadTypedPlace(place)}
	case looksLikeSquare(piece):
		r.addProblem("“%s”: the squares go from a1 at the left of the head rail to h16 at the right of the foot rail", piece)
		return true
	default:
		return false
	}
	if r.b.Cue.How != "" {
		r.addProblem("“%s”: the cue ball’s place is there twice", piece)
		return true
	}
	r.b.Cue = end
	return true
}

// looksLikeSquare reports whether a piece is a letter and a number that may be meant
// as a square; r, p and v count.
func looksLikeSquare(piece string) bool {
	_, err := strconv.ParseUint(piece[1:], 10, 31)
	return err == nil && piece[0] >= 'a' && piece[0] <= 'z' && !strings.ContainsRune("rpv", rune(piece[0]))
}

// readExtra reads what may be left out.
func (r *breakReader) readExtra(piece string) bool {
	if path, ok := meaningOf(PathSigns, piece); ok {
		r.requireFirst(r.b.CuePath == "", piece)
		r.b.CuePath = path
		return true
	}
	if shot, ok := meaningOf(ShotSigns, piece); ok {
		r.requireFirst(r.b.Shot == "", piece)
		r.b.Shot = shot
		return true
	}
	return r.readCount(piece)
}

func (r *breakReader) readCount(piece string) bool {
	what, number := piece[0], piece[1:]
	if what == 'v' {
		v, err := strconv.ParseFloat(number, 64)
		if err != nil || math.IsInf(v, 0) || math.IsNaN(v) || v == 0 {
			return false
		}
		r.requireFirst(r.b.Speed == 0, piece)
		r.b.Speed = table.Mph(r.units.ReadTyped(say.Speed, v))
		return true
	}
	n, err := strconv.ParseUint(number, 10, 15)
	switch {
	case err != nil:
		return false
	case what == 'r':
		r.requireFirst(r.b.Rails == nil, piece)
		r.b.Rails = drill.ObservedCount(int(n))
	case what == 'p':
		r.requireFirst(r.b.PastString == nil, piece)
		r.b.PastString = drill.ObservedCount(int(n))
	default:
		return false
	}
	return true
}

func (r *breakReader) requireFirst(first bool, piece string) {
	if !first {
		r.addProblem("“%s”: this is there twice", piece)
	}
}

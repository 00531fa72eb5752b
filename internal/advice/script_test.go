package advice

import (
	"fmt"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// standardSetup is the setup most tests start from: nine-ball from the left on a
// 9-foot table, the cue ball 18 in out on the head string.
func standardSetup() drill.Setup {
	return drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
}

// setupAtDistance is the standard setup from another place, so many inches out.
func setupAtDistance(out table.Inches) drill.Setup {
	s := standardSetup()
	s.Cue.X = -out
	return s
}

// scripted writes a set as two strings, one letter a break. Wing ball: m made,
// s side rail first, f foot rail first, k kissed, j jaws, u unknown, - not
// written down. Cue ball: w in the window, f forward to the foot end, b back
// behind the head string, r off the head rail to the foot end, ? at the foot
// end with nobody having seen how, x wide, S and s scratched in the far and the
// near side pocket, H in a head corner, F in a foot corner, o off the table.
// One cue letter stands for all breaks.
func scripted(t testing.TB, s drill.Setup, wing, cue string) drill.Set {
	t.Helper()
	set := drill.Set{Student: "Odile", Name: "a1", Table: "North", Kind: table.NineFoot(), Setup: s}
	for i := range wing {
		b := drill.Break{Number: i + 1, Rails: drill.ObservedCount(6)}
		wingLetter(t, &b, s, wing[i])
		letter := cue[0]
		if len(cue) > 1 {
			letter = cue[i]
		}
		cueLetter(t, &b, letter)
		set.Breaks = append(set.Breaks, b)
	}
	if err := set.Check(); err != nil {
		t.Fatalf("scripted set: %v", err)
	}
	return set
}

func wingLetter(t testing.TB, b *drill.Break, s drill.Setup, letter byte) {
	t.Helper()
	misses := map[byte]drill.WingMiss{
		's': drill.MissSideRail, 'f': drill.MissFootRail, 'k': drill.MissKissed,
		'j': drill.MissJaws, 'u': drill.MissUnknown, '-': "",
	}
	miss, missed := misses[letter]
	switch {
	case letter == 'm':
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.WingBall(), Pocket: s.WingPocket()})
	case missed:
		b.WingMiss = miss
		// The head ball drops, so that a missed wing ball is not a dry break.
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: s.HeadBall(), Pocket: table.SideRight})
	default:
		t.Fatalf("no wing letter %q", letter)
	}
}

func cueLetter(t testing.TB, b *drill.Break, letter byte) {
	t.Helper()
	stop := func(x, y table.Inches, path drill.CuePath) {
		b.Cue, b.CuePath = drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}, path
	}
	scratch := func(p table.Pocket) { b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: p} }
	switch letter {
	case 'w':
		stop(-2, 40, drill.PathBack)
	case 'f':
		stop(4, 80, drill.PathForward)
	case 'b':
		stop(-4, 12, drill.PathHeadRail)
	case 'r':
		stop(-4, 75, drill.PathHeadRail)
	case '?':
		stop(-4, 80, "")
	case 'x':
		stop(20, 40, drill.PathBack)
	case 'S':
		scratch(table.SideRight)
	case 's':
		scratch(table.SideLeft)
	case 'H':
		scratch(table.HeadRight)
	case 'F':
		scratch(table.FootRight)
	case 'o':
		b.Cue = drill.CueEnd{How: drill.OffTable}
	default:
		t.Fatalf("no cue letter %q", letter)
	}
}

// numberSets gives sets their names in order.
func numberSets(sets ...drill.Set) []drill.Set {
	for i := range sets {
		sets[i].Name = fmt.Sprintf("a%d", i+1)
	}
	return sets
}

// mirrorHistory returns the same history from the other side of the table.
func mirrorHistory(history []drill.Set) []drill.Set {
	turned := make([]drill.Set, len(history))
	for i, set := range history {
		turned[i] = set.Mirror()
	}
	return turned
}

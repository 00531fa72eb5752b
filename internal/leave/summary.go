package leave

import (
	"fmt"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Summary is what a student's breaks leave, all together.
type Summary struct {
	// Breaks is how many there were; of them Lost to a foul, so that the opponent
	// has the shot, and Won at once. The others gave an Open, a Hard or no shot
	// (None), or it is not known.
	Breaks, Lost, Won, Open, Hard, None, Unknown int
	// Worth is the mean value of the leaves that are known, lost ones too; Valued
	// is how many those are.
	Worth  float64
	Valued int
	// Window is the cue-ball window that would give most shots, Gain by how much
	// more of a chance; Gain is 0 when the window now is as good or too little is
	// known.
	Window table.Window
	Gain   float64
}

// Summarize looks at all leaves of a student on one kind of table, and at the
// window that is played to.
func Summarize(leaves []Leave, p Player, now table.Window) Summary {
	s := CountShots(leaves, p)
	if better, gain, ok := MapShots(leaves, p).FindBetterWindow(now); ok {
		s.Window, s.Gain = better, gain
	}
	return s
}

// CountShots is Summarize without a look for a better window.
func CountShots(leaves []Leave, p Player) Summary {
	var s Summary
	for _, l := range leaves {
		s.count(l, p)
	}
	if s.Valued > 0 {
		s.Worth /= float64(s.Valued)
	}
	return s
}

func (s *Summary) count(l Leave, p Player) {
	s.Breaks++
	if v, known := EstimateValue(l, p); known {
		s.Worth += v.Total()
		s.Valued++
	}
	switch {
	case l.Won:
		s.Won++
		return
	case l.Hand != InPlay:
		s.Lost++
		return
	}
	switch l.Verdict(p) {
	case drill.ShotOpen:
		s.Open++
	case drill.ShotHard:
		s.Hard++
	case drill.ShotNone:
		s.None++
	default:
		s.Unknown++
	}
}

// InPlay counts the breaks that left the breaker at the table, and those of them whose
// leave is known.
func (s Summary) InPlay() (breaks, known int) {
	ended := s.Lost + s.Won
	return s.Breaks - ended, s.Valued - ended
}

// MeanValue is the value of a break on average, where each leave that is not known
// counts as those that are: a foul is always known, and would else weigh too much. ok
// is false when no leave of a break in play is known.
func (s Summary) MeanValue() (value float64, ok bool) {
	breaks, known := s.InPlay()
	if known == 0 {
		return 0, false
	}
	won := float64(s.Won)
	inPlay := (s.Worth*float64(s.Valued) - won) / float64(known)
	return (inPlay*float64(breaks) + won) / float64(s.Breaks), true
}

// Verdict is what was said at the table, where something was; else what the
// places say.
func (l Leave) Verdict(p Player) drill.Shot {
	if l.Noted != "" {
		return l.Noted
	}
	return FindShots(l, p).Shot
}

func wholeInches(v table.Inches) string { return fmt.Sprintf("%.0f in", float64(v)) }

// Describe tells the counts, and the better window if there is one.
func (s Summary) Describe(now table.Window) string {
	parts := []string{fmt.Sprintf("%d of %d breaks left an open shot", s.Open, s.Breaks)}
	for _, c := range []struct {
		n    int
		what string
	}{{s.Hard, "a hard one"}, {s.None, "none"}, {s.Won, "won the rack"}, {s.Lost, "lost the table by a foul"}, {s.Unknown, "not known"}} {
		if c.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", c.n, c.what))
		}
	}
	text := strings.Join(parts, ", ") + "."
	if s.Gain > 0 {
		text += fmt.Sprintf(" With the other balls where they lay, the cue-ball window that gives most shots is %s.", DescribeWindowChange(now, s.Window, wholeInches))
	}
	return text
}

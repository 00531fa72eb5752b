package picture

import (
	"fmt"
	"math"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// LeaveView is what one break left: the cue ball, the balls that were placed, and
// the likeliest shot.
type LeaveView struct {
	ID    string
	Title string
	Kind  table.Kind
	// Cue is nil when the cue ball is in hand or went down.
	Cue   *table.Place
	Balls []RestBall
	// Shot is nil when there is none to draw.
	Shot *ShotLine
	// Words is the shot in a sentence.
	Words string
}

// ShotLine is a shot's two ways, each from its first place to its last.
type ShotLine struct {
	Cue, Ball []table.Place
}

// leaveBallSize is nearly twice a ball, so that numbers can be read on a small
// table.
var leaveBallSize = ballSize{radius: 20, ring: 2, circle: 13, font: 21}

// DescribeLeave says where the balls lie and what the shot is.
func DescribeLeave(v LeaveView) string {
	t := TableView{Kind: v.Kind, Balls: v.Balls}
	sentences := ""
	if v.Cue != nil {
		sentences = "The cue ball " + v.Kind.ZoneWords(*v.Cue) + ". "
	}
	if words := t.ballWords(); words != "" {
		sentences += say.Sentence(words) + " "
	}
	return sentences + v.Words
}

// LeaveLegend explains the lines of a leave.
func LeaveLegend() []LegendItem {
	return []LegendItem{{MarkCue, "cue ball, where it stopped"}, {MarkAim, "its way, and the ball’s to the pocket"}}
}

// ShotMapView says from where the ball to shoot at of many leaves could be pocketed.
type ShotMapView struct {
	ID    string
	Title string
	Kind  table.Kind
	// Chance is the mean chance of a shot with the cue ball in each cell, rows from
	// the head end, each from the left.
	Chance [][]float64
	// Ball is which that is, in words: "the lowest ball".
	Ball string
	// Places are where these balls lay.
	Places []table.Place
	Window *table.Window
	// Better is the window that would give more shots; nil for none.
	Better *table.Window
}

// shotCell is a cell of the map as it is drawn.
type shotCell struct {
	left, right, head, foot table.Inches
	opacity                 float64
}

// cells lists those that are worth a mark; full white is a shot every time.
func (m ShotMapView) cells() []shotCell {
	var all []shotCell
	for i, row := range m.Chance {
		long := m.Kind.Length() / table.Inches(len(m.Chance))
		for j, chance := range row {
			wide := m.Kind.Width() / table.Inches(len(row))
			left, head := wide*table.Inches(j)-m.Kind.Width()/2, long*table.Inches(i)
			if c := (shotCell{left, left + wide, head, head + long, math.Round(chance*85) / 100}); c.opacity > 0 {
				all = append(all, c)
			}
		}
	}
	return all
}

// DescribeShotMap says how many leaves there are and from where most were shots.
func DescribeShotMap(m ShotMapView) string {
	best, at, sum, n := -1.0, table.Place{}, 0.0, 0
	for i, row := range m.Chance {
		for j, chance := range row {
			sum, n = sum+chance, n+1
			if chance > best {
				best = chance
				at = table.Place{
					X: m.Kind.Width() * ((table.Inches(j)+0.5)/table.Inches(len(row)) - 0.5),
					Y: m.Kind.Length() * (table.Inches(i) + 0.5) / table.Inches(len(m.Chance)),
				}
			}
		}
	}
	if n == 0 || len(m.Places) == 0 {
		return "No leaves yet."
	}
	return fmt.Sprintf("Where %s lay in %s, and from where it could be pocketed: %.1f times in ten on average, most, %.1f in ten, %s.",
		m.Ball, say.Count(len(m.Places), "break", "breaks"), 10*sum/float64(n), 10*best, m.Kind.ZoneWords(at))
}

// ShotMapLegend lists the marks that the picture has.
func ShotMapLegend(m ShotMapView) []LegendItem {
	key := []LegendItem{{MarkShotCell, "the stronger, the more breaks were a shot from there"}, {MarkDot, "where " + m.Ball + " lay"}}
	if m.Window != nil {
		key = append(key, LegendItem{MarkWindow, "cue-ball window"})
	}
	if m.Better != nil {
		key = append(key, LegendItem{MarkBetter, "window that would give more shots"})
	}
	return key
}

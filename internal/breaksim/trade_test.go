//go:build !quick

package breaksim

import (
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// What players know about the break (common practice, no source, unless a test
// says otherwise) against a few hundred computed breaks. Setups that are compared
// meet the same luck, so that differences are theirs. Where the model disagrees,
// MODEL.md says so and no test here claims otherwise.

const breaksEach = 300

// tally counts what a coach would count over the breaks of one setup from the
// left.
type tally struct {
	wingMade, sideFirst, footFirst int // the last holds foot rail and kisses
	headRail, forward, dry         int
	balls                          int
	wingHeading                    float64 // mean, degrees
	scratches                      map[table.Pocket]int
	dropped                        map[rack.Slot]map[table.Pocket]int
	footEnd                        map[rack.Slot]int // stopped below the middle of the table
	elsewhere                      map[rack.Slot]int // stopped above it
	off                            int
}

func tallied(t *testing.T, tb *Table, change func(*BreakInput)) tally {
	t.Helper()
	in := leftBreak()
	in.Scatter = human()
	in.Cue = table.Place{X: -tb.kind.Width() * 0.36, Y: tb.kind.HeadString()}
	change(&in)
	c := tally{
		scratches: map[table.Pocket]int{}, dropped: map[rack.Slot]map[table.Pocket]int{},
		footEnd: map[rack.Slot]int{}, elsewhere: map[rack.Slot]int{},
	}
	for i := range breaksEach {
		c.add(mustBreak(t, tb, in, seeded(i)), tb.kind)
	}
	return c
}

func (c *tally) add(r BreakResult, k table.Kind) {
	wing, _ := r.BallInSlot(r.Game.WingSlot(table.Left))
	c.wingHeading += float64(wing.Heading) / breaksEach
	switch {
	case wing.End == Dropped && wing.Pocket == table.FootLeft:
		c.wingMade++
	case wing.Met == MetSideRail:
		c.sideFirst++
	case wing.Met == MetFootRail || wing.Met == MetBall:
		c.footFirst++
	}
	switch r.CuePath {
	case PathHeadRail:
		c.headRail++
	case PathForward:
		c.forward++
	}
	if r.IsDry() {
		c.dry++
	}
	c.balls += len(r.Pocketed)
	c.off += len(r.Off)
	for _, b := range r.Balls {
		c.addBall(b, k)
	}
}

func (c *tally) addBall(b BallEnd, k table.Kind) {
	switch {
	case b.End == OffTable && b.Slot == "":
		c.off++
	case b.End == Dropped && b.Slot == "":
		c.scratches[b.Pocket]++
	case b.End == Dropped:
		if c.dropped[b.Slot] == nil {
			c.dropped[b.Slot] = map[table.Pocket]int{}
		}
		c.dropped[b.Slot][b.Pocket]++
	case b.End == Stopped && b.Place.Y > k.CentreSpot().Y:
		c.footEnd[b.Slot]++
	case b.End == Stopped:
		c.elsewhere[b.Slot]++
	}
}

// sideShare is the share of side-rail-first among the misses with a side.
func (c tally) sideShare() float64 { return float64(c.sideFirst) / float64(c.sideFirst+c.footFirst) }

// falls checks that a quantity falls from each setup to the next.
func falls(t *testing.T, what string, values ...float64) {
	t.Helper()
	t.Logf("%s: %.3g", what, values)
	for i := 1; i < len(values); i++ {
		if !(values[i] < values[i-1]) {
			t.Errorf("%s does not fall at step %d: %.4g", what, i, values)
		}
	}
}

// The nearer the cue ball stands to the long string, the more the wing ball
// meets the side rail first; the further out, the foot rail or another ball.
func TestTrade_CueBallPlaceMovesTheWingBall(t *testing.T) {
	tb := nineFoot(t, nil)
	var heading, share []float64
	for _, x := range []table.Inches{-22, -18, -14, -10, -6} {
		c := tallied(t, tb, func(in *BreakInput) { in.Cue.X = x })
		heading = append(heading, c.wingHeading)
		share = append(share, -c.sideShare())
	}
	falls(t, "the wing ball's heading, cue ball moved in", heading...)
	falls(t, "less the share of side rail first, cue ball moved in", share...)
}

// Contact towards the break side does what moving the cue ball out does. Common
// practice has about 0.25 in of contact do as much as 4 in of place; the model
// must agree within a factor of two.
func TestTrade_ContactAndPlaceAreInterchangeable(t *testing.T) {
	tb := nineFoot(t, nil)
	heading := func(x, contact table.Inches) float64 {
		return tallied(t, tb, func(in *BreakInput) { in.Cue.X, in.Contact = x, contact }).wingHeading
	}
	perInchOfPlace := (heading(-20, 0) - heading(-16, 0)) / -4
	perInchOfContact := (heading(-18, -0.2) - heading(-18, 0.2)) / -0.4
	worth := 4 * perInchOfPlace / perInchOfContact
	t.Logf("4 in of place are worth %.2f in of contact", worth)
	if worth < 0.125 || worth > 0.5 {
		t.Errorf("4 in of place are worth %.2f in of contact, want about 0.25", worth)
	}
}

// Speed has little effect on the wing ball's direction (Alciatore, Billiards
// Digest, March 2018): less than half of what an inch of cue-ball place does.
func TestTrade_SpeedHardlyTurnsTheWingBall(t *testing.T) {
	tb := nineFoot(t, nil)
	at := func(x table.Inches, speed table.Mph) float64 {
		return tallied(t, tb, func(in *BreakInput) { in.Cue.X, in.Speed = x, speed }).wingHeading
	}
	bySpeed, byPlace := at(-18, 14)-at(-18, 24), at(-18.5, 18)-at(-17.5, 18)
	t.Logf("10 mph turn it by %.2f degrees, an inch of place by %.2f", bySpeed, byPlace)
	if magnitude(bySpeed) > magnitude(byPlace)/2 {
		t.Errorf("10 mph turn the wing ball by %.2f degrees, an inch of place by %.2f", bySpeed, byPlace)
	}
}

// More draw sends the cue ball back to the head rail more often, more follow on
// into the rack end; draw ends in the head corners, follow in the foot corners.
func TestTrade_DrawAndFollow(t *testing.T) {
	tb := nineFoot(t, nil)
	var headRail, forward, headCorner, footCorner []float64
	for _, tip := range []RadiusFraction{-0.2, -0.1, 0, 0.1, 0.2} {
		c := tallied(t, tb, func(in *BreakInput) { in.Tip = tip })
		headRail = append(headRail, float64(c.headRail))
		forward = append(forward, -float64(c.forward))
		headCorner = append(headCorner, float64(c.scratches[table.HeadLeft]+c.scratches[table.HeadRight]))
		footCorner = append(footCorner, float64(c.scratches[table.FootLeft]+c.scratches[table.FootRight]))
	}
	falls(t, "back to the head rail, draw to follow", headRail...)
	falls(t, "less going forward, draw to follow", forward[1:]...)
	t.Logf("scratches in head corners %v, foot corners %v", headCorner, footCorner)
	if !(headCorner[0]+headCorner[1] > headCorner[3]+headCorner[4]) {
		t.Errorf("scratches in head corners, draw to follow: %v, want most with draw", headCorner)
	}
	if !(footCorner[0]+footCorner[1] < footCorner[3]+footCorner[4]) {
		t.Errorf("scratches in foot corners, draw to follow: %v, want most with follow", footCorner)
	}
}

// Hit too far on the far side, the cue ball scratches in the far side pocket;
// contact towards the break side cures it.
func TestTrade_FarSideScratches(t *testing.T) {
	tb := nineFoot(t, nil)
	var far []float64
	for _, contact := range []table.Inches{0.5, 0.3, 0} {
		c := tallied(t, tb, func(in *BreakInput) { in.Contact = contact })
		far = append(far, float64(c.scratches[table.SideRight]))
	}
	falls(t, "scratches in the far side pocket, contact brought back to full", far...)
}

// In a break from the left on a good rack: the head ball goes to the far side
// pocket or up the table; the far ball of row 2 banks towards the near side
// pocket and stays up; tail, centre ball and the far row-4 ball mostly stay at
// the foot end.
func TestTrade_WhereBallsGo(t *testing.T) {
	tb := nineFoot(t, nil)
	c := tallied(t, tb, func(in *BreakInput) { in.Scatter.Gap = 0.001 })
	if up := c.elsewhere["1"] + c.dropped["1"][table.SideRight]; up < breaksEach*2/3 {
		t.Errorf("the head ball goes up or into the far side pocket in %d of %d", up, breaksEach)
	}
	drops := c.dropped["2R"]
	if up := c.elsewhere["2R"] + drops[table.SideLeft]; up < breaksEach*2/3 {
		t.Errorf("the far row-2 ball stays up or drops in the near side pocket in %d of %d", up, breaksEach)
	}
	for pocket, n := range drops {
		if pocket != table.SideLeft && n >= drops[table.SideLeft] {
			t.Errorf("the far row-2 ball drops in %s %d times, near side %d", pocket, n, drops[table.SideLeft])
		}
	}
	for _, slot := range []rack.Slot{"5", "3C", "4R"} {
		t.Logf("slot %s: %d of %d stop at the foot end, %d above", slot, c.footEnd[slot], breaksEach, c.elsewhere[slot])
		if c.footEnd[slot] <= breaksEach/2 {
			t.Errorf("slot %s: %d of %d stop at the foot end, want most", slot, c.footEnd[slot], breaksEach)
		}
	}
}

// A looser rack makes fewer balls and fewer wing balls; gaps change outcomes
// (Alciatore, Billiards Digest, March 2018).
func TestTrade_LooserRackMakesLess(t *testing.T) {
	tb := nineFoot(t, nil)
	var balls, wing []float64
	for _, gap := range []table.Inches{0, 0.003, 0.01, 0.03} {
		c := tallied(t, tb, func(in *BreakInput) { in.Scatter.Gap = gap })
		balls, wing = append(balls, float64(c.balls)), append(wing, float64(c.wingMade))
	}
	falls(t, "balls made, rack ever looser", balls...)
	falls(t, "wing balls made, rack ever looser", wing...)
}

// The wing ball falls more often on smaller tables and into wider pockets, and
// is no longer natural with the money ball on the foot spot.
func TestTrade_TableAndSpot(t *testing.T) {
	made := func(k table.Kind, spot rack.Spot) float64 {
		tb, err := NewTable(Defaults(), k)
		if err != nil {
			t.Fatal(err)
		}
		return float64(tallied(t, tb, func(in *BreakInput) { in.Spot = spot }).wingMade)
	}
	head := rack.HeadOnSpot
	falls(t, "wing balls made on 7, 8, 9 feet", made(table.SevenFoot(), head), made(table.EightFoot(), head), made(table.NineFoot(), head))
	tight := table.Kind{Feet: 9, CornerMouth: 4, SideMouth: 4.5}
	wide := table.Kind{Feet: 9, CornerMouth: 5, SideMouth: 5.5}
	falls(t, "wing balls made in wide, usual, tight pockets", made(wide, head), made(table.NineFoot(), head), made(tight, head))
	falls(t, "wing balls made with the head ball, twice those with the money ball on the spot",
		made(table.NineFoot(), head), 2*made(table.NineFoot(), rack.CentreOnSpot))
}

// More speed makes more balls and fewer dry breaks.
func TestTrade_SpeedMakesBalls(t *testing.T) {
	tb := nineFoot(t, nil)
	var balls, wet []float64
	for _, speed := range []table.Mph{24, 18, 14, 8} {
		c := tallied(t, tb, func(in *BreakInput) { in.Speed = speed })
		balls, wet = append(balls, float64(c.balls)), append(wet, float64(breaksEach-c.dry))
	}
	falls(t, "balls made, ever slower", balls...)
	falls(t, "breaks that make a ball, ever slower", wet...)
}

// A steep cue makes balls fly: none leaves the table from a level one, some do
// when the cue ball is in the air at the rack.
func TestTrade_SteepCueSendsBallsOff(t *testing.T) {
	tb := nineFoot(t, nil)
	level := tallied(t, tb, func(in *BreakInput) { in.Elevation = 0 }).off
	steep := tallied(t, tb, func(in *BreakInput) { in.Elevation = 15 }).off
	t.Logf("off the table: %d from a level cue, %d from 15 degrees", level, steep)
	if level > breaksEach/50 || steep <= level {
		t.Errorf("off the table: %d from a level cue, %d from a steep one", level, steep)
	}
}

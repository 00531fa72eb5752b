package leave

import (
	"math"
	"slices"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// search is one ball being looked at.
type search struct {
	leave    Leave
	ball     rack.Ball
	on       table.Place
	accuracy Accuracy
	atRail   bool
	blockers []blocker
	images   []blocker // what withImages gave last, of the rail imaged
	imaged   table.Rail
	mouths   [6]table.Mouth
	entries  [6]entry
}

// entry is the directions in which the ball rolls into a mouth, from its line
// toward the middle; brushed takes in those by a touch of the rail.
type entry struct {
	line          table.Vector
	open, brushed span
}

// newSearch gathers what stands around a ball.
func newSearch(l Leave, ball rack.Ball, on table.Place, a Accuracy) *search {
	s := &search{leave: l, ball: ball, on: on, accuracy: a, atRail: nearRail(l.Kind, on)}
	for i, p := range table.Pockets() {
		m := l.Kind.PocketMouth(p)
		line, open := mouthSpan(on, m)
		s.mouths[i], s.entries[i] = m, entry{line, open, brushed(l.Kind, on, m, line, open)}
	}
	s.blockers = make([]blocker, 0, len(l.Placed))
	for _, r := range l.Placed {
		if r.Ball != ball {
			s.blockers = append(s.blockers, blocker{r.Ball, r.Place})
		}
	}
	return s
}

// worthwhile is a quick look at a bank or kick: those thinner than some 75 degrees
// are left out.
func worthwhile(cue, on, mouth table.Place) bool {
	in, out := cue.VectorTo(on), on.VectorTo(mouth)
	along := in.Dot(out)
	return along > 0 && along*along > 0.07*in.Dot(in)*out.Dot(out)
}

func (s *search) findDirect(cue table.Place, found []Shot) []Shot {
	aim := newCueToBall(cue, s.on)
	for i := range s.mouths {
		l := s.directLane(i, aim)
		if a := l.aim(); a.possible {
			found = append(found, s.shot(&l, a, cue))
		}
	}
	return found
}

// directLane is the straight way into one of the mouths.
func (s *search) directLane(mouth int, aim cueToBall) lane {
	return lane{cueToBall: aim, kind: s.leave.Kind, mouth: s.mouths[mouth], line: s.entries[mouth].line, open: s.entries[mouth].brushed,
		way: Direct, onWay: s.blockers, onCue: s.blockers, accuracy: s.accuracy, atRail: s.atRail}
}

// chanceFrom is the chance of the likeliest direct shot with the cue ball at a
// place.
func (s *search) chanceFrom(cue table.Place) float64 {
	best, aim := 0.0, newCueToBall(cue, s.on)
	for i := range s.mouths {
		l := s.directLane(i, aim)
		best = max(best, l.aim().chance)
	}
	return best
}

// findBanks: a ball that lies on a rail is not banked off that rail, where it comes
// back into the cue ball more often than not (MODEL.md).
func (s *search) findBanks(cue table.Place, r table.Rail, found []Shot) []Shot {
	if s.leave.Kind.IsFrozen(s.on, r) {
		return found
	}
	k, aim := s.leave.Kind, newCueToBall(cue, s.on)
	var onWay []blocker
	for _, mouth := range s.mouths {
		if slices.Contains(r.OpenPockets(), mouth.Pocket) {
			continue
		}
		if !worthwhile(cue, s.on, k.ReflectPlace(mouth.Middle, r)) {
			continue
		}
		mouth = mouth.ReflectMouth(k, r)
		if onWay == nil {
			onWay = s.withImages(r)
		}
		line, open := mouthSpan(s.on, mouth)
		l := lane{cueToBall: aim, kind: k, mouth: mouth, line: line, open: open, way: Bank, rail: r,
			onWay: onWay, onCue: s.blockers, accuracy: s.accuracy, atRail: s.atRail}
		if a := l.aim(); a.chance >= faintest {
			found = append(found, s.shot(&l, a, cue))
		}
	}
	return found
}

// findKicks: the object ball's own image is in the cue ball's way to the rail. A cue
// ball that lies on a rail is not kicked off that rail.
func (s *search) findKicks(cue table.Place, r table.Rail, found []Shot) []Shot {
	k := s.leave.Kind
	if k.IsFrozen(cue, r) {
		return found
	}
	image := k.ReflectPlace(cue, r)
	aim := newCueToBall(image, s.on)
	var onCue []blocker
	for i, mouth := range s.mouths {
		if !worthwhile(image, s.on, mouth.Middle) || s.isHopeless(image, r, mouth) {
			continue
		}
		if onCue == nil {
			onCue = append(s.withImages(r), blocker{s.ball, k.ReflectPlace(s.on, r)})
		}
		l := lane{cueToBall: aim, kind: k, mouth: mouth, line: s.entries[i].line, open: s.entries[i].open, way: Kick, rail: r,
			onWay: s.blockers, onCue: onCue, accuracy: s.accuracy, atRail: s.atRail}
		if a := l.aim(); a.chance >= faintest {
			found = append(found, s.shot(&l, a, cue))
		}
	}
	return found
}

// isHopeless reports whether a kick's chance must be under the faintest by its rebound
// alone: the window is no wider than the mouth seen from the ball, as seen from
// the cue ball, and the chance no more than that by √(2π) standard deviations.
func (s *search) isHopeless(image table.Place, r table.Rail, m table.Mouth) bool {
	away, apart := float64(s.on.Distance(m.Middle)), float64(image.Distance(s.on))
	if away < 2*diameter || apart < 2*diameter {
		return false
	}
	l := lane{kind: s.leave.Kind, rail: r}
	widest := float64(m.First.Distance(m.Second)) / (away - diameter) * diameter / (apart - diameter)
	return widest < faintest*2.5*l.behindRail(image, s.on)*reboundError.Radians()
}

// withImages returns the blockers and their images beyond a rail: one or the other
// stands in the way before or behind it. It has room for one more.
func (s *search) withImages(r table.Rail) []blocker {
	if s.imaged == r {
		return s.images
	}
	if s.images == nil {
		s.images = make([]blocker, 0, 2*len(s.blockers)+1)
	}
	s.images, s.imaged = append(s.images[:0], s.blockers...), r
	for _, b := range s.blockers {
		s.images = append(s.images, blocker{b.ball, s.leave.Kind.ReflectPlace(b.at, r)})
	}
	return s.images
}

// shot writes down an aimed lane.
func (s *search) shot(l *lane, a aimed, cue table.Place) Shot {
	way := l.objectWay(a.middle)
	ghost := l.on.MovedBy(way.ScaledBy(-diameter))
	deep := max(l.on.VectorTo(l.mouth.Middle).Dot(l.mouth.In), 0)
	target := l.on.MovedBy(way.ScaledBy(deep / max(way.Dot(l.mouth.In), 1e-9)))
	cut := math.Abs(ghostLine(l.cue, ghost, way, l.ahead).AngleTo(way))
	shot := Shot{
		Ball: s.ball, Pocket: l.mouth.Pocket, Way: l.way, Rail: l.rail,
		Cue: cue, Ghost: ghost, Target: target,
		Cut: table.DegreesFromRadians(cut), ToBall: l.cue.Distance(ghost), ToPocket: l.on.Distance(target),
		Window: table.DegreesFromRadians(a.window.width()), Chance: a.chance,
		BlockedBy: s.named(a.blocked),
	}
	switch l.way {
	case Bank:
		shot.Turn = l.meet(l.on, target)
	case Kick:
		shot.Turn = l.meet(l.cue, ghost)
	}
	return shot
}

// ghostLine is the cue ball's direction when it sends the object ball off one way. Where
// they touch, or were put down closer than that, the ghost ball is not before it: then
// it is the line of centres.
func ghostLine(cue, ghost table.Place, way, line table.Vector) table.Vector {
	if v := cue.VectorTo(ghost); v.Length() > 1e-6 && v.Dot(way) > 0 {
		return v
	}
	return line
}

// meet is where the straight way between two places crosses the lane's rail.
func (l *lane) meet(from, to table.Place) table.Place {
	at, out := l.kind.TurningLine(l.rail)
	way := from.VectorTo(to)
	return from.MovedBy(way.ScaledBy(from.VectorTo(at).Dot(out) / way.Dot(out)))
}

func (s *search) named(blocked uint32) []rack.Ball {
	var balls []rack.Ball
	for b := rack.Ball(1); b <= rack.HighestBall; b++ {
		if blocked&(1<<b) != 0 && b != s.ball {
			balls = append(balls, b)
		}
	}
	return balls
}

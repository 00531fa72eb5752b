package table

import "math"

// Mouth is a pocket's opening as a ball sees it that comes from the cloth.
type Mouth struct {
	Pocket Pocket
	// First and Second are the nose tips, as Jaws returns them, Middle lies
	// between them.
	First, Second, Middle Place
	// In is the unit vector into the pocket, square to the mouth.
	In Vector
}

// PocketMouth returns a pocket's opening.
func (k Kind) PocketMouth(p Pocket) Mouth {
	first, second := k.JawTips(p)
	m := Mouth{Pocket: p, First: first, Second: second,
		Middle: Place{(first.X + second.X) / 2, (first.Y + second.Y) / 2}}
	across := float64(p.Side().Sign())
	switch {
	case p.IsSide():
		m.In = Vector{across, 0}
	case p.IsHead():
		m.In = Vector{across / math.Sqrt2, -1 / math.Sqrt2}
	default:
		m.In = Vector{across / math.Sqrt2, 1 / math.Sqrt2}
	}
	return m
}

// ReflectMouth returns the mouth's image beyond a rail, as Kind.Reflect does.
func (m Mouth) ReflectMouth(k Kind, r Rail) Mouth {
	_, out := k.TurningLine(r)
	m.First, m.Second, m.Middle = k.ReflectPlace(m.First, r), k.ReflectPlace(m.Second, r), k.ReflectPlace(m.Middle, r)
	beyond := 2 * m.In.Dot(out)
	m.In = Vector{m.In.X - beyond*out.X, m.In.Y - beyond*out.Y}
	return m
}

// measuredRoom is how far from the tip of a jaw the middle of a ball must pass to drop,
// for an approach at an angle from square to the mouth: positive when the ball
// comes from the tip's own side, along its rail, negative when it comes at the
// tip from across the mouth. A ball that comes from across may sink deeper past
// the tip, since the facing turns it in.
type measuredRoom struct {
	approach Degrees
	inches   Inches
}

// The rooms of corners and sides were measured on the computed table (package
// breaksim) with a ball that rolls at the mouth at 4 mph, a medium shot
// (Alciatore's classes of speed: 2 to 4 mph medium), mouths of 4.5 and 5 in; for
// mouths from 4 to 6 in they differ by no more than 0.05 in, at 2 to 5 mph by
// 0.08. Without any help of the facings it would be NoseReach, 1.083 in,
// throughout.
var (
	measuredCornerRooms = []measuredRoom{{-45, 0.60}, {-30, 0.71}, {-15, 0.80}, {0, 0.89}, {15, 0.97}, {25, 1.02}, {45, 1.08}}
	measuredSideRooms   = []measuredRoom{{-70, 0.58}, {-64, 0.69}, {-56, 0.40}, {-45, 0.49}, {-30, 0.62}, {-15, 0.72}, {0, 0.83},
		{15, 0.92}, {30, 1.00}, {45, 1.05}, {60, 1.08}, {70, 1.09}}
)

// JawClearance returns how far from the tip of a pocket's jaw the middle of a ball must
// pass to drop: see room. Approaches beyond those measured are read as the last.
func (p Pocket) JawClearance(approach Degrees) Inches {
	rooms := measuredCornerRooms
	if p.IsSide() {
		rooms = measuredSideRooms
	}
	if approach <= rooms[0].approach {
		return rooms[0].inches
	}
	for i, next := range rooms[1:] {
		if approach <= next.approach {
			share := Inches((approach - rooms[i].approach) / (next.approach - rooms[i].approach))
			return rooms[i].inches + share*(next.inches-rooms[i].inches)
		}
	}
	return rooms[len(rooms)-1].inches
}

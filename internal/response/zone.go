package response

import (
	"math"

	"breakwright/internal/table"
)

// A cue ball's rest is counted by zones: four along the table, cut at the head
// string, the centre and the foot string, by three across. A place is a place
// with a blur, since nobody sees an inch from where they stand: near a border
// it counts for both zones.

// restBlur is how far from a border a place still counts for both zones.
const restBlur table.Inches = 3

type zoneShare struct {
	zone   int
	weight float32
}

// zonesOf returns the zones a place counts for; the weights add up to 1, and those
// left over are 0.
func zonesOf(p table.Place, k table.Kind) [4]zoneShare {
	along, next, alongShare := band(p.Y, []table.Inches{k.Length() / 4, k.Length() / 2, k.Length() * 3 / 4})
	across, beside, acrossShare := band(p.X, []table.Inches{-k.Width() / 6, k.Width() / 6})
	return [4]zoneShare{
		{along*3 + across, exactShare(alongShare * acrossShare)},
		{next*3 + across, exactShare((1 - alongShare) * acrossShare)},
		{along*3 + beside, exactShare(alongShare * (1 - acrossShare))},
		{next*3 + beside, exactShare((1 - alongShare) * (1 - acrossShare))},
	}
}

// exactShare rounds to a 64th, so that sums of shares do not depend on their
// order.
func exactShare(v float64) float32 { return float32(math.Round(v*64) / 64) }

// band returns the band a value lies in, the neighbour it may count for too, and
// the band's own share, from a half at the border to 1 at restBlur from it.
func band(v table.Inches, borders []table.Inches) (in, other int, share float64) {
	in, share = len(borders), 1
	for i, b := range borders {
		if v < b {
			in = i
			break
		}
	}
	other = in
	for i, b := range borders {
		if d := math.Abs(float64(v - b)); d < float64(restBlur) {
			other = i
			if in == i {
				other = i + 1
			}
			return in, other, 0.5 + d/float64(2*restBlur)
		}
	}
	return in, other, share
}

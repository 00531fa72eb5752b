package belief

import (
	"math"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// oddTables depart from the computed ones in every outcome, by up to a quarter.
func oddTables() *departure {
	t := drill.TablesPlay{Departures: make([]int, response.OutputCount())}
	for i := range t.Departures {
		t.Departures[i] = i*7%11 - 5
	}
	return departureOf(t)
}

// playedSituation is a usual break of nine balls.
func playedSituation() *situation {
	setup := drill.Setup{Cue: table.Place{X: -12, Y: 25}, Speed: 19}
	return situationOf(setup, response.Rack{Game: rack.NineBall, Spot: rack.HeadOnSpot}, table.NineFoot(), anyTable)
}

// What a break is worth outcome by outcome is what it is worth by its parts.
func TestLocalWorth_IsThatOfTheParts(t *testing.T) {
	w := Weights{Down: 1.1, OpenShot: 0.7, Scratch: -1, CueOff: -20, Weak: -1.3, Wing: 0.4, Middle: 0.9, Short: -0.6}
	for name, d := range map[string]*departure{"as computed": nil, "odd": oddTables()} {
		in := playedSituation()
		worth := d.worthBy(w).in(in)
		for hand := 0; hand < len(cloud); hand += 13 {
			local := localPrediction{prediction: in.predict(hand), departure: d}
			p := local.parts()
			want := w.Down*p.Down + w.OpenShot*p.OpenShot + w.Scratch*p.Scratch + w.CueOff*p.CueOff +
				w.Weak*p.Weak + w.Wing*p.Wing + w.Middle*p.Middle + w.Short*p.Short
			for range 2 { // computed, then kept
				if got := worth.of(hand); math.Abs(got-want) > 1e-5 {
					t.Fatalf("%s, hand %d: worth %v, by its parts %v", name, hand, got, want)
				}
			}
		}
	}
}

// The logarithms of all hands' shares are those of each one's, whether they were just
// computed or are kept because more than one student asked.
func TestLocalPredictions_AreEachPrediction(t *testing.T) {
	for name, d := range map[string]*departure{"as computed": nil, "odd": oddTables()} {
		in := playedSituation()
		all, scratch := make(response.Response, response.Width), make([]float32, len(cloud))
		for asked := range 3 {
			shown := in.predictAllOn(d)
			for index := 0; index < response.Width; index++ {
				f, _ := response.FactAt(index)
				if int(f) >= facts {
					continue
				}
				logs := shown.logShares(f, index, scratch)
				for hand := 0; hand < len(cloud); hand += 49 {
					local := localPrediction{prediction: in.predict(hand), departure: d}
					local.unpack(all)
					want := max(math.Log(float64(all[index])), surest)
					if got := float64(logs[hand]); math.Abs(got-want) > 1e-3 {
						t.Fatalf("%s, asked %d times before, outcome %d of hand %d: %v, alone %v", name, asked, index, hand, got, want)
					}
				}
			}
		}
	}
}

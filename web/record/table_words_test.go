//go:build !quick

package record_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/component"
	"breakwright/web/sync"
	"breakwright/web/webtest"
)

// randomBreak is any break the page at the table can record.
func randomBreak(rng *rand.Rand, s drill.Setup, number int) drill.Break {
	b := drill.Break{Number: number}
	pick := func(n int) bool { return rng.IntN(n) == 0 }
	place := func() table.Place {
		return table.Place{X: table.Inches(rng.IntN(477)-238) / 10, Y: table.Inches(rng.IntN(977)+12) / 10}
	}
	for n := range s.Game.BallCount() {
		ball := rack.Ball(n + 1)
		switch {
		case pick(4):
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: table.Pockets()[rng.IntN(6)]})
		case pick(12):
			b.Off = append(b.Off, ball)
		case pick(6):
			b.Rest = append(b.Rest, drill.RestingBall{Ball: ball, Place: place()})
		case ball == s.WingBall() && pick(2):
			b.WingMiss = drill.WingMisses()[rng.IntN(len(drill.WingMisses()))]
		}
	}
	if pick(5) {
		b.WingMiss = drill.NotWatched
	}
	switch rng.IntN(4) {
	case 0:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.Pockets()[rng.IntN(6)]}
	case 1:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	default:
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: place()}
		if pick(2) {
			b.CuePath = drill.CuePaths()[rng.IntN(len(drill.CuePaths()))]
		}
	}
	b.Racked = []drill.Racked{"", drill.RackedTight, drill.RackedLoose}[rng.IntN(3)]
	if pick(2) {
		b.Shot, b.RanOut = drill.Shots()[rng.IntN(3)], drill.RanOutNo
		b.Rails, b.Speed, b.Note = drill.ObservedCount(rng.IntN(9)), 17.5, "“Loose” rack <&>"
	}
	return b
}

// The phone says of a break what the server says, counts what it counts, and
// writes a break that was opened again in the very same bytes.
func TestTable_SameWordsAsTheServer(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	rng := rand.New(rand.NewPCG(9, 2026))
	s, k := site.Drill.Setup, site.Table.Kind
	var texts []string
	var breaks []drill.Break
	for n := range 400 {
		b := randomBreak(rng, s, n%10+1)
		text, err := sync.WriteBreak(b)
		if err != nil {
			t.Fatal(err)
		}
		breaks, texts = append(breaks, b), append(texts, string(text))
	}
	all, err := json.Marshal(texts)
	if err != nil {
		t.Fatal(err)
	}
	type said struct {
		Words, Again []string
		Counts       component.BreakCounts
	}
	got := browser.Evaluate[said](h.Window, fmt.Sprintf(`bw.held().then((held) => {
		const plan = held.plans[0], breaks = %s.map((t) => JSON.parse(t));
		const c = bw.counts(breaks, plan);
		return {
			Words: breaks.map((b) => bw.breakWords(b, plan)),
			Again: breaks.map((b) => bw.contentOf(bw.entryOf(b, plan), plan, b.number, b.at)),
			Counts: { Breaks: c.breaks, Watched: c.watched, Wing: c.wing, Window: c.window, Scratches: c.scratches, Dry: c.dry, Off: c.off },
		};
	})`, all))
	for i, b := range breaks {
		if want := component.BreakWords(b, s, k); got.Words[i] != want {
			t.Errorf("the phone says  %s\nthe server says %s", got.Words[i], want)
		}
		if got.Again[i] != texts[i] {
			t.Errorf("opened and saved\n%s\nwas\n%s", got.Again[i], texts[i])
		}
	}
	if want := component.CountBreaks(breaks, s, site.Drill.Window); got.Counts != want {
		t.Errorf("the phone counts %+v, the server %+v", got.Counts, want)
	}
}

package sync

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func TestWriteBreak_InTheBytesOfAScript(t *testing.T) {
	b := drill.Break{
		Number: 3, At: time.Date(2026, 3, 2, 18, 5, 7, 120e6, time.UTC),
		Pocketed: []drill.Pocketed{{Ball: 1, Pocket: table.SideLeft}, {Ball: 8, Pocket: table.FootLeft}},
		Off:      []rack.Ball{5}, Cue: stopped(-3.5, 41), CuePath: drill.PathBack,
		Rest:  []drill.RestingBall{{Ball: 2, Place: table.Place{X: 0, Y: 12.1}}},
		Rails: drill.ObservedCount(0), Shot: drill.ShotOpen, Racked: drill.RackedLoose, Speed: 17.5, Note: "<rack> & \"chalk\"",
	}
	// What JSON.stringify gives for the same break.
	want := `{"number":3,"at":"2026-03-02T18:05:07.120Z","pocketed":[{"ball":1,"pocket":"side-left"},{"ball":8,"pocket":"foot-left"}],` +
		`"off":[5],"cue":{"how":"stopped","x":-3.5,"y":41},"cue_path":"back","rest":[{"ball":2,"x":0,"y":12.1}],"rails":0,` +
		`"shot":"open","racked":"loose","speed":17.5,"note":"<rack> & \"chalk\""}`
	got, err := WriteBreak(b)
	if err != nil || string(got) != want {
		t.Errorf("%v\n%s\n%s", err, got, want)
	}
}

func TestReadBreak_ReadsWhatWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := func(name string) table.Inches { return table.Inches(rapid.IntRange(-240, 990).Draw(t, name)) / 10 }
		b := drill.Break{
			Number: rapid.IntRange(1, 50).Draw(t, "number"), At: time.UnixMilli(rapid.Int64Range(1, 4e12).Draw(t, "at")).UTC(),
			WingMiss: rapid.SampledFrom(append(drill.WingMisses(), "")).Draw(t, "miss"),
			Shot:     rapid.SampledFrom(append(drill.Shots(), "")).Draw(t, "shot"), Note: rapid.String().Draw(t, "note"),
			Racked: rapid.SampledFrom([]drill.Racked{"", drill.RackedTight, drill.RackedLoose}).Draw(t, "racked"),
			Speed:  table.Mph(rapid.IntRange(0, 400).Draw(t, "speed")) / 10,
		}
		switch rapid.IntRange(0, 2).Draw(t, "cue") {
		case 0:
			b.Cue = stopped(tenths("x"), tenths("y"))
		case 1:
			b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: rapid.SampledFrom(table.Pockets()).Draw(t, "pocket")}
		case 2:
			b.Cue = drill.CueEnd{How: drill.OffTable}
		}
		for ball := range rapid.IntRange(0, 9).Draw(t, "balls") {
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: rack.Ball(ball + 1), Pocket: rapid.SampledFrom(table.Pockets()).Draw(t, "to")})
			b.Rest = append(b.Rest, drill.RestingBall{Ball: rack.Ball(ball + 1), Place: table.Place{X: tenths("rx"), Y: tenths("ry")}})
		}
		text, err := WriteBreak(b)
		if err != nil {
			t.Fatal(err)
		}
		read, err := ReadBreak(text)
		if err != nil || !reflect.DeepEqual(read, b) {
			t.Fatalf("%v\nread  %+v\nwrote %+v\n%s", err, read, b, text)
		}
	})
}

func TestReadBreak_RefusesHalves(t *testing.T) {
	for name, text := range map[string]string{
		"nothing":               ``,
		"cut off":               `{"number":3,"cue":{"how":"sto`,
		"a ball too many":       `{"number":3,"off":[264],"cue":{"how":"off-table"}}`,
		"half a place":          `{"number":3,"cue":{"how":"stopped","x":4}}`,
		"stopped nowhere":       `{"number":3,"cue":{"how":"stopped"}}`,
		"a word nobody knows":   `{"number":3,"cue":{"how":"off-table"},"spin":3}`,
		"a time in other words": `{"number":3,"at":"yesterday","cue":{"how":"off-table"}}`,
		"a list":                `[]`,
	} {
		if b, err := ReadBreak([]byte(text)); err == nil {
			t.Errorf("%s was read as %+v", name, b)
		}
	}
}

func FuzzReadBreak(f *testing.F) {
	f.Add([]byte(`{"number":3,"cue":{"how":"stopped","x":4,"y":3},"pocketed":[{"ball":8,"pocket":"foot-left"}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := ReadBreak(text)
		if err != nil {
			return
		}
		again, err := WriteBreak(b)
		if err != nil {
			t.Fatalf("%q was read but cannot be written: %v", text, err)
		}
		if read, err := ReadBreak(again); err != nil || read.Number != b.Number {
			t.Fatalf("%s: %v", again, err)
		}
	})
}

func TestSetupJSON_ThereAndBack(t *testing.T) {
	for _, game := range rack.Games() {
		for _, side := range []table.Side{table.Left, table.Right} {
			s := drill.StandardSetup(game, side, table.NineFoot())
			s.Contact, s.Spin = 0.2, -0.1
			if back, err := setupToJSON(s).toSetup(); err != nil || back != s {
				t.Errorf("%s from the %s: %+v, %v", game, side, back, err)
			}
		}
	}
}

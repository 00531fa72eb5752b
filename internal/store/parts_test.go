package store

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// A login is one line of at most two hundred letters without spaces around it.
func TestCheckLogin_Limits(t *testing.T) {
	for login, taken := range map[string]bool{
		"ines": true, "Inés the coach": true, strings.Repeat("ü", 200): true, strings.Repeat("ü", 201): false,
		"": false, "  ": false, " ines": false, "ines ": false, "in\nes": false, strings.Repeat("i", 119) + "\n": false,
		strings.Repeat("i", 150) + "\ni": false, strings.Repeat("i", 150) + "\x00i": false, "in\u202ees": false,
	} {
		if says := checkLogin(login); (says == "") != taken {
			t.Errorf("%.20q of %d bytes: %q", login, len(login), says)
		}
	}
}

// A training has from one to fifty breaks, a name and a way to break.
func TestCheckTraining_Limits(t *testing.T) {
	k := table.NineFoot()
	setup := drill.StandardSetup(rack.NineBall, table.Left, k)
	for _, c := range []struct {
		field  string
		change func(*NewSet)
	}{
		{"", func(*NewSet) {}},
		{"", func(s *NewSet) { s.Breaks = 1 }},
		{"breaks", func(s *NewSet) { s.Breaks = 0 }},
		{"", func(s *NewSet) { s.Breaks = 50 }},
		{"breaks", func(s *NewSet) { s.Breaks = 51 }},
		{"training", func(s *NewSet) { s.Training = "" }},
		{"setup", func(s *NewSet) { s.Setup = drill.Setup{} }},
		{"window", func(s *NewSet) { s.Window.Foot = 200 }},
	} {
		start := NewSet{Training: "Before the league", Setup: setup, Window: k.StandardWindow(), Breaks: 10}
		c.change(&start)
		var p drill.Problems
		if err := start.checkTraining(k); c.field == "" && err != nil || c.field != "" && (!errors.As(err, &p) || p.MessageFor(c.field) == "") {
			t.Errorf("%+v: %v, want a word about %q", start, err, c.field)
		}
	}
}

// The set that advice is about goes to the end, wherever it was, with what belongs to it.
func TestHistory_MoveSetLast(t *testing.T) {
	ids := []SetID{{uuid.UUID{1}}, {uuid.UUID{2}}, {uuid.UUID{3}}}
	for _, c := range []struct {
		last SetID
		want string
	}{{ids[0], "bca"}, {ids[1], "acb"}, {ids[2], "abc"}, {SetID{uuid.UUID{9}}, "abc"}} {
		h := History{IDs: slices.Clone(ids), Sets: []drill.Set{{Name: "a"}, {Name: "b"}, {Name: "c"}}, closed: []time.Time{time.Unix(1, 0), time.Unix(2, 0), time.Unix(3, 0)}}
		h.moveSetLast(c.last)
		got := ""
		for i, set := range h.Sets {
			got += set.Name
			if at := int64(set.Name[0] - 'a' + 1); h.closed[i].Unix() != at || h.IDs[i] != ids[at-1] {
				t.Errorf("beside set %s stand %v and %v", set.Name, h.IDs[i], h.closed[i])
			}
		}
		if got != c.want {
			t.Errorf("with %v last: %s, want %s", c.last, got, c.want)
		}
	}
}

package component

import (
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

func TestRosterChangeWords_SidesByTheirNumber(t *testing.T) {
	for _, c := range []struct {
		students int
		side     table.Side
		want     string
	}{
		{1, table.Left, "1 student breaks from the left."}, {2, table.Right, "2 students break from the right."}, {3, "", "3 students: break side not known."},
	} {
		if says := RosterChangeWords(store.RosterChange{Kind: store.SetSides, Students: c.students, Side: c.side}); says != c.want {
			t.Errorf("%q, want %q", says, c.want)
		}
	}
}

package coach

import (
	"net/http"
	"strings"

	"breakwright/internal/say"
	"breakwright/web/session"
)

// stripEntry is a count at the head of the desk that leads to its group.
type stripEntry struct {
	key, words string
	count      int
}

// stripEntries are the groups that the desk has, in their order.
func (v deskView) stripEntries() []stripEntry {
	var entries []stripEntry
	add := func(key, words string, n int) {
		if n > 0 {
			entries = append(entries, stripEntry{key, words, n})
		}
	}
	add(v.Hurts.Key, "hurt", len(v.Hurts.Lines))
	add(v.Off.Key, "off the table", len(v.Off.Lines))
	add("decide", "to decide", len(v.Proposals))
	add("questions", "to answer", len(v.Questions))
	add("locked", "locked out", len(v.Locked))
	for _, g := range []lineGroup{v.Stuck, v.Unanswered, v.Slump, v.Cards, v.Idle} {
		add(g.Key, say.Decapitalize(g.Heading), len(g.Lines))
	}
	return entries
}

// rosterGap is something that is not known of some students yet.
type rosterGap struct{ Says, Path, Button string }

// loadRosterGaps counts who has not joined and whose side nobody knows.
func (p *Pages) loadRosterGaps(r *http.Request, v *deskView) error {
	all, err := p.store.ListRoster(r.Context(), session.MustUser(r).Actor)
	if err != nil {
		return err
	}
	students, notJoined, noSide := 0, 0, 0
	for _, s := range all {
		if s.Archived {
			continue
		}
		students++
		if !s.HasSecret {
			notJoined++
		}
		if s.Side == "" {
			noSide++
		}
	}
	v.NobodyJoined = students > 0 && notJoined == students
	if notJoined > 0 {
		v.Gaps = append(v.Gaps, rosterGap{
			Says: say.Capitalize(say.CountFromOne(notJoined, "student has", "students have")) + " not joined yet.",
			Path: "/students?show=not+joined", Button: "See who",
		})
	}
	if noSide > 0 {
		v.Gaps = append(v.Gaps, rosterGap{
			Says: "The break side of " + say.CountFromOne(noSide, "student", "students") + " is not known.",
			Path: "/students?show=no+side", Button: "Set the sides",
		})
	}
	return nil
}

// waiting names the students of a line, for the count that a script keeps.
func (l deskLine) waiting() string {
	ids := make([]string, len(l.Students))
	for i, who := range l.Students {
		ids[i] = who.ID.String()
	}
	return strings.Join(ids, " ")
}

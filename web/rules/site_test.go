package rules_test

import (
	"net/url"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// site is a whole site with its coach signed in.
type site struct {
	*webtest.Site
	coach *webtest.Client
}

func newSite(t *testing.T) site {
	t.Helper()
	s := webtest.New(t)
	return site{s, s.SignInCoach(t)}
}

// record records ten breaks of the student, closes them with the real adviser
// and gives the set. Of the wing balls so many fall, the others meet the side
// rail first; so many cue balls fly off the table.
func (s site) record(t *testing.T, student store.Actor, made, off int) store.SetID {
	t.Helper()
	set := s.StartSet(t, student)
	for n := 1; n <= 10; n++ {
		b := drill.Break{
			Number: n, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -2, Y: 40}}, CuePath: drill.PathBack,
			Rails: drill.ObservedCount(6), WingMiss: drill.MissSideRail,
			Pocketed: []drill.Pocketed{{Ball: set.Setup.HeadBall(), Pocket: table.SideRight}},
		}
		if n <= made {
			b.WingMiss, b.Pocketed = "", []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}
		}
		if n <= off {
			b.Cue, b.CuePath = drill.CueEnd{How: drill.OffTable}, ""
		}
		if _, err := s.Store.SaveBreak(t.Context(), student, set.ID, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Store.CloseSet(t.Context(), student, set.ID, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	return set.ID
}

const balance = "/rules/change?rule=wing-miss-balance"

// typed is what a rule's form sends, with some fields typed over.
func (s site) typed(t *testing.T, path string, pairs ...string) url.Values {
	t.Helper()
	form := s.coach.Get(t, path).RequireStatus(t, 200).FormValues(t, "main form[action='/rules']:has(.field)")
	for i := 0; i < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	return form
}

func (s site) rules(t *testing.T) drill.ClubRules {
	t.Helper()
	r, err := s.Store.GetRules(t.Context(), s.Coach)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

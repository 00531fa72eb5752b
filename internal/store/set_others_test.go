package store_test

import (
	"reflect"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// Who closes a set is judged beside the newest two sets of every other student of the club
// with such a rack, whoever closes it; and what the judge made of them is kept, for the
// export and for trying other rules.
func TestCloseSet_IsJudgedBesideOthers(t *testing.T) {
	t.Parallel()
	s := storetest.New(t)
	sc, elsewhere := storetest.AddScene(t, s), storetest.AddScene(t, s)
	ctx := t.Context()
	for student, breaks := range [][]int{{4}, {5, 6, 7}, {}} {
		for _, n := range breaks {
			who := sc.StudentActor(student)
			sc.CloseSet(t, who, sc.RecordBreaks(t, who, n), 18)
		}
	}
	sc.RecordBreaks(t, sc.StudentActor(2), 9) // open
	elsewhere.CloseSet(t, elsewhere.StudentActor(1), elsewhere.RecordBreaks(t, elsewhere.StudentActor(1), 8), 18)
	for name, who := range map[string]store.Actor{"the student": sc.StudentActor(0), "the coach": sc.Coach} {
		set := sc.RecordBreaks(t, sc.StudentActor(0), 3)
		play := drill.TablesPlay{Breaks: 13, Character: []int{1, 0, -2, 0}, Spread: []int{2, 2, 3, 0}, Departures: []int{-7, 3}}
		var beside [][]int
		err := s.CloseSet(ctx, who, set, func(c store.Case) (store.Judgement, error) {
			for _, sets := range c.Others {
				var breaks []int
				for _, one := range sets {
					breaks = append(breaks, len(one.Breaks))
					if one.Student != "" || one.Kind != sc.Table.Kind || one.Setup.Game != rack.NineBall {
						t.Errorf("%s: beside %+v", name, one)
					}
				}
				beside = append(beside, breaks)
			}
			return store.Judgement{Verdict: "more", JSON: []byte(`{}`), RulesVersion: "1", TablesPlay: play}, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if want := [][]int{{6, 7}}; !reflect.DeepEqual(beside, want) {
			t.Errorf("%s: judged beside sets of %v breaks, want %v", name, beside, want)
		}
		latest := must(s.ListPastCases(ctx, sc.Coach, time.Now().Add(-time.Hour), 1))(t).Cases[0]
		if latest.Set != set || !reflect.DeepEqual(latest.TablesPlay, play) {
			t.Errorf("%s: set %v, %+v was kept", name, latest.Set, latest.TablesPlay)
		}
		exported := must(exportOf(t, s, sc.StudentActor(0)))(t)
		if last := exported[len(exported)-1]; !reflect.DeepEqual(last.Plan.TablesPlay, play) {
			t.Errorf("%s: %+v goes out", name, last.Plan.TablesPlay)
		}
	}
}

// exportOf returns the sets of a student's own export.
func exportOf(t *testing.T, s *store.Store, who store.Actor) (all []drill.Set, err error) {
	err = s.ExportSets(t.Context(), who, store.ExportScope{Student: who.Person}, func(_ store.Person, sets []drill.Set) error {
		all = append(all, sets...)
		return nil
	})
	return all, err
}

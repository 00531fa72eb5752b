package store_test

import (
	"fmt"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// Two years of two sets a week.
const setsOfTwoYears = 208

// BenchmarkAfterTwoYears measures what a student's and a coach's page cost when
// each of three students has two years behind them.
func BenchmarkAfterTwoYears(b *testing.B) {
	sc := storetest.NewScene(b)
	must(sc.Store.ImportSets(b.Context(), sc.Coach, twoYears(sc)))(b)
	odile := sc.StudentActor(0)
	set := sc.StartSet(b, odile)
	number := 0
	for name, page := range map[string]func() error{
		"today":    func() error { return done(sc.Store.GetToday(b.Context(), odile)) },
		"sets":     func() error { return done(sc.Store.ListSets(b.Context(), odile, odile.Person)) },
		"history":  func() error { return done(sc.Store.GetHistory(b.Context(), odile, odile.Person)) },
		"progress": func() error { return done(sc.Store.GetAssignmentProgress(b.Context(), sc.Coach, sc.Assignment)) },
		"save a break": func() error {
			number++
			again := storetest.NewBreak(1)
			again.ID, again.Revision, again.Note = store.BreakID(set.ID), number, fmt.Sprint(number)
			return done(sc.Store.SaveBreak(b.Context(), odile, set.ID, again))
		},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := page(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func twoYears(sc storetest.Scene) []drill.Set {
	var sets []drill.Set
	for _, student := range sc.Students {
		at := time.Date(2024, 1, 1, 18, 0, 0, 0, time.UTC)
		for n := range setsOfTwoYears {
			set := drill.Set{
				Student: student.Name, Name: fmt.Sprint("paper ", n), Table: sc.Table.Label(), Kind: sc.Table.Kind,
				Setup: sc.Drill.Setup.ForSide(student.Side),
			}
			for i := range drill.UsualBreaks {
				broken := storetest.NewBreak(i + 1).Break
				broken.At = at.Add(time.Duration(n)*84*time.Hour + time.Duration(i)*time.Minute)
				set.Breaks = append(set.Breaks, broken)
			}
			sets = append(sets, set)
		}
	}
	return sets
}

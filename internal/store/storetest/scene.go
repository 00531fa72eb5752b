package storetest

import (
	"context"
	"fmt"
	"sync"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// Passphrase is that of every coach made here.
const Passphrase = "chalk and patience"

// Scene is an invented club at work: a coach, a class of three students of whom
// the last breaks from the right, a 9-foot table, and the standard nine-ball
// drill from the left, assigned to the class.
type Scene struct {
	Store      *store.Store
	Coach      store.Actor
	Login      string
	Class      store.ClassID
	Students   []store.Person
	Table      store.Table
	Drill      store.Drill
	Assignment store.AssignmentID
}

// NewScene makes a scene over a store of its own.
func NewScene(t testing.TB, options ...store.Option) Scene {
	t.Helper()
	return AddScene(t, New(t, options...))
}

// AddScene makes another club in the store.
func AddScene(t testing.TB, s *store.Store) Scene {
	t.Helper()
	scene := Scene{Store: s}
	scene.Coach, scene.Login = NewClub(t, s)
	ctx := t.Context()
	scene.Class = must(s.SaveClass(ctx, scene.Coach, store.Class{Name: "Thursday evening"}))(t)
	scene.Students = must(s.AddStudents(ctx, scene.Coach, uuid.Nil, scene.Class, []store.NewStudent{
		{Name: "Odile", Side: table.Left}, {Name: "Bram", Side: table.Left}, {Name: "Wen", Side: table.Right},
	}))(t)
	scene.Table = must(s.SaveTable(ctx, scene.Coach, store.Table{Name: "North 2", Kind: table.NineFoot()}))(t)
	scene.Drill = must(s.SaveDrill(ctx, scene.Coach, store.DrillID{}, StandardDrill()))(t)
	scene.Assignment = must(s.AssignDrill(ctx, scene.Coach, store.Assignment{Drill: scene.Drill.ID, Class: scene.Class}))(t)
	return scene
}

// NewClub makes a club with a coach, whose login nobody else has.
func NewClub(t testing.TB, s *store.Store) (coach store.Actor, login string) {
	t.Helper()
	_, link := account.NewToken()
	if err := s.SetFirstRun(t.Context(), link); err != nil {
		t.Fatal(err)
	}
	login = "coach-" + uuid.NewString()
	hash := must(secretHash())(t)
	coach = must(s.CreateClubWithCoach(t.Context(), link, store.Club{Name: "Harbour Lane", Zone: "UTC"},
		store.NewCoach{Name: "Ines", Login: login, SecretHash: hash}))(t)
	return coach, login
}

var secretHash = sync.OnceValues(func() (string, error) {
	hasher, err := account.NewHasher(account.TestCost(), 1)
	if err != nil {
		return "", err
	}
	return hasher.HashSecret(context.Background(), Passphrase)
})

// StandardDrill is ten standard breaks from the left on a 9-foot table.
func StandardDrill() drill.Drill {
	k := table.NineFoot()
	return drill.Drill{
		Name: "Find the wing ball", Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k),
		Breaks: drill.UsualBreaks, Window: k.StandardWindow(), Targets: drill.StandardTargets(k),
		Watch: "The wing ball and the cue ball.", WatchList: drill.UsualWatchList(),
	}
}

// StudentActor is the viewer that the i-th student is.
func (s Scene) StudentActor(i int) store.Actor {
	return store.Actor{Club: s.Coach.Club, Person: s.Students[i].ID, Role: store.Student}
}

// ChangeStudents makes a change to students of the scene.
func (s Scene) ChangeStudents(t testing.TB, change store.RosterChange, students ...store.PersonID) {
	t.Helper()
	if _, err := s.Store.ChangeStudents(t.Context(), s.Coach, change, students); err != nil {
		t.Fatal(err)
	}
}

// StartSet starts a set of the scene's assignment.
func (s Scene) StartSet(t testing.TB, student store.Actor) store.Set {
	t.Helper()
	return must(s.Store.StartSet(t.Context(), student, store.NewSet{Assignment: s.Assignment, Table: s.Table.ID}))(t)
}

// RecordBreaks starts a set and records n breaks, not closing it. They are those of
// NewBreak.
func (s Scene) RecordBreaks(t testing.TB, student store.Actor, n int) store.SetID {
	t.Helper()
	set := s.StartSet(t, student)
	for i := range n {
		if _, err := s.Store.SaveBreak(t.Context(), student, set.ID, NewBreak(i+1)); err != nil {
			t.Fatal(err)
		}
	}
	return set.ID
}

// NewBreak is a valid break of any set with the scene's rack: the wing ball, 8,
// drops in the left foot corner in every second, else it meets the side rail.
func NewBreak(number int) store.Break {
	b := drill.Break{
		Number: number,
		Cue:    drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -3.5, Y: 41}},
		Rest:   []drill.RestingBall{{Ball: 1, Place: table.Place{X: -20, Y: 31}}},
		Rails:  drill.ObservedCount(6),
	}
	if number%2 == 0 {
		b.Pocketed = []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}}
	} else {
		b.WingMiss = drill.MissSideRail
	}
	return store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}
}

// CloseSet closes a set with advice that proposes to move the cue ball to x, or
// nothing when x is where it is.
func (s Scene) CloseSet(t testing.TB, who store.Actor, set store.SetID, x table.Inches) {
	t.Helper()
	if err := s.Store.CloseSet(t.Context(), who, set, ProposeMove(x)); err != nil {
		t.Fatal(err)
	}
}

// ProposeMove is a judge who proposes to move the cue ball to x.
func ProposeMove(x table.Inches) store.Judge {
	return func(c store.Case) (store.Judgement, error) {
		setup := c.Sets[len(c.Sets)-1].Setup
		judgement := store.Judgement{Verdict: "more", JSON: []byte(`{"verdict":"more"}`), RulesVersion: "1"}
		if setup.Cue.X == x {
			return judgement, nil
		}
		moved := setup
		moved.Cue.X = x
		judgement.Verdict, judgement.JSON = "change", fmt.Appendf(nil, `{"verdict":"change","says":"Move the cue ball to %s in out.","prescription":{"variable":"place"}}`, table.FlipSign(x))
		judgement.Proposal = &store.Proposal{
			Rule: "wing-miss-balance", Variable: "place", From: setup.Cue.X.String(), To: x.String(), Unit: "in",
			Reason: fmt.Sprintf("%d breaks were looked at.", len(c.Sets[len(c.Sets)-1].Breaks)),
			Expect: "The wing ball meets both rails.", Setup: moved,
		}
		return judgement, nil
	}
}

// must returns a value or ends the test: must(f())(t).
func must[T any](value T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// write is something a page or a phone asks for, with its ids made beforehand,
// so that it can be asked for again.
type write struct {
	name string
	do   func() error
}

// clicks is what the writes need to know.
type clicks struct {
	storetest.Scene
	ctx         context.Context
	odile, bram store.Actor
	open        store.SetID // nine of ten breaks
	proposal    store.PrescriptionID
	tenth       store.Break
	gone        store.BreakID
	token       []byte

	form                     uuid.UUID
	person                   store.PersonID
	class                    store.ClassID
	table                    store.TableID
	drill, copied            store.DrillID
	assignment, direct       store.AssignmentID
	set                      store.SetID
	question, answer, toMany store.MessageID
}

// writes are all of them, in an order in which they work.
func writes(t *testing.T, sc storetest.Scene) []write {
	t.Helper()
	c := clicks{
		Scene: sc, ctx: t.Context(), odile: sc.StudentActor(0), bram: sc.StudentActor(1), tenth: storetest.NewBreak(10),
		form: uuid.New(), person: store.NewID[store.PersonID](), class: store.NewID[store.ClassID](),
		table: store.NewID[store.TableID](), drill: store.NewID[store.DrillID](), copied: store.NewID[store.DrillID](),
		assignment: store.NewID[store.AssignmentID](), direct: store.NewID[store.AssignmentID](),
		set: store.NewID[store.SetID](), question: store.NewID[store.MessageID](), answer: store.NewID[store.MessageID](), toMany: store.NewID[store.MessageID](),
	}
	closed := sc.RecordBreaks(t, c.odile, 10)
	sc.CloseSet(t, c.odile, closed, -16)
	c.proposal = must(sc.Store.GetSet(c.ctx, c.odile, closed))(t).Prescription.ID
	c.open = sc.RecordBreaks(t, c.odile, 9)
	c.gone = must(sc.Store.GetSet(c.ctx, c.odile, c.open))(t).Breaks[3].ID
	_, c.token = account.NewToken()
	return append(append(append(c.people(), c.practice()...), c.recording()...), c.putAway()...)
}

// done drops what a call gives back.
func done[T any](_ T, err error) error { return err }

// change makes a change to Bram.
func (c clicks) change(one store.RosterChange) func() error {
	one.ID = store.NewID[store.RosterChangeID]()
	return func() error {
		return done(c.Store.ChangeStudents(c.ctx, c.Coach, one, []store.PersonID{c.bram.Person}))
	}
}

func (c clicks) people() []write {
	s, ctx, coach := c.Store, c.ctx, c.Coach
	levi := store.NewCoach{ID: c.person, Name: "Levi", Login: "levi-" + c.form.String(), SecretHash: "$argon2id$v=19$x"}
	twins := []store.NewStudent{{Name: "Ada"}, {Name: "Ada"}}
	return []write{
		{"change the club", func() error { return s.ChangeClub(ctx, coach, store.Club{Name: "Quay", Zone: "Asia/Tokyo"}) }},
		{"add a coach", func() error { return done(s.AddCoach(ctx, coach, levi)) }},
		{"make a class", func() error { return done(s.SaveClass(ctx, coach, store.Class{ID: c.class, Name: "Friday"})) }},
		{"add students", func() error { return done(s.AddStudents(ctx, coach, c.form, c.class, twins)) }},
		{"add to a class", c.change(store.RosterChange{Kind: store.AddToClass, Class: c.class})},
		{"take out of a class", c.change(store.RosterChange{Kind: store.RemoveFromClass, Class: c.class})},
		{"rename", func() error { return s.RenamePerson(ctx, coach, c.bram.Person, "Bram K") }},
		{"set a side", c.change(store.RosterChange{Kind: store.SetSides, Side: table.Right})},
		{"archive a person", func() error { return s.ArchivePerson(ctx, coach, c.bram.Person) }},
		{"restore a person", func() error { return s.RestorePerson(ctx, coach, c.bram.Person) }},
		{"change a secret", func() error { return s.ChangeSecret(ctx, c.odile, "$argon2id$v=19$x", store.SessionID{}, c.token) }},
		{"reset a secret", func() error { return s.ResetSecret(ctx, c.odile, "$argon2id$v=19$y") }},
		{"free a person", func() error { return s.FreePerson(ctx, coach, c.odile.Person) }},
		{"invite a coach", func() error { return s.InviteCoach(ctx, coach, c.token, time.Date(2126, 1, 1, 0, 0, 0, 0, time.UTC)) }},
		{"choose units", func() error { return s.SetUnits(ctx, c.odile, store.Centimetres) }},
		{"choose a theme", func() error { return s.SetTheme(ctx, c.odile, store.Dark) }},
		{"revoke a session", func() error { return s.RevokeSession(ctx, c.token) }},
		{"revoke all", func() error { return s.RevokeSessions(ctx, coach, c.odile.Person) }},
	}
}

func (c clicks) practice() []write {
	s, ctx, coach := c.Store, c.ctx, c.Coach
	toClass := store.Assignment{ID: c.assignment, Drill: c.drill, Class: c.Class}
	toOdile := store.Assignment{ID: c.direct, Drill: c.drill, Students: []store.PersonID{c.odile.Person}}
	friday := time.Date(2026, 3, 6, 0, 0, 0, 0, time.UTC)
	edited := storetest.StandardDrill()
	edited.Breaks = 12
	return []write{
		{"make a table", func() error {
			return done(s.SaveTable(ctx, coach, store.Table{ID: c.table, Name: "South", Kind: table.EightFoot()}))
		}},
		{"make a drill", func() error { return done(s.SaveDrill(ctx, coach, c.drill, storetest.StandardDrill())) }},
		{"copy a drill", func() error { return done(s.CopyDrill(ctx, coach, c.drill, c.copied, "A copy")) }},
		{"assign to a class", func() error { return done(s.AssignDrill(ctx, coach, toClass)) }},
		{"assign to students", func() error { return done(s.AssignDrill(ctx, coach, toOdile)) }},
		{"change an assignment", func() error { return s.ChangeAssignment(ctx, coach, c.assignment, friday, "Slowly.") }},
		{"edit an assigned drill", func() error { return done(s.SaveDrill(ctx, coach, c.drill, edited)) }},
	}
}

func (c clicks) recording() []write {
	s, ctx := c.Store, c.ctx
	start := store.NewSet{ID: c.set, Assignment: c.assignment, Table: c.Table.ID}
	return []write{
		{"decide", func() error {
			return s.DecidePrescription(ctx, c.Coach, c.proposal, store.Decision{Answer: store.Approved, Note: "Yes."})
		}},
		{"start a set", func() error { return done(s.StartSet(ctx, c.odile, start)) }},
		{"save a break", func() error { return done(s.SaveBreak(ctx, c.odile, c.open, c.tenth)) }},
		{"delete a break", func() error { return s.DeleteBreak(ctx, c.odile, c.open, c.gone, 2, "twice") }},
		{"close a set", func() error { return s.CloseSet(ctx, c.odile, c.open, storetest.ProposeMove(-14)) }},
		{"save a break of a closed set", func() error { return done(s.SaveBreak(ctx, c.odile, c.open, c.tenth)) }},
		{"ask", func() error { return s.PostMessage(ctx, c.odile, c.question, c.open, "Why?") }},
		{"answer", func() error { return s.PostMessage(ctx, c.Coach, c.answer, c.open, "Look at the rails.") }},
		{"write to students", func() error {
			return done(s.PostToStudents(ctx, c.Coach, c.toMany, []store.PersonID{c.odile.Person}, "Thursday at seven."))
		}},
		{"import", func() error { return done(s.ImportSets(ctx, c.Coach, paperSets())) }},
	}
}

func (c clicks) putAway() []write {
	s, ctx, coach := c.Store, c.ctx, c.Coach
	tight := c.Table
	tight.Kind.CornerMouth = 4.25
	return []write{
		{"end an assignment", func() error { return s.EndAssignment(ctx, coach, c.assignment) }},
		{"take an assignment up again", func() error { return s.ResumeAssignment(ctx, coach, c.assignment) }},
		{"end it after all", func() error { return s.EndAssignment(ctx, coach, c.assignment) }},
		{"archive a drill", func() error { return s.ArchiveDrill(ctx, coach, c.Drill.ID) }},
		{"change a table that was broken on", func() error { return done(s.SaveTable(ctx, coach, tight)) }},
		{"archive a table", func() error { return s.ArchiveTable(ctx, coach, c.table) }},
		{"archive a class", func() error { return s.ArchiveClass(ctx, coach, c.class) }},
		{"restore a class", func() error { return s.RestoreClass(ctx, coach, c.class) }},
		{"restore a table", func() error { return s.RestoreTable(ctx, coach, c.table) }},
		{"archive a copy", func() error { return s.ArchiveDrill(ctx, coach, c.copied) }},
		{"restore a drill", func() error { return s.RestoreDrill(ctx, coach, c.copied) }},
		{"assign from both sides", func() error {
			_, _, err := s.AssignBothSides(ctx, coach, store.Assignment{ID: store.AssignmentID{UUID: c.form}, Drill: c.copied, Class: c.class})
			return err
		}},
	}
}

func paperSets() []drill.Set {
	k := table.NineFoot()
	return []drill.Set{{
		Student: "Odile", Name: "a1", Table: "North 2", Kind: k, Setup: storetest.StandardDrill().Setup,
		Breaks: []drill.Break{storetest.NewBreak(1).Break, storetest.NewBreak(2).Break},
	}}
}

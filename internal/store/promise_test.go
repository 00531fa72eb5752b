package store_test

import (
	"errors"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// What the nouns promise beside their types: who reads them and who changes them,
// and what everybody else gets.
func TestNouns_KeepTheirPromises(t *testing.T) {
	t.Parallel()
	ctx, scene := t.Context(), storetest.NewScene(t)
	s, odile, bram := scene.Store, scene.StudentActor(0), scene.StudentActor(1)
	elsewhere, _ := storetest.NewClub(t, s)
	set := scene.RecordBreaks(t, odile, 10)
	scene.CloseSet(t, odile, set, -16)
	change := must(s.ListPrescriptions(ctx, odile, odile.Person))(t)[0].ID
	other := must(s.SaveClass(ctx, scene.Coach, store.Class{Name: "Monday noon"}))(t)
	unused := must(s.CopyDrill(ctx, scene.Coach, scene.Drill.ID, store.NewID[store.DrillID](), "Not given to anybody"))(t)
	job := store.Job{ID: store.NewID[store.JobID](), Kind: store.ExportJob, Title: "all"}
	if err := s.CreateJob(ctx, scene.Coach, job, nil); err != nil {
		t.Fatal(err)
	}
	single := must(s.AssignDrill(ctx, scene.Coach, store.Assignment{Drill: scene.Drill.ID, Students: []store.PersonID{odile.Person}}))(t)
	type call func(store.Actor) error
	for noun, promise := range map[string]struct {
		read    call // what a coach and, when it is theirs, Odile read
		private bool // from Odile too
		change  call // what coaches alone do
	}{
		"person": {read: func(v store.Actor) error { _, err := s.GetPerson(ctx, v, odile.Person); return err },
			change: func(v store.Actor) error { return s.RenamePerson(ctx, v, odile.Person, "Odile") }},
		"class of others": {read: func(v store.Actor) error { _, _, err := s.GetClass(ctx, v, other); return err }, private: true,
			change: func(v store.Actor) error { return s.ArchiveClass(ctx, v, other) }},
		"drill of nobody": {read: func(v store.Actor) error { _, err := s.GetDrill(ctx, v, unused.ID); return err }, private: true,
			change: func(v store.Actor) error { return s.ArchiveDrill(ctx, v, unused.ID) }},
		"assignment": {read: func(v store.Actor) error { _, err := s.GetAssignment(ctx, v, single); return err },
			change: func(v store.Actor) error { return s.EndAssignment(ctx, v, single) }},
		"set": {read: func(v store.Actor) error { _, err := s.GetSet(ctx, v, set); return err }},
		"prescription": {read: func(v store.Actor) error { _, err := s.GetPrescription(ctx, v, change); return err },
			change: func(v store.Actor) error {
				return s.DecidePrescription(ctx, v, change, store.Decision{Answer: store.Approved})
			}},
		"message": {read: func(v store.Actor) error { return s.PostMessage(ctx, v, store.MessageID{}, set, "Further out?") }},
	} {
		wrong := func(who string, got, want error) {
			if !errors.Is(got, want) {
				t.Errorf("%s, for %s: %v, want %v", noun, who, got, want)
			}
		}
		mine := error(nil)
		if promise.private {
			mine = store.ErrNotFound
		}
		wrong("its coach", promise.read(scene.Coach), nil)
		wrong("its student", promise.read(odile), mine)
		wrong("another student", promise.read(bram), store.ErrNotFound)
		wrong("another club's coach", promise.read(elsewhere), store.ErrNotFound)
		if promise.change != nil {
			wrong("a student who changes it", promise.change(odile), store.ErrNotAllowed)
			wrong("another club's coach who changes it", promise.change(elsewhere), store.ErrNotFound)
			wrong("its coach who changes it", promise.change(scene.Coach), nil)
		}
	}
	if _, err := s.GetJob(ctx, odile, job.ID); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a job, for a student: %v", err)
	}
	if _, err := s.StartSet(ctx, scene.Coach, store.NewSet{Assignment: scene.Assignment, Table: scene.Table.ID}); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a coach starts a set: %v", err)
	}
	if _, err := s.SaveBreak(ctx, bram, set, storetest.NewBreak(11)); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another student records in the set: %v", err)
	}
}

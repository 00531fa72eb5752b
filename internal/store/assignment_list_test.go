package store_test

import (
	"fmt"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// Page after page every assignment is given once, in order, with how many there
// are.
func TestPageAssignments(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	friday := must(s.SaveClass(ctx, sc.Coach, store.Class{Name: "Friday"}))(t)
	for n := range 7 {
		a := store.Assignment{Drill: sc.Drill.ID, Class: friday, Due: time.Date(2030, 1, 7-n, 0, 0, 0, 0, time.UTC), Note: fmt.Sprint(n)}
		id := must(s.AssignDrill(ctx, sc.Coach, a))(t)
		if n >= 4 {
			if err := s.EndAssignment(ctx, sc.Coach, id); err != nil {
				t.Fatal(err)
			}
		}
	}
	for name, c := range map[string]struct {
		filter store.AssignmentFilter
		want   []string
	}{
		"open ones, by due day":         {store.AssignmentFilter{Most: 2}, []string{"3", "2", "1", "0", ""}},
		"of one class":                  {store.AssignmentFilter{Class: sc.Class, Most: 2}, []string{""}},
		"of the other":                  {store.AssignmentFilter{Class: friday, Most: 3}, []string{"3", "2", "1", "0"}},
		"ended ones, the latest first":  {store.AssignmentFilter{Ended: true, Most: 2}, []string{"6", "5", "4"}},
		"without a bound":               {store.AssignmentFilter{}, []string{"3", "2", "1", "0", ""}},
		"ended ones of a class of none": {store.AssignmentFilter{Ended: true, Class: sc.Class, Most: 2}, nil},
	} {
		var got []string
		for {
			c.filter.Skip = len(got)
			page := must(s.PageAssignments(ctx, sc.Coach, c.filter))(t)
			if len(page.List) == 0 {
				break
			}
			if page.Total != len(c.want) || c.filter.Most > 0 && len(page.List) > c.filter.Most {
				t.Errorf("%s: %d given of %d, want at most %d of %d", name, len(page.List), page.Total, c.filter.Most, len(c.want))
			}
			for _, a := range page.List {
				got = append(got, a.Note)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// A person reports whether they have joined, to coaches and to themself; the secret
// itself is never read.
func TestPerson_HasSecret(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	if err := s.JoinClub(ctx, sc.StudentActor(1), "$argon2id$some-hash", ""); err != nil {
		t.Fatal(err)
	}
	_, members, err := s.GetClass(ctx, sc.Coach, sc.Class)
	if err != nil {
		t.Fatal(err)
	}
	for _, people := range [][]store.Person{members, must(s.ListStudents(ctx, sc.Coach, store.ActiveOnly))(t)} {
		for _, p := range people {
			if p.HasSecret != (p.Name == "Bram") {
				t.Errorf("%s has joined: %v", p.Name, p.HasSecret)
			}
		}
	}
	if own := must(s.GetPerson(ctx, sc.StudentActor(1), sc.Students[1].ID))(t); !own.HasSecret {
		t.Error("Bram does not know that they have joined")
	}
	must(s.ReplaceCode(ctx, sc.Coach, sc.Students[1].ID))(t)
	if again := must(s.GetPerson(ctx, sc.Coach, sc.Students[1].ID))(t); again.HasSecret {
		t.Error("the secret was taken away, and Bram still counts as joined")
	}
}

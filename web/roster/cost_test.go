package roster_test

import (
	"fmt"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// A page takes as many queries for a large class as for a small one, who is
// signed in included.
func TestPages_TakeAFixedNumberOfQueries(t *testing.T) {
	// A student's page tells the story and what comes next, as the student sees it.
	const most, mostOfStudent = 21, 33 // one of them for the audit log
	var queries storetest.Counter
	s := serve(t, storetest.NewScene(t, store.WithTracer(&queries)))
	measure := func() map[string]int64 {
		costs := map[string]int64{}
		for name, path := range map[string]string{
			"classes": "/classes", "class": s.class(), "codes": s.class() + "/codes?all=1", "student": s.student(0), "tables": "/tables", "students": "/students",
		} {
			costs[name] = queries.CountDuring(func() { s.get(t, path) })
		}
		return costs
	}
	few := measure()
	var more []store.NewStudent
	for i := range 40 {
		more = append(more, store.NewStudent{Name: fmt.Sprintf("Student %d", i)})
	}
	if _, err := s.Store.AddStudents(t.Context(), s.Coach, uuid.New(), s.Class, more); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Store.AssignDrill(t.Context(), s.Coach, store.Assignment{Drill: s.Drill.ID, Class: s.Class}); err != nil {
		t.Fatal(err)
	}
	for name, n := range measure() {
		limit := int64(most)
		if name == "student" {
			limit = mostOfStudent
		}
		if n != few[name] || n == 0 || n > limit {
			t.Errorf("%s takes %d queries for 43 students and %d for three; %d is the most", name, n, few[name], limit)
		}
	}
}

package store_test

import (
	"testing"

	"breakwright/internal/store/storetest"
)

func TestScene(t *testing.T) {
	sc := storetest.NewScene(t)
	id := sc.Record(t, sc.Student(2), 10)
	sc.Close(t, sc.Student(2), id, 16)
	set := must(sc.Store.GetSet(t.Context(), sc.Coach, id))(t)
	t.Logf("%+v", set)
	t.Logf("%+v", must(sc.Store.GetToday(t.Context(), sc.Student(2)))(t))
	t.Logf("%+v", must(sc.Store.AssignmentProgress(t.Context(), sc.Coach, sc.Assignment))(t))
	t.Logf("%+v", must(sc.Store.PendingPrescriptions(t.Context(), sc.Coach))(t))
}

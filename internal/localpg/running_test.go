//go:build !quick

package localpg

import "testing"

func TestFindRunning_BesideTheServerThatStartedIt(t *testing.T) {
	dir := newFolder(t)
	if _, ok := FindRunning(t.Context(), dir); ok {
		t.Error("a server is found where none was started")
	}
	started := startIn(t, dir)
	execStatement(t, started, "create table kept as select 10 as breaks")
	found, ok := FindRunning(t.Context(), dir)
	if !ok {
		t.Fatal("the running server is not found")
	}
	if got := queryValue[int](t, found, "select breaks from kept"); got != 10 {
		t.Errorf("the found server says %d, want 10", got)
	}
	if has, err := found.HasDatabase(t.Context(), "nobody_made_this"); err != nil || has {
		t.Errorf("a database that nobody made: %v (%v)", has, err)
	}
	if has, err := found.HasDatabase(t.Context(), superuser); err != nil || !has {
		t.Errorf("the database that is always there: %v (%v)", has, err)
	}
	found.Stop()
	if got := queryValue[int](t, started, "select breaks from kept"); got != 10 {
		t.Error("what was found could be stopped")
	}
	started.Stop()
	if _, ok := FindRunning(t.Context(), dir); ok {
		t.Error("a server is found after it was stopped")
	}
}

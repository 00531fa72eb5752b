package localpgtest

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

func TestMain(m *testing.M) { Main(m, nil) }

func TestServer_IsOneAndAnswers(t *testing.T) {
	server := Server(t)
	if server != Server(t) {
		t.Fatal("the test binary has more than one server")
	}
	connection, err := pgx.Connect(t.Context(), server.DSN("postgres", "postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer connection.Close(context.Background())
	var fsync string
	if err := connection.QueryRow(t.Context(), "show fsync").Scan(&fsync); err != nil {
		t.Fatal(err)
	}
	if fsync != "off" {
		t.Errorf("fsync is %s: the tests' server should be careless", fsync)
	}
}

func TestSweep_RemovesOnlyWhatNobodyUses(t *testing.T) {
	base := t.TempDir()
	folder := func(name string) string {
		dir := filepath.Join(base, prefix+name)
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	left, other := folder("left"), filepath.Join(base, "another-program")
	if err := os.Mkdir(other, 0o700); err != nil {
		t.Fatal(err)
	}
	inUse := filepath.Join(base, prefix+"used")
	if err := os.Symlink(Server(t).Dir, inUse); err != nil {
		t.Fatal(err)
	}

	removeLeftovers(base, time.Now())
	if _, err := os.Stat(left); err != nil {
		t.Error("a folder younger than a minute was swept: its owner may be about to lock it")
	}
	removeLeftovers(base, time.Now().Add(2*time.Minute))
	if _, err := os.Stat(left); !os.IsNotExist(err) {
		t.Error("an old folder that nobody uses was not swept")
	}
	for _, kept := range []string{other, inUse} {
		if _, err := os.Lstat(kept); err != nil {
			t.Errorf("%s was swept", filepath.Base(kept))
		}
	}
}

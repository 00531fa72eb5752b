package localpg

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// install makes folders that look as if they had a server in them.
func install(t *testing.T, dirs ...string) {
	t.Helper()
	for _, dir := range dirs {
		for _, program := range []string{"initdb", "postgres"} {
			write(t, filepath.Join(dir, program), "#!/bin/sh\n", 0o755)
		}
	}
}

func TestPlaces_PathFirstThenNewest(t *testing.T) {
	root, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	at := func(name string) string { return filepath.Join(root, name) }
	install(t, at("pg/9/bin"), at("pg/17/bin"), at("pg/15/bin"), at("own/bin"))
	write(t, at("half/initdb"), "#!/bin/sh\n", 0o755)      // a client package, say
	write(t, at("plain/initdb"), "not a program\n", 0o644) // not executable
	if err := os.MkdirAll(at("links"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(at("pg/15/bin/initdb"), at("links/initdb")); err != nil {
		t.Fatal(err)
	}

	got := searchPlaces{
		path:     strings.Join([]string{at("missing"), at("half"), at("plain"), at("own/bin"), at("links")}, string(filepath.ListSeparator)),
		patterns: []string{at("pg/*/bin")},
	}.listServerFolders()
	want := []string{at("own/bin"), at("pg/15/bin"), at("pg/17/bin"), at("pg/9/bin")}
	// The temporary folder's own name has digits, so numbers order only the rest.
	if !slices.Equal(got[:2], want[:2]) || len(got) != len(want) {
		t.Errorf("found %q, want %q", got, want)
	}
}

func TestNumberIn(t *testing.T) {
	for path, want := range map[string]int{
		"/usr/lib/postgresql/15/bin":          15,
		"/usr/pgsql-17/bin":                   17,
		"/usr/libexec/postgresql17":           17,
		"/opt/homebrew/opt/postgresql@16/bin": 16,
		"/usr/local/pgsql/bin":                0,
	} {
		if got := parseMajor(path); got != want {
			t.Errorf("numberIn(%q) = %d, want %d", path, got, want)
		}
	}
}

func TestMajorOf(t *testing.T) {
	for output, want := range map[string]string{
		"postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)": "15",
		"postgres (PostgreSQL) 17.2":                           "17",
		"postgres (PostgreSQL) 19beta1":                        "19",
	} {
		dir := t.TempDir()
		write(t, filepath.Join(dir, "postgres"), "#!/bin/sh\necho '"+output+"'\n", 0o755)
		got, err := queryMajor(t.Context(), dir)
		if err != nil || got != want {
			t.Errorf("%q is read as %q (%v), want %q", output, got, err, want)
		}
	}
}

func TestStart_WithoutPostgresSaysHowToInstallIt(t *testing.T) {
	nowhere := searchPlaces{path: t.TempDir(), patterns: []string{filepath.Join(t.TempDir(), "*")}}
	dir := newFolder(t)
	_, err := Start(t.Context(), Config{Dir: dir, places: nowhere})
	if !errors.Is(err, ErrNoPostgres) {
		t.Fatalf("the error is %v, want ErrNoPostgres", err)
	}
	for _, word := range []string{"apt-get install", "dnf install", "apk add", "brew install", "DATABASE_URL"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("the error does not mention %q:\n%v", word, err)
		}
	}
	if _, err := os.Stat(dir); !os.IsNotExist(err) {
		t.Errorf("a folder was made for a server that cannot run: %v", err)
	}
}

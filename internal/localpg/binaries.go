package localpg

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// ErrNoPostgres says that this machine has no PostgreSQL server programs.
// The error that wraps it lists the commands that install them.
var ErrNoPostgres = errors.New("PostgreSQL is not installed here")

// FindBinaries returns the folder with initdb and postgres: the first on PATH,
// or else the newest version in the places where packages put them. When there
// is none the error is [ErrNoPostgres] with what to do about it.
func FindBinaries() (dir string, err error) {
	return defaultPlaces().findFirst()
}

// searchPlaces is where to look: the folders of a PATH, then patterns of folders.
type searchPlaces struct {
	path     string
	patterns []string
	// packaging is the folder where Debian's packaging reads how to make the
	// cluster "main".
	packaging string
}

func defaultPlaces() searchPlaces {
	return searchPlaces{
		path:      os.Getenv("PATH"),
		packaging: "/etc/postgresql-common/createcluster.d",
		patterns: []string{
			"/usr/lib/postgresql/*/bin",       // Debian, Ubuntu: PATH has psql, not the server
			"/usr/pgsql-*/bin",                // Fedora and its kin, PostgreSQL's own packages
			"/usr/libexec/postgresql*",        // Alpine
			"/opt/homebrew/opt/postgres*/bin", // Homebrew, Apple processors
			"/usr/local/opt/postgres*/bin",    // Homebrew, Intel
			"/Applications/Postgres.app/Contents/Versions/*/bin",
			"/usr/local/pgsql/bin", // built from source
		},
	}
}

func (p searchPlaces) findFirst() (string, error) {
	if all := p.listServerFolders(); len(all) > 0 {
		return all[0], nil
	}
	return "", fmt.Errorf("%w.\n%s", ErrNoPostgres, howToInstall)
}

// listServerFolders returns every folder with a server in it, best first, none twice.
func (p searchPlaces) listServerFolders() []string {
	var packaged []string
	for _, pattern := range p.patterns {
		found, _ := filepath.Glob(pattern) // the only error is a bad pattern; ours are constants
		packaged = append(packaged, found...)
	}
	slices.SortStableFunc(packaged, func(a, b string) int { return parseMajor(b) - parseMajor(a) })

	var all []string
	for _, dir := range append(filepath.SplitList(p.path), packaged...) {
		dir, ok := findServerIn(dir)
		if ok && !slices.Contains(all, dir) {
			all = append(all, dir)
		}
	}
	return all
}

// findServerIn follows the link to initdb, because some systems link it into
// /usr/bin while postgres itself stays where it was installed.
func findServerIn(dir string) (string, bool) {
	initdb, err := exec.LookPath(filepath.Join(dir, "initdb"))
	if err != nil {
		return "", false
	}
	if initdb, err = filepath.EvalSymlinks(initdb); err != nil {
		return "", false
	}
	real := filepath.Dir(initdb)
	_, err = exec.LookPath(filepath.Join(real, "postgres"))
	return real, err == nil
}

// parseMajor reads the first number of a path, which is the major version in
// every layout above; 0 when there is none.
func parseMajor(path string) int {
	digits := strings.FieldsFunc(path, func(r rune) bool { return r < '0' || r > '9' })
	if len(digits) == 0 {
		return 0
	}
	n, _ := strconv.Atoi(digits[0])
	return n
}

// queryMajor asks the programs in a folder for their major version, such as "17".
func queryMajor(ctx context.Context, dir string) (string, error) {
	out, err := exec.CommandContext(ctx, filepath.Join(dir, "postgres"), "--version").Output()
	if err != nil {
		return "", fmt.Errorf("ask %s for its version: %w", filepath.Join(dir, "postgres"), err)
	}
	// "postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)"
	words := strings.Fields(string(out))
	if len(words) < 3 {
		return "", fmt.Errorf("ask %s for its version: it said %q", dir, out)
	}
	return strconv.Itoa(parseMajor(words[2])), nil
}

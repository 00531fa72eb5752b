package localpgtest

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"breakwright/internal/localpg"
)

// Preparation is what the databases of many packages begin with. It is made once on a
// machine, kept in the user's folder for caches, and copied for each test binary.
type Preparation struct {
	// Key is another when Make makes something else.
	Key string
	// Make works on a server of its own, which is stopped after it.
	Make func(*localpg.Server) error
}

// startPrepared starts a server in a new folder that has what the preparation makes;
// with none it begins empty.
func startPrepared(dir string, p *Preparation) (*localpg.Server, error) {
	if p == nil {
		return localpg.Start(context.Background(), localpg.Config{Dir: dir})
	}
	kept, err := p.keptFolder()
	if err != nil {
		return nil, err
	}
	if err := p.ensureKept(kept, dir); err != nil {
		return nil, err
	}
	return localpg.Start(context.Background(), localpg.Config{Dir: dir, CopyOf: kept})
}

const keptPrefix = "prepared-"

// keptFolder is where the prepared data is kept: one folder for what is prepared and
// the PostgreSQL that does it.
func (p *Preparation) keptFolder() (string, error) {
	caches, err := os.UserCacheDir()
	if err != nil {
		caches = os.TempDir() // no home: kept for as long as temporary files are
	}
	binaries, err := localpg.FindBinaries()
	if err != nil {
		return "", err
	}
	program, err := os.Stat(filepath.Join(binaries, "postgres"))
	if err != nil {
		return "", err
	}
	hash := sha256.Sum256(fmt.Appendf(nil, "%s\n%s %d %s", p.Key, binaries, program.Size(), program.ModTime().UTC()))
	return filepath.Join(caches, "breakwright-tests", fmt.Sprintf("%s%x", keptPrefix, hash[:8])), nil
}

// ensureKept prepares the data unless it is there, on a server in dir, whose data is
// removed again.
func (p *Preparation) ensureKept(kept, dir string) error {
	if now := time.Now(); os.Chtimes(kept, now, now) == nil {
		return nil
	}
	server, err := localpg.Start(context.Background(), localpg.Config{Dir: dir})
	if err != nil {
		return err
	}
	err = p.Make(server)
	server.Stop()
	if err != nil {
		return err
	}
	data := filepath.Join(dir, "data")
	return errors.Join(keepFolder(data, kept), os.RemoveAll(data))
}

// keepFolder copies a folder beside its place and renames it, so that what is kept is
// whole. Another test binary may have kept the same meanwhile, and that is as well.
func keepFolder(data, kept string) error {
	place := filepath.Dir(kept)
	if err := os.MkdirAll(place, 0o700); err != nil {
		return err
	}
	removeUnused(place, time.Now())
	copied, err := os.MkdirTemp(place, keptPrefix)
	if err != nil {
		return err
	}
	if err := os.CopyFS(copied, os.DirFS(data)); err != nil {
		return errors.Join(err, os.RemoveAll(copied))
	}
	if err := os.Rename(copied, kept); errors.Is(err, fs.ErrExist) {
		return os.RemoveAll(copied)
	} else {
		return err
	}
}

// keptUnused is how long prepared data stays that no test asked for.
const keptUnused = 14 * 24 * time.Hour

// removeUnused removes what earlier versions of the program have kept.
func removeUnused(place string, now time.Time) {
	all, _ := filepath.Glob(filepath.Join(place, keptPrefix+"*")) // our pattern is well formed
	for _, folder := range all {
		if info, err := os.Stat(folder); err == nil && now.Sub(info.ModTime()) > keptUnused {
			os.RemoveAll(folder)
		}
	}
}

//go:build unix

package localpg

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"syscall"
)

// osAccount is the operating system's user that PostgreSQL runs as.
type osAccount struct {
	name      string
	uid, gid  int
	dropsRoot bool // we are root and become this user for PostgreSQL's programs
}

// chooseAccount picks the user for the cluster in dir: ourselves, or when we are
// root, whoever owns the data already, else postgres, else nobody.
func chooseAccount(dir string) (osAccount, error) {
	owner, exists, err := ownerOf(filepath.Join(dir, dataFolder))
	if err != nil {
		return osAccount{}, err
	}
	if os.Geteuid() != 0 {
		if exists && owner.uid != os.Geteuid() {
			return osAccount{}, fmt.Errorf("the data in %s belongs to the user %s: run this as %s, or choose another folder", dir, owner.name, owner.name)
		}
		return osAccount{name: nameOf(os.Geteuid()), uid: os.Geteuid(), gid: os.Getegid()}, nil
	}
	if exists && owner.uid != 0 {
		owner.dropsRoot = true
		return owner, nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		if who, err := user.Lookup(name); err == nil {
			uid, _ := strconv.Atoi(who.Uid) // always numbers on unix
			gid, _ := strconv.Atoi(who.Gid)
			return osAccount{name: name, uid: uid, gid: gid, dropsRoot: true}, nil
		}
	}
	return osAccount{}, errors.New("PostgreSQL refuses to run as root, and there is no user postgres or nobody to run it as: run this as an ordinary user")
}

func ownerOf(path string) (owner osAccount, exists bool, err error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return osAccount{}, false, nil
	}
	if err != nil {
		return osAccount{}, false, err
	}
	stat := info.Sys().(*syscall.Stat_t)
	return osAccount{name: nameOf(int(stat.Uid)), uid: int(stat.Uid), gid: int(stat.Gid)}, true, nil
}

func nameOf(uid int) string {
	if who, err := user.LookupId(strconv.Itoa(uid)); err == nil {
		return who.Username
	}
	return "number " + strconv.Itoa(uid)
}

// chownPath makes the account the owner of a path that we made.
func (a osAccount) chownPath(path string) error {
	if !a.dropsRoot {
		return nil
	}
	return os.Chown(path, a.uid, a.gid)
}

// newCommand is one of PostgreSQL's programs, run as the account in dir, in a
// process group of its own: Ctrl-C in a terminal reaches us alone, so that we
// can finish our work before we stop the server.
func (a osAccount) newCommand(dir, program string, arguments ...string) *exec.Cmd {
	command := exec.Command(program, arguments...)
	command.Dir = dir // the folder we stand in may be closed to the account
	command.Env = []string{"PATH=" + filepath.Dir(program) + ":/usr/bin:/bin", "LC_ALL=" + initdbLocale, "TZ=UTC", "HOME=" + dir}
	command.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	if a.dropsRoot {
		command.SysProcAttr.Credential = &syscall.Credential{Uid: uint32(a.uid), Gid: uint32(a.gid)}
	}
	return command
}

// lockFile takes the lock on an open file, or says that another holds it. The
// lock goes when the file is closed or the process ends, however it ends.
func lockFile(file *os.File) (taken bool, err error) {
	err = syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return false, nil
	}
	return err == nil, err
}

// PostgreSQL's own meanings of these signals.
const (
	fastShutdown      = syscall.SIGINT  // roll back what is open, write a checkpoint, end
	immediateShutdown = syscall.SIGQUIT // end now; the next start recovers
)

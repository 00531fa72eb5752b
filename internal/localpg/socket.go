package localpg

import (
	"os"
	"path/filepath"
	"strings"
)

// longestSocket is how long a unix socket's path may be, in bytes: macOS
// leaves 103, Linux 107 (sun_path less its final zero).
const longestSocket = 103

// socketFolder is the folder that holds the server's socket.
type socketFolder struct {
	folder    string
	temporary bool // made for this run, removed after it
}

// chooseSocketFolder takes the cluster's own folder when the socket's path fits there
// and has no character that PostgreSQL's list of folders would trip over; else
// a short folder in /tmp that only the account may enter.
func chooseSocketFolder(f *serverFolder) (socketFolder, error) {
	if fitsSocketPath(f.path) {
		return socketFolder{folder: f.path}, nil
	}
	short, err := os.MkdirTemp("/tmp", "breakwright-")
	if err != nil {
		return socketFolder{}, err
	}
	return socketFolder{folder: short, temporary: true}, f.owner.chownPath(short)
}

func fitsSocketPath(folder string) bool {
	name := filepath.Join(folder, ".s.PGSQL."+port)
	return len(name) <= longestSocket && !strings.ContainsAny(folder, `",'\`)
}

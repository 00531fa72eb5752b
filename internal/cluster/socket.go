package cluster

import (
	"os"
	"path/filepath"
	"strings"
)

// longestSocket is how long a unix socket's path may be, in bytes: macOS
// leaves 103, Linux 107 (sun_path less its final zero).
const longestSocket = 103

// socket is the folder that holds the server's socket.
type socket struct {
	folder    string
	temporary bool // made for this run, removed after it
}

// socketFor takes the cluster's own folder when the socket's path fits there
// and has no character that PostgreSQL's list of folders would trip over; else
// a short folder in /tmp that only the account may enter.
func socketFor(f *folder) (socket, error) {
	if fits(f.path) {
		return socket{folder: f.path}, nil
	}
	short, err := os.MkdirTemp("/tmp", "breakwright-")
	if err != nil {
		return socket{}, err
	}
	return socket{folder: short, temporary: true}, f.who.give(short)
}

func fits(folder string) bool {
	name := filepath.Join(folder, ".s.PGSQL."+port)
	return len(name) <= longestSocket && !strings.ContainsAny(folder, `",'\`)
}

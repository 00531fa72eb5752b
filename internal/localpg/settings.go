package localpg

import (
	"maps"
	"slices"
)

// port is only a part of the socket's name: every cluster has a socket folder
// of its own, so all can use the usual one.
const port = "5432"

// serverSettings returns the postgres command's arguments. Everything is said here
// rather than in postgresql.conf, so that an old folder and a new one behave
// the same.
func serverSettings(socket string, durable bool) []string {
	values := map[string]string{
		"listen_addresses":        "", // the socket only
		"unix_socket_directories": quoteListItem(socket),
		"unix_socket_permissions": "0700",
		"max_connections":         "100",
		"timezone":                "UTC",
		"log_timezone":            "UTC",
		"jit":                     "off", // it costs more than it saves on short queries
	}
	if !durable {
		maps.Copy(values, unsafeSettings)
	}
	arguments := []string{"-p", port}
	for _, name := range slices.Sorted(maps.Keys(values)) {
		arguments = append(arguments, "-c", name+"="+values[name])
	}
	return arguments
}

// unsafeSettings trades every safety for speed: a crash may lose the whole cluster,
// which a test would throw away anyway.
var unsafeSettings = map[string]string{
	"fsync":                      "off",
	"synchronous_commit":         "off",
	"full_page_writes":           "off",
	"wal_level":                  "minimal",
	"max_wal_senders":            "0",
	"max_connections":            "200",  // tests run in parallel, each with a pool
	"dynamic_shared_memory_type": "mmap", // a container's /dev/shm may be tiny
}

// quoteListItem writes a folder for a setting that takes a list, where a comma or a
// space would end the name.
func quoteListItem(folder string) string {
	return `"` + folder + `"`
}

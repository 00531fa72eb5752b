package main

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"

	"breakwright/internal/store"
)

const versionUsage = `version

Says which version of the program this is, and of which version the tables are
that it works with.
`

// runVersion is the command of that name.
func runVersion(_ context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(versionUsage, stderr)
	if err := flags.Parse(args); err != nil {
		return flagExitCode(err)
	}
	fmt.Fprintf(stdout, "breakwright %s, tables of version %d, %s, %s/%s\n",
		describeBuild(), store.SchemaVersion(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return exitOK
}

// describeBuild names what this was built from: a release, or else a commit.
func describeBuild() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "of unknown build"
	}
	name := info.Main.Version
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && (name == "" || name == "(devel)"):
			name = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			name += " with changes"
		}
	}
	return name
}

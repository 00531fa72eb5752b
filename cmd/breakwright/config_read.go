package main

import (
	"flag"
	"io"
)

// readConfig parses the flags of a command that takes no other arguments and
// reads the settings. ok is false when the command is over with that exit code.
func readConfig(flags *flag.FlagSet, read func() (Config, error), args []string, stderr io.Writer) (config Config, code int, ok bool) {
	if err := flags.Parse(args); err != nil {
		return config, flagExitCode(err), false
	}
	if flags.NArg() > 0 {
		flags.Usage()
		return config, exitUsage, false
	}
	config, err := read()
	if err != nil {
		return config, reportFailure(stderr, err), false
	}
	return config, exitOK, true
}

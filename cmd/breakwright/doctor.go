package main

import (
	"context"
	"fmt"
	"io"
)

const doctorUsage = `doctor [--listen ADDR] [--data DIR] [--url URL]

Looks at what the program needs, one line each: "ok", or "no" with what to do.
It changes nothing. Exit codes: 0 all is well, 1 something is not.
`

// doctor is the command of that name.
func doctor(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(doctorUsage, stderr)
	config, code, ok := readConfig(flags, configFlags(flags, "listen", "data", "url"), args, stderr)
	if !ok {
		return code
	}
	for _, c := range checks() {
		said, err := c.look(ctx, config)
		if err != nil {
			fmt.Fprintf(stdout, "no  %s: %v\n", c.what, err)
			code = exitFailed
			continue
		}
		fmt.Fprintf(stdout, "ok  %s: %s\n", c.what, said)
	}
	return code
}

// check looks at one thing. What it says is for the keeper; its error says what
// to do.
type check struct {
	what string
	look func(context.Context, Config) (said string, err error)
}

// checks in the order in which they help to understand one another.
func checks() []check {
	return []check{
		{"PostgreSQL", lookForPostgres},
		{"data folder", lookAtData},
		{"database", lookAtDatabase},
		{"address", lookAtAddress},
		{"public address", lookAtURL},
		{"clock", lookAtClock},
		{"disk", lookAtDisk},
	}
}

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

// runDoctor is the command of that name.
func runDoctor(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(doctorUsage, stderr)
	config, code, ok := readConfig(flags, configFlags(flags, "listen", "data", "url"), args, stderr)
	if !ok {
		return code
	}
	for _, c := range listChecks() {
		report, err := c.inspect(ctx, config)
		if err != nil {
			fmt.Fprintf(stdout, "no  %s: %v\n", c.subject, err)
			code = exitFailed
			continue
		}
		fmt.Fprintf(stdout, "ok  %s: %s\n", c.subject, report)
	}
	return code
}

// doctorCheck looks at one thing. What it says is for whoever runs the server; its error says what
// to do.
type doctorCheck struct {
	subject string
	inspect func(context.Context, Config) (report string, err error)
}

// listChecks in the order in which they help to understand one another.
func listChecks() []doctorCheck {
	return []doctorCheck{
		{"PostgreSQL", inspectPostgres},
		{"data folder", inspectDataFolder},
		{"database", inspectDatabase},
		{"limits", inspectDatabaseLimits},
		{"backup", inspectBackup},
		{"address", inspectAddress},
		{"public address", inspectPublicURL},
		{"clock", inspectClock},
		{"disk", inspectDisk},
	}
}

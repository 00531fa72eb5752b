package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"runtime"
	"slices"

	"breakwright/internal/rehearsal"
)

const rehearseUsage = `rehearse [--students N] [--sets N] [--fault F] [--seed S] [--format text|json]

Sends virtual students with one hidden fault each through the adviser and counts
how often the first change was the right one, how soon they broke well and how
often advice did harm. The same seed gives the same report.
`

// rehearse is the command of that name.
func rehearse(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(rehearseUsage, stderr)
	plan := rehearsal.Plan{Workers: runtime.GOMAXPROCS(0)}
	flags.IntVar(&plan.Students, "students", 200, "how many students with each fault")
	flags.IntVar(&plan.Sets, "sets", 6, "how many sets of ten each of them breaks")
	flags.Uint64Var(&plan.Seed, "seed", 1, "the seed of all chance")
	fault := flags.String("fault", "", fmt.Sprintf("only one fault of %v", rehearsal.Faults()))
	format := flags.String("format", "text", "text (Markdown) or json")
	others, err := parseMixed(flags, args)
	if err != nil {
		return badFlags(err)
	}
	write := map[string]func(io.Writer, rehearsal.Report) error{"text": reportText, "json": reportJSON}[*format]
	known := *fault == "" || slices.Contains(rehearsal.Faults(), rehearsal.Fault(*fault))
	if len(others) > 0 || write == nil || !known {
		flags.Usage()
		return exitUsage
	}
	if *fault != "" {
		plan.Faults = []rehearsal.Fault{rehearsal.Fault(*fault)}
	}
	report, err := rehearsal.Run(ctx, plan)
	if err == nil {
		err = write(stdout, report)
	}
	if err != nil {
		fmt.Fprintf(stderr, "breakwright: %v\n", err)
		return exitFailed
	}
	return exitOK
}

func reportText(to io.Writer, r rehearsal.Report) error { return r.WriteText(to) }

func reportJSON(to io.Writer, r rehearsal.Report) error {
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", "  ")
	return encoder.Encode(r)
}

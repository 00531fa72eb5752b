package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"

	"breakwright/internal/drill"
	"breakwright/internal/rackplan"
)

const rackUsage = `rack [--format text|json] FILE

Reads a break log (CSV, one row a break) and says for each student which two
balls of the rack should change places, by where the ball of each slot came to
rest. FILE - is the standard input. No database and no network is used. Exit
codes: 0 the racks were looked at, 1 the file was not taken, 2 the command line
was not understood.
`

// runRack is the command of that name.
func runRack(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(rackUsage, stderr)
	format := flags.String("format", "text", "text, or json: an array with one object a student")
	files, err := parseMixed(flags, args)
	if err != nil {
		return flagExitCode(err)
	}
	write := map[string]func(io.Writer, []rackplan.Plan) error{"text": writeRackText, "json": writeRackJSON}[*format]
	if len(files) != 1 || write == nil {
		flags.Usage()
		return exitUsage
	}
	sets, err := readLog(files[0], stdin)
	if err == nil {
		var plans []rackplan.Plan
		if plans, err = proposeRacks(ctx, sets); err == nil {
			err = write(stdout, plans)
		}
	}
	if err != nil {
		reportAdviseFailure(stderr, files[0], err)
		return exitFailed
	}
	return exitOK
}

// proposeRacks plans each student's rack.
func proposeRacks(ctx context.Context, sets []drill.Set) ([]rackplan.Plan, error) {
	var plans []rackplan.Plan
	err := eachStudent(ctx, sets, func(own []drill.Set) error {
		p, err := rackplan.Propose(own)
		plans = append(plans, p)
		return err
	})
	return plans, err
}

// rackRow is a student in the answer. Swap names two slots ("2L-4R"), or is "none"
// or "too early"; the gain is that of the best swap, in shots with position a
// break.
type rackRow struct {
	Student  string  `json:"student"`
	Order    string  `json:"order"`
	Swap     string  `json:"swap"`
	Gain     float64 `json:"gain"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	OwnShare float64 `json:"own_share"`
}

func writeRackJSON(to io.Writer, plans []rackplan.Plan) error {
	rows := []rackRow{}
	for _, p := range plans {
		row := rackRow{
			Student: p.Student, Order: p.Order.String(), Swap: string(p.Verdict),
			Gain: roundTo(p.Gain, 10000), Low: roundTo(p.Low, 10000), High: roundTo(p.High, 10000), OwnShare: roundTo(p.OwnShare, 100),
		}
		if p.Verdict == rackplan.VerdictSwap {
			row.Swap = fmt.Sprintf("%s-%s", p.A, p.B)
		}
		rows = append(rows, row)
	}
	text, err := json.MarshalIndent(rows, "", "  ")
	if err != nil {
		return fmt.Errorf("write rack plans: %w", err)
	}
	_, err = to.Write(append(text, '\n'))
	return err
}

func writeRackText(to io.Writer, plans []rackplan.Plan) error {
	out := bufio.NewWriter(to)
	for i, p := range plans {
		if i > 0 {
			fmt.Fprintln(out)
		}
		head := p.Student
		if p.Table != "" {
			head += ", " + p.Table
		}
		writeParagraph(out, "", head)
		writeParagraph(out, "Rack:  ", p.Order.String())
		if p.Verdict == rackplan.VerdictSwap {
			writeParagraph(out, "Next:  ", p.Next.String())
		}
		writeParagraph(out, "Plan:  ", p.Describe(rackplan.YourOwn))
		writeParagraph(out, "Note:  ", p.Note())
	}
	return out.Flush()
}

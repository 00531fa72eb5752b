package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
)

const shotsUsage = `shots [--format text|json] [--level beginner|club|strong|expert|own] FILE

Reads a break log (CSV, one row a break) and says for each break whether it left
a shot on the lowest ball, by the places written down; with --level own for how
well each student runs out. FILE - is the standard input. No database and no
network is used. Exit codes: 0 the breaks were looked at, 1 the file was not
taken, 2 the command line was not understood.
`

// runShots is the command of that name.
func runShots(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(shotsUsage, stderr)
	format := flags.String("format", "text", "text, or json: an array with one object a break")
	name := flags.String("level", "club", "how well the student shoots")
	files, err := parseMixed(flags, args)
	if err != nil {
		return flagExitCode(err)
	}
	write := map[string]func(context.Context, io.Writer, []drill.Set, shooter) error{"text": writeShotsText, "json": writeShotsJSON}[*format]
	shooter, known := parseShooter(*name)
	if len(files) != 1 || write == nil || !known {
		flags.Usage()
		return exitUsage
	}
	sets, err := readLog(files[0], stdin)
	if err == nil {
		err = write(ctx, stdout, sets, shooter)
	}
	if err != nil {
		reportAdviseFailure(stderr, files[0], err)
		return exitFailed
	}
	return exitOK
}

// shooter returns how well a student shoots, from that student's sets.
type shooter func(own []drill.Set) leave.Player

// parseShooter reads a level: one for all, or each student's own by the racks run
// out, starting from a club player's.
func parseShooter(name string) (shooter, bool) {
	if name == "own" {
		return leave.FitPlayer, true
	}
	level, known := leave.ParseLevel(name)
	return func([]drill.Set) leave.Player { return leave.PlayerAt(level.Accuracy) }, known
}

func writeShotsJSON(ctx context.Context, to io.Writer, sets []drill.Set, shoots shooter) error {
	out := bufio.NewWriterSize(to, 1<<16)
	before := "[\n"
	var row []byte
	err := eachStudent(ctx, sets, func(own []drill.Set) error {
		player := shoots(own)
		for _, s := range own {
			begin, err := beginShotsRow(s)
			if err != nil {
				return err
			}
			for _, b := range s.Breaks {
				row = appendShotsRow(append(row[:0], begin...), b.Number, leave.FindShots(leave.FromBreak(b, s.Setup, s.Kind), player))
				out.WriteString(before)
				before = ",\n"
				if _, err := out.Write(row); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	if before == "[\n" {
		out.WriteString("[]\n")
		return out.Flush()
	}
	out.WriteString("\n]\n")
	return out.Flush()
}

// eachStudent calls do with each student's sets; a log keeps them together.
func eachStudent(ctx context.Context, sets []drill.Set, do func(own []drill.Set) error) error {
	for from := 0; from < len(sets); {
		if err := ctx.Err(); err != nil {
			return err
		}
		to := from + 1
		for to < len(sets) && sets[to].Student == sets[from].Student {
			to++
		}
		if err := do(sets[from:to]); err != nil {
			return err
		}
		from = to
	}
	return nil
}

func roundTo(v, grain float64) float64 { return math.Round(v*grain) / grain }

// writeShotsText tells each break, and for each student all together on the table
// of the last set.
func writeShotsText(ctx context.Context, to io.Writer, sets []drill.Set, shoots shooter) error {
	out := bufio.NewWriter(to)
	err := eachStudent(ctx, sets, func(own []drill.Set) error {
		player := shoots(own)
		kind := own[len(own)-1].Kind
		var leaves []leave.Leave
		for _, s := range own {
			for _, b := range s.Breaks {
				l := leave.FromBreak(b, s.Setup, s.Kind)
				if s.Kind == kind {
					leaves = append(leaves, l)
				}
				writeParagraph(out, fmt.Sprintf("%s, %s, %d: ", s.Student, s.Name, b.Number), leave.FindShots(l, player).Describe(l))
			}
		}
		window := kind.StandardWindow()
		writeParagraph(out, own[0].Student+": ", leave.Summarize(leaves, player, window).Describe(window))
		return nil
	})
	if err != nil {
		return err
	}
	return out.Flush()
}

package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

const shotsUsage = `shots [--format text|json] [--level beginner|club|strong|expert|own] FILE

Reads a break log (CSV, one row a break) and says for each break whether it left
a shot on the lowest ball, by the places written down; with --level own for how
well each student runs out. FILE - is the standard input. No database and no network is used. Exit codes: 0 the breaks were looked
at, 1 the file was not taken, 2 the command line was not understood.
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

// shooter gives how well a student shoots, from that student's sets.
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

// shotsRow is a break in the answer. Lowest is null when nothing is left to shoot
// at, Shot when it is not known.
type shotsRow struct {
	Student string      `json:"student"`
	Set     string      `json:"set"`
	Break   int         `json:"break"`
	Lowest  *rack.Ball  `json:"lowest"`
	Shot    *drill.Shot `json:"shot"`
	Shots   []shotsShot `json:"shots"`
}

type shotsShot struct {
	Pocket    table.Pocket `json:"pocket"`
	Kind      leave.Way    `json:"kind"`
	CutDeg    float64      `json:"cut_deg"`
	Chance    float64      `json:"chance"`
	BlockedBy []int        `json:"blocked_by"`
}

func writeShotsJSON(ctx context.Context, to io.Writer, sets []drill.Set, shoots shooter) error {
	out := bufio.NewWriter(to)
	before := "[\n"
	err := eachStudent(ctx, sets, func(own []drill.Set) error {
		player := shoots(own)
		for _, s := range own {
			for _, b := range s.Breaks {
				row, err := json.Marshal(rowOf(s, b, leave.FindShots(leave.FromBreak(b, s.Setup, s.Kind), player)))
				if err != nil {
					return fmt.Errorf("write shots: %w", err)
				}
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

func rowOf(s drill.Set, b drill.Break, a leave.FoundShots) shotsRow {
	row := shotsRow{Student: s.Student, Set: s.Name, Break: b.Number, Shots: []shotsShot{}}
	if a.Ball != 0 {
		row.Lowest = &a.Ball
	}
	if a.Shot != "" {
		row.Shot = &a.Shot
	}
	for _, shot := range a.Shots {
		one := shotsShot{
			Pocket: shot.Pocket, Kind: shot.Way,
			CutDeg: roundTo(float64(shot.Cut), 10), Chance: roundTo(shot.Chance, 1000), BlockedBy: []int{},
		}
		for _, ball := range shot.BlockedBy {
			one.BlockedBy = append(one.BlockedBy, int(ball))
		}
		row.Shots = append(row.Shots, one)
	}
	return row
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

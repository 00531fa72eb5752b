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

const shotsUsage = `shots [--format text|json] [--level beginner|club|strong|expert] FILE

Reads a break log (CSV, one row a break) and says for each break whether it left
a shot on the lowest ball, by the places written down. FILE - is the standard
input. No database and no network is used. Exit codes: 0 the breaks were looked
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
	write := map[string]func(context.Context, io.Writer, []drill.Set, leave.Player) error{"text": writeShotsText, "json": writeShotsJSON}[*format]
	level, known := leave.ParseLevel(*name)
	if len(files) != 1 || write == nil || !known {
		flags.Usage()
		return exitUsage
	}
	sets, err := readLog(files[0], stdin)
	if err == nil {
		err = write(ctx, stdout, sets, leave.Usual(level.Accuracy))
	}
	if err != nil {
		reportAdviseFailure(stderr, files[0], err)
		return exitFailed
	}
	return exitOK
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

func writeShotsJSON(ctx context.Context, to io.Writer, sets []drill.Set, p leave.Player) error {
	out := bufio.NewWriter(to)
	before := "[\n"
	err := eachLeave(ctx, sets, func(s drill.Set, b drill.Break, l leave.Leave) error {
		row, err := json.Marshal(rowOf(s, b, leave.Find(l, p)))
		if err != nil {
			return fmt.Errorf("write shots: %w", err)
		}
		out.WriteString(before)
		before = ",\n"
		_, err = out.Write(row)
		return err
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

func eachLeave(ctx context.Context, sets []drill.Set, do func(drill.Set, drill.Break, leave.Leave) error) error {
	for _, s := range sets {
		if err := ctx.Err(); err != nil {
			return err
		}
		for _, b := range s.Breaks {
			if err := do(s, b, leave.After(b, s.Setup, s.Kind)); err != nil {
				return err
			}
		}
	}
	return nil
}

func rowOf(s drill.Set, b drill.Break, a leave.Answer) shotsRow {
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
			CutDeg: rounded(float64(shot.Cut), 10), Chance: rounded(shot.Chance, 1000), BlockedBy: []int{},
		}
		for _, ball := range shot.BlockedBy {
			one.BlockedBy = append(one.BlockedBy, int(ball))
		}
		row.Shots = append(row.Shots, one)
	}
	return row
}

func rounded(v, grain float64) float64 { return math.Round(v*grain) / grain }

func writeShotsText(ctx context.Context, to io.Writer, sets []drill.Set, p leave.Player) error {
	out := bufio.NewWriter(to)
	err := eachLeave(ctx, sets, func(s drill.Set, b drill.Break, l leave.Leave) error {
		writeParagraph(out, fmt.Sprintf("%s, %s, %d: ", s.Student, s.Name, b.Number), leave.Find(l, p).Says(l))
		return nil
	})
	if err != nil {
		return err
	}
	return out.Flush()
}

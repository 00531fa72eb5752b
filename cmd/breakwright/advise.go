package main

import (
	"bufio"
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"runtime/debug"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
)

const adviseUsage = `advise [--format text|json] FILE

Reads a break log (CSV, one row a break) and says for each student what their
breaks ask for, beside what the breaks of the others in it show of the tables:
what everybody's show alike is nobody's stroke. Of a log that the club's pages
wrote it says what the student's page says.

FILE - is the standard input. No database and no network is used. Exit codes: 0
advice was given, 1 the file was not taken, 2 the command line was not
understood.
`

// adviseCollectAtPercent is by how much memory may grow between two collections: four times
// what Go does by itself, since a log is read once and the program then ends. A hundred
// thousand breaks take a seventh less time, and half a gigabyte.
const adviseCollectAtPercent = 400

// runAdvise is the command of that name.
func runAdvise(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(adviseUsage, stderr)
	format := flags.String("format", "text", "text, or json: an array with one object a student")
	files, err := parseMixed(flags, args)
	if err != nil {
		return flagExitCode(err)
	}
	write := map[string]func(io.Writer, []advice.Advice) error{"text": writeAdviceText, "json": writeAdviceJSON}[*format]
	if len(files) != 1 || write == nil {
		flags.Usage()
		return exitUsage
	}
	if os.Getenv("GOGC") == "" {
		defer debug.SetGCPercent(debug.SetGCPercent(adviseCollectAtPercent))
	}
	sets, err := readLog(files[0], stdin)
	if err == nil {
		var all []advice.Advice
		if all, err = adviseStudents(ctx, sets); err == nil {
			err = write(stdout, all)
		}
	}
	if err != nil {
		reportAdviseFailure(stderr, files[0], err)
		return exitFailed
	}
	return exitOK
}

func readLog(file string, stdin io.Reader) ([]drill.Set, error) {
	if file == "-" {
		return breaklog.Read(stdin)
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return breaklog.Read(f)
}

// adviseStudents judges each student's whole history. Where the log is not of a club's
// pages, which know nothing of it, each is judged beside what the breaks of the others
// showed.
func adviseStudents(ctx context.Context, sets []drill.Set) ([]advice.Advice, error) {
	ofPages := setreview.IsOfPages(sets)
	var students []loggedStudent
	everybody := advice.ShownByRack{}
	err := eachStudent(ctx, sets, func(history []drill.Set) error {
		one := loggedStudent{history: history, place: len(students)}
		if !ofPages {
			one.shown = advice.Show(history)
			everybody.Add(one.shown)
		}
		students = append(students, one)
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(students, compareConditions)
	all := make([]advice.Advice, len(students))
	for _, one := range students {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		all[one.place] = setreview.JudgeLog(one.history, everybody.Without(one.shown))
	}
	return all, nil
}

// loggedStudent is a student of a log, with what their breaks showed and which of the log's
// students they are.
type loggedStudent struct {
	history []drill.Set
	shown   advice.ShownByRack
	place   int
}

// compareConditions puts those who break on the same kind of table and from about the same
// place beside each other: what their breaks are weighed against is computed once for both.
func compareConditions(a, b loggedStudent) int {
	last, other := a.history[len(a.history)-1], b.history[len(b.history)-1]
	return cmp.Or(
		cmp.Compare(last.Kind.Length(), other.Kind.Length()), cmp.Compare(last.Kind.CornerMouth, other.Kind.CornerMouth),
		cmp.Compare(last.Setup.Game, other.Setup.Game), cmp.Compare(last.Setup.Spot, other.Setup.Spot),
		cmp.Compare(last.Setup.Speed, other.Setup.Speed), cmp.Compare(last.Setup.Tip, other.Setup.Tip),
		cmp.Compare(math.Abs(float64(last.Setup.Cue.X)), math.Abs(float64(other.Setup.Cue.X))),
	)
}

func writeAdviceJSON(to io.Writer, all []advice.Advice) error {
	text, err := json.MarshalIndent(all, "", "  ")
	if err != nil {
		return fmt.Errorf("write advice: %w", err)
	}
	_, err = io.Copy(to, bytes.NewReader(append(text, '\n')))
	return err
}

func writeAdviceText(to io.Writer, all []advice.Advice) error {
	out := bufio.NewWriter(to)
	for i, a := range all {
		if i > 0 {
			fmt.Fprintln(out)
		}
		writeAdvice(out, a)
	}
	return out.Flush()
}

func reportAdviseFailure(stderr io.Writer, file string, err error) {
	if file == "-" {
		file = "the standard input"
	}
	var problems breaklog.Problems
	if errors.As(err, &problems) {
		fmt.Fprintf(stderr, "breakwright: %s was not taken:\n%s\n", file, problems)
		return
	}
	fmt.Fprintf(stderr, "breakwright: %v\n", err)
}

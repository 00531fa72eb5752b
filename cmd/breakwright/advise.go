package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

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
	own, everybody := []advice.ShownByRack{}, advice.ShownByRack{}
	err := eachStudent(ctx, sets, func(history []drill.Set) error {
		var shown advice.ShownByRack
		if !ofPages {
			shown = advice.Show(history)
			everybody.Add(shown)
		}
		own = append(own, shown)
		return nil
	})
	if err != nil {
		return nil, err
	}
	all := []advice.Advice{}
	err = eachStudent(ctx, sets, func(history []drill.Set) error {
		all = append(all, setreview.JudgeLog(history, everybody.Without(own[len(all)])))
		return nil
	})
	return all, err
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

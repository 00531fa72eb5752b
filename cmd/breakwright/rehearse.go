package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"runtime"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/rehearsal"
	"breakwright/internal/response"
)

const rehearseUsage = `rehearse [--model curve|physics] [--rack GAME/SPOT] [--table N] [--students N] [--sets N] [--fault F]
         [--without RULE]... [--forget FACT] [--ablate | --promises | --tell-apart]
         [--seed S] [--format text|json]

Sends virtual students with one hidden fault each through the adviser and counts
how often the first change was the right one, how soon they broke well and how
often advice did harm. With --ablate it says instead what each rule is worth: how
the same students fare with it and without it. With --promises it says how often
what was said came true. With --tell-apart it says which faults breaks can tell
apart at all, beside an observer who knows the model to be right. The same seed
gives the same report.
`

// runRehearse is the command of that name.
func runRehearse(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(rehearseUsage, stderr)
	options := rehearsal.Options{Workers: runtime.GOMAXPROCS(0)}
	addRehearsalFlags(flags, &options)
	asked := make(map[string]*bool, len(otherReports))
	for name, other := range otherReports {
		asked[name] = flags.Bool(name, false, other.words)
	}
	fault := flags.String("fault", "", fmt.Sprintf("only one fault of %v", rehearsal.ComputedFaults()))
	format := flags.String("format", "text", "text (Markdown) or json")
	others, err := parseMixed(flags, args)
	if err != nil {
		return flagExitCode(err)
	}
	write := map[string]func(io.Writer, textReport) error{"text": writeReportText, "json": writeReportJSON}[*format]
	faults := rehearsal.Faults()
	if options.Model == rehearsal.PhysicsModel {
		faults = rehearsal.ComputedFaults()
	}
	known := *fault == "" || slices.Contains(faults, rehearsal.Fault(*fault))
	known = known && slices.Contains(rehearsal.Models(), options.Model)
	makers := chooseReports(asked)
	if len(others) > 0 || write == nil || !known || len(makers) > 1 {
		flags.Usage()
		return exitUsage
	}
	if *fault != "" {
		options.Faults = []rehearsal.Fault{rehearsal.Fault(*fault)}
	}
	makeReport := makerOf(rehearsal.Run)
	if len(makers) == 1 {
		makeReport = makers[0]
	}
	report, err := makeReport(ctx, options)
	if err == nil {
		err = write(stdout, report)
	}
	if err != nil {
		fmt.Fprintf(stderr, "breakwright: %v\n", err)
		return exitFailed
	}
	return exitOK
}

// addRehearsalFlags adds the flags that say who is advised, and how.
func addRehearsalFlags(flags *flag.FlagSet, options *rehearsal.Options) {
	flags.IntVar(&options.Students, "students", rehearsal.UsualStudents, "how many students with each fault")
	flags.IntVar(&options.Sets, "sets", rehearsal.UsualSets, "how many sets of ten each of them breaks")
	flags.Uint64Var(&options.Seed, "seed", rehearsal.UsualSeed, "the seed of all chance")
	flags.StringVar((*string)(&options.Model), "model", string(rehearsal.CurveModel), fmt.Sprintf("what the students are made of, one of %v", rehearsal.Models()))
	flags.Func("without", "switch a rule off; may be given again", func(name string) error {
		options.Without = append(options.Without, advice.RuleName(name))
		return nil
	})
	flags.Func("rack", fmt.Sprintf("what computed students break, one of %v", response.Racks()), func(name string) error {
		at := slices.IndexFunc(response.Racks(), func(r response.Rack) bool { return r.String() == name })
		if at < 0 {
			return fmt.Errorf("one of %v", response.Racks())
		}
		options.Rack = response.Racks()[at]
		return nil
	})
	flags.IntVar(&options.Table, "table", 0, fmt.Sprintf("computed students are a class at one of the tables 1 to %d, each judged beside the others; 0: alone, at any", rehearsal.Tables))
	flags.StringVar((*string)(&options.Forget), "forget", "", fmt.Sprintf("keep a fact from the adviser, one of %v", rehearsal.Facts()))
}

// textReport is what a rehearsal came to.
type textReport interface{ WriteText(io.Writer) error }

// reportMaker makes one of the reports that there are.
type reportMaker func(context.Context, rehearsal.Options) (textReport, error)

func makerOf[R textReport](make func(context.Context, rehearsal.Options) (R, error)) reportMaker {
	return func(ctx context.Context, p rehearsal.Options) (textReport, error) { return make(ctx, p) }
}

// otherReports are made instead of the usual one, when a flag of their name is given.
var otherReports = map[string]struct {
	words string
	make  reportMaker
}{
	"ablate":     {"what each rule is worth", makerOf(rehearsal.Ablate)},
	"promises":   {"what was promised beside what came, of computed students", makerOf(rehearsal.CountPromises)},
	"tell-apart": {"which faults can be told apart", makerOf(rehearsal.RecognizeCauses)},
}

// chooseReports lists those of the other reports that are asked for.
func chooseReports(asked map[string]*bool) (makers []reportMaker) {
	for name, is := range asked {
		if *is {
			makers = append(makers, otherReports[name].make)
		}
	}
	return makers
}

func writeReportText(to io.Writer, p textReport) error { return p.WriteText(to) }

func writeReportJSON(to io.Writer, p textReport) error {
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", "  ")
	return encoder.Encode(p)
}

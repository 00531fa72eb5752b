// Command breakwright is the whole program. Each command has a file of its own,
// which reads its flags, wires packages together and returns the exit code;
// decisions are elsewhere.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	_ "time/tzdata" // so that the club's zone works where the system has none
)

// Exit codes.
const (
	exitOK     = 0
	exitFailed = 1 // a bad file, or something out there failed
	exitUsage  = 2 // the command line was not understood
)

// subcommand is one word after the program's name.
type subcommand struct {
	name string
	help string // one line
	run  func(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int
}

// listCommands returns the commands in the order of the help. A new one is a file and a line here.
func listCommands() []subcommand {
	return []subcommand{
		{"serve", "serve the club's pages", runServe},
		{"demo", "serve an invented club to look at, with all it needs", runDemo},
		{"advise", "say what a break log asks for: one change a student, or none", runAdvise},
		{"shots", "say which breaks of a log left a shot on the lowest ball", runShots},
		{"rack", "say which two balls of the rack should change places, or none", runRack},
		{"rehearse", "send virtual students through the adviser and count what becomes of them", runRehearse},
		{"migrate", "bring the database's tables up to date", runMigrate},
		{"coach", "add a coach, or give one who is locked out a new passphrase", runCoach},
		{"club", "make a link that sets up one more club", runClub},
		{"backup", "write everything that the database holds into a file", runBackup},
		{"restore", "bring a backup back into an empty database", runRestore},
		{"export", "write all that one club recorded into a file, to be taken away", runExport},
		{"import", "bring a club back from such a file", runImport},
		{"healthcheck", "ask a running server whether it can do its work", runHealthcheck},
		{"doctor", "look at what the program needs, and say what is wrong", runDoctor},
		{"version", "say which version this is", runVersion},
	}
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := runCommand(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

func runCommand(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		printUsage(stderr)
		return exitUsage
	}
	switch args[0] {
	case "help", "-h", "-help", "--help":
		printUsage(stdout)
		return exitOK
	}
	for _, c := range listCommands() {
		if c.name == args[0] {
			return c.run(ctx, args[1:], stdin, stdout, stderr)
		}
	}
	fmt.Fprintf(stderr, "breakwright: there is no command %q\n\n", args[0])
	printUsage(stderr)
	return exitUsage
}

func printUsage(to io.Writer) {
	fmt.Fprint(to, "breakwright: teaching the pool break\n\nusage: breakwright COMMAND [FLAGS]\n\n")
	for _, c := range listCommands() {
		fmt.Fprintf(to, "  %-12s %s\n", c.name, c.help)
	}
	fmt.Fprint(to, "\nbreakwright COMMAND -h tells the flags of a command.\n", settingsHelp())
}

// newFlags makes the flags of a command, with a first line for its help.
func newFlags(line string, stderr io.Writer) *flag.FlagSet {
	flags := flag.NewFlagSet("breakwright", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprintf(stderr, "usage: breakwright %s\n", line)
		flags.PrintDefaults()
	}
	return flags
}

// parseMixed reads flags that stand before, between and after the other
// arguments, and returns those.
func parseMixed(flags *flag.FlagSet, args []string) (others []string, err error) {
	for {
		if err := flags.Parse(args); err != nil {
			return nil, err
		}
		if flags.NArg() == 0 {
			return others, nil
		}
		others, args = append(others, flags.Arg(0)), flags.Args()[1:]
	}
}

// flagExitCode returns the exit code for flags that were not read: asking for help is
// no mistake.
func flagExitCode(err error) int {
	if errors.Is(err, flag.ErrHelp) {
		return exitOK
	}
	return exitUsage
}

package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"runtime/debug"

	"breakwright/internal/account"
)

const serveUsage = `serve [--listen ADDR] [--data DIR] [--url URL]

Serves the club's pages until it is told to stop (Ctrl-C, SIGTERM). With
DATABASE_URL it uses that PostgreSQL; without, it starts a private one in the
data folder. The first time it prints a link that sets up the club and its first
coach. "breakwright help" lists all settings.
`

// collectAtPercent is by how much memory may grow between two collections: half of
// what Go does by itself, since most of what a server makes is a page's and gone
// with it. A thousand live boards then fit into 150 MB (go run ./cmd/verify -soak).
const collectAtPercent = 50

// softLimitBytes is how much memory may be held before it is collected more often: files
// of the largest size that come in side by side stay near it
// (go test -bench MemoryOfTheLargest ./web/exchange). It refuses nothing.
const softLimitBytes = 224 << 20

// runServe is the command of that name.
func runServe(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(serveUsage, stderr)
	read := configFlags(flags, "listen", "data", "url", "proxies", "metrics")
	config, code, ok := readConfig(flags, read, args, stderr)
	if !ok {
		return code
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(collectAtPercent)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(softLimitBytes)
	}
	log := slog.New(slog.NewTextHandler(stderr, nil))
	s, err := newServer(ctx, config, clubDatabase, log, printSentences(stderr), prepareNothing)
	if err != nil {
		return reportFailure(stderr, err)
	}
	defer s.Close()
	if err := printWelcome(ctx, stdout, s); err != nil {
		return reportFailure(stderr, err)
	}
	if err := s.Run(ctx); err != nil {
		return reportFailure(stderr, err)
	}
	return exitOK
}

// printWelcome says where the pages are, before there is a club how to set it up, and
// how phones get there.
func printWelcome(ctx context.Context, to io.Writer, s *webServer) error {
	has, err := s.store.HasClub(ctx)
	if err != nil {
		return err
	}
	token, hash := account.NewToken()
	if !has {
		err = s.store.SetFirstRun(ctx, hash)
	}
	fmt.Fprintf(to, "Breakwright answers at %s\n", s.url)
	if !has && err == nil {
		fmt.Fprintf(to, "There is no club here yet. Set it up with this link, which works once and until the next start:\n  %s/set-up/%s\n", s.url, token)
	}
	fmt.Fprint(to, phoneWords(s.url, s.listener))
	return err
}

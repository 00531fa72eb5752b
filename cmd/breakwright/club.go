package main

import (
	"context"
	"fmt"
	"io"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/say"
	"breakwright/internal/store"
)

const clubUsage = `club [--data DIR] [--url URL] [--demo]

Prints a link that sets up one more club with its first coach, beside those that
are there; it works once, for three days. It also works while "serve" runs.
`

// runClub is the command of that name.
func runClub(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(clubUsage, stderr)
	read := configFlags(flags, "data", "url")
	inDemo := flags.Bool("demo", false, "in the database of the demo")
	config, code, ok := readConfig(flags, read, args, stderr)
	if !ok {
		return code
	}
	token, err := addClubLink(ctx, config, *inDemo, stderr)
	if err != nil {
		return reportFailure(stderr, err)
	}
	url := config.URL
	if url == "" {
		url = "http://" + config.Listen
	}
	fmt.Fprintf(stdout, "Set up the club with this link, which works once and until %s:\n  %s/set-up/%s\n",
		say.WeekdayMoment(time.Now().Add(store.FirstRunLife)), url, token)
	if config.URL == "" {
		fmt.Fprint(stdout, "Where the server has another address, put that in front, or name it with --url.\n")
	}
	return exitOK
}

func addClubLink(ctx context.Context, config Config, inDemo bool, stderr io.Writer) (token string, err error) {
	d, err := openExisting(ctx, config, inDemo, stderr)
	if err != nil {
		return "", err
	}
	defer d.Close()
	s, err := d.openStore(ctx)
	if err != nil {
		return "", err
	}
	defer s.Close()
	token, hash := account.NewToken()
	return token, s.AddFirstRun(ctx, hash, time.Now())
}

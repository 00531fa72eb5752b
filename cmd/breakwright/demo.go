package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"time"

	"breakwright/internal/demo"
)

const demoUsage = `demo [--listen ADDR] [--data DIR] [--url URL] [--fresh] [--logins]

Serves an invented club to look at, and sets up all that it needs: a private
PostgreSQL in a data folder of its own (with DATABASE_URL set, that server), the
tables, and the club. It prints the address and whom to sign in as. The next
time it comes up on the same data.
`

// runDemo is the command "demo".
func runDemo(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(demoUsage, stderr)
	read := configFlags(flags, "listen", "data", "url", "proxies")
	fresh := flags.Bool("fresh", false, "start over: what was done in the demo is thrown away")
	asJSON := flags.Bool("logins", false, "print the address and the logins as one line of JSON")
	config, code, ok := readConfig(flags, read, args, stderr)
	if !ok {
		return code
	}
	log := slog.New(slog.NewTextHandler(stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	say := printSentences(stderr)
	var logins demo.Logins
	s, err := newServer(ctx, config, demoDatabase, log, say, func(ctx context.Context, d *openedDatabase) (err error) {
		logins, err = demo.Prepare(ctx, d.dsn, demo.Options{Fresh: *fresh, Now: time.Now(), Say: say})
		return err
	})
	if err != nil {
		return reportFailure(stderr, err)
	}
	defer s.Close()
	if !s.isPrivate() {
		say("Anyone who can reach this address can sign in as the people below: everybody knows their secrets.")
	}
	show := showLogins
	if *asJSON {
		show = writeLogins
	}
	if err := show(stdout, s, logins); err != nil {
		return reportFailure(stderr, err)
	}
	if err := s.Run(ctx); err != nil {
		return reportFailure(stderr, err)
	}
	return exitOK
}

// showLogins prints them for a person.
func showLogins(to io.Writer, s *webServer, l demo.Logins) error {
	fmt.Fprintf(to, "\n%s, an invented club, is open at\n\n  %s\n\n", l.Club, s.url)
	line := func(role string, p demo.Login, secret string) {
		note := ""
		if p.Changed {
			note = "   (changed since)"
		}
		fmt.Fprintf(to, "  %-19s %-15s sign in as %-10s %s %s%s\n", role, p.Name, p.SignInName, secret, p.Secret, note)
	}
	line("coach", l.Coach, "passphrase")
	for _, p := range l.Students {
		line(string(p.Side)+"-side student", p, "PIN       ")
	}
	fmt.Fprint(to, "\nCtrl-C stops it")
	if s.database.data != "" {
		fmt.Fprintf(to, "; what was done stays in %s", s.database.data)
	}
	_, err := fmt.Fprint(to, ". --fresh starts over.\n")
	return err
}

// shownLogins is the JSON of --logins.
type shownLogins struct {
	URL      string         `json:"url"`
	Coach    shownCoach     `json:"coach"`
	Students []shownStudent `json:"students"`
}

type shownCoach struct {
	Name       string `json:"name"`
	Login      string `json:"login"`
	Passphrase string `json:"passphrase"`
	Changed    bool   `json:"changed,omitzero"`
}

type shownStudent struct {
	Name    string `json:"name"`
	Side    string `json:"side"`
	Code    string `json:"code"`
	PIN     string `json:"pin"`
	Changed bool   `json:"changed,omitzero"`
}

// writeLogins prints them for a program.
func writeLogins(to io.Writer, s *webServer, l demo.Logins) error {
	shown := shownLogins{
		URL:   s.url,
		Coach: shownCoach{Name: l.Coach.Name, Login: l.Coach.SignInName, Passphrase: l.Coach.Secret, Changed: l.Coach.Changed},
	}
	for _, p := range l.Students {
		shown.Students = append(shown.Students, shownStudent{Name: p.Name, Side: string(p.Side), Code: p.SignInName, PIN: p.Secret, Changed: p.Changed})
	}
	return json.NewEncoder(to).Encode(shown)
}

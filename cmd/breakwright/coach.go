package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/privacy"
)

const coachUsage = `coach [--data DIR] [--demo] LOGIN
       coach [--data DIR] [--demo] --beside COACH --name NAME LOGIN

Gives the coach who signs in as LOGIN a new passphrase and signs them out
everywhere, and takes a second step away; or adds a coach to the club of another,
COACH. The passphrase is made here and printed once: change it under "Your
account". It also works while "serve" runs. The first coach of
all is made with the link that "serve" prints.
`

// runCoach is the command of that name.
func runCoach(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(coachUsage, stderr)
	read := configFlags(flags, "data")
	beside := flags.String("beside", "", "login of a coach who is in the club already")
	inDemo := flags.Bool("demo", false, "in the database of the demo")
	name := flags.String("name", "", "name of the new coach, as the club sees it")
	logins, err := parseMixed(flags, args)
	if err != nil {
		return flagExitCode(err)
	}
	if len(logins) != 1 || (*beside == "") != (*name == "") {
		flags.Usage()
		return exitUsage
	}
	config, err := read()
	if err != nil {
		return reportFailure(stderr, err)
	}
	passphrase := account.FormatCode(account.NewCode()) + "-" + account.FormatCode(account.NewCode())
	wanted := store.NewCoach{Name: *name, Login: logins[0]}
	if err := setPassphrase(ctx, config, *inDemo, wanted, *beside, passphrase, stderr); err != nil {
		return reportFailure(stderr, err)
	}
	fmt.Fprintf(stdout, "%s signs in with the passphrase %s\n", wanted.Login, passphrase)
	return exitOK
}

// setPassphrase gives a coach a passphrase; with a coach beside whom they work, they
// are new.
func setPassphrase(ctx context.Context, config Config, inDemo bool, c store.NewCoach, beside, passphrase string, stderr io.Writer) error {
	d, err := openExisting(ctx, config, inDemo, stderr)
	if err != nil {
		return err
	}
	defer d.Close()
	s, err := d.openStore(ctx)
	if err != nil {
		return err
	}
	defer s.Close()
	secrets, err := account.NewHasher(account.DefaultCost(), 1)
	if err != nil {
		return err
	}
	if c.SecretHash, err = secrets.HashSecret(ctx, passphrase); err != nil {
		return err
	}
	known := c.Login
	if beside != "" {
		known = beside
	}
	who, err := s.FindCoach(ctx, known)
	if errors.Is(err, store.ErrNotFound) {
		return fmt.Errorf("no coach signs in as %q. Logins are what was chosen at the set-up; the first coach is made with the link that breakwright serve prints", known)
	}
	if err != nil {
		return err
	}
	if beside != "" {
		c.ID = store.NewID[store.PersonID]()
		_, err = s.AddCoach(store.WithNote(ctx, store.Note{Act: store.ActChanged, Place: privacy.PlaceOfNewCoach, About: c.ID.UUID}), who.Actor, c)
		return err
	}
	noted := store.WithNote(ctx, store.Note{Act: store.ActChanged, Place: privacy.PlaceOfNewPassphrase, About: who.Actor.Person.UUID})
	return s.ResetSecret(noted, who.Actor, c.SecretHash)
}

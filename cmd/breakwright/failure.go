package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"breakwright/internal/demo"
	"breakwright/internal/localpg"
	"breakwright/internal/store"
)

// remedies say what to do about what can go wrong, where the error does not
// say it by itself.
var remedies = []struct {
	err error
	do  string
}{
	{store.ErrPassword, "Look at the user and the password in DATABASE_URL. In a password, signs other than letters and digits are written as %XX."},
	{store.ErrNoDatabase, "Look at the name in DATABASE_URL, or make that database: createdb --owner=USER NAME."},
	{store.ErrUnavailable, "See that PostgreSQL runs, and that DATABASE_URL has its host and port; or start without DATABASE_URL, and a private one is used."},
	{store.ErrNewerSchema, "Nothing was changed. For a look at this version leave that database alone and take another; without DATABASE_URL, --data DIR names a new folder."},
	{store.ErrOlderSchema, "Run breakwright migrate."},
	{store.ErrOldServer, "Upgrade that server, or start without DATABASE_URL, and a private one is used."},
	{store.ErrRole, "Or let the owner make it: alter role OWNER createrole."},
	{store.ErrClubThere, "Nothing was changed. To bring it back as it was in the file, erase it first on its page, or take another database; without DATABASE_URL, --data DIR names a new folder."},
	{store.ErrOpenWalls, "Have an administrator run: alter role " + store.AppRole + " nosuperuser nobypassrls."},
	{localpg.ErrRunning, "Another folder is named with --data DIR."},
	{demo.ErrOtherClub, "Give the demo a database of its own, or look at that club with breakwright serve."},
	{errDatabaseGone, "Start again: what was recorded is recovered."},
}

// reportFailure says what went wrong and what to do next, and returns the exit code.
// Ctrl-C meanwhile is no failure worth words.
func reportFailure(stderr io.Writer, err error) int {
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(stderr, "breakwright: stopped before it was ready")
		return exitFailed
	}
	fmt.Fprintf(stderr, "breakwright: %v\n", err)
	for _, r := range remedies {
		if errors.Is(err, r.err) {
			fmt.Fprintln(stderr, r.do)
			break
		}
	}
	return exitFailed
}

// printSentences passes on sentences about what takes time.
func printSentences(stderr io.Writer) func(string) {
	return func(sentence string) { fmt.Fprintln(stderr, sentence) }
}

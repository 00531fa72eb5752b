package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"
)

const healthcheckUsage = `healthcheck [--listen ADDR]

Asks the server that listens there, on this machine, whether it can do its work.
Exit codes: 0 it can, 1 it cannot.
`

// healthPatience is less than what a container's supervisor waits.
const healthPatience = 2 * time.Second

// runHealthcheck is the command of that name.
func runHealthcheck(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(healthcheckUsage, stderr)
	config, code, ok := readConfig(flags, configFlags(flags, "listen"), args, stderr)
	if !ok {
		return code
	}
	answer, err := fetchHealth(ctx, config.Listen)
	if err != nil {
		return reportFailure(stderr, fmt.Errorf("%w\nIf it listens elsewhere, say so with --listen or BREAKWRIGHT_LISTEN", err))
	}
	fmt.Fprintln(stdout, answer)
	return exitOK
}

// fetchHealth returns the answer of a healthy server.
func fetchHealth(ctx context.Context, listens string) (string, error) {
	host, port, err := net.SplitHostPort(listens)
	if err != nil {
		return "", err
	}
	if ip := net.ParseIP(host); host == "" || ip != nil && ip.IsUnspecified() {
		host = "127.0.0.1"
	}
	ctx, cancel := context.WithTimeout(ctx, healthPatience)
	defer cancel()
	address := "http://" + net.JoinHostPort(host, port) + "/healthz"
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return "", err
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return "", fmt.Errorf("nobody answers: %w", err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(io.LimitReader(answer.Body, 1000))
	words := strings.TrimSpace(string(text))
	switch {
	case err != nil:
		return "", fmt.Errorf("read the answer of %s: %w", address, err)
	case answer.StatusCode != http.StatusOK:
		return "", fmt.Errorf("%s answers %s: %s", address, answer.Status, words)
	}
	return words, nil
}

package main

import (
	"bufio"
	"context"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// asProcess, set in the environment, makes the test binary the program itself.
const asProcess = "BREAKWRIGHT_TEST_AS_PROGRAM"

// actAsProgram is the first thing that TestMain does.
func actAsProgram() {
	if os.Getenv(asProcess) != "" {
		main()
	}
}

// programProcess is the program at work in a process of its own.
type programProcess struct {
	command *exec.Cmd
	url     string
	ended   chan struct{}
}

// startProcess starts serve in a process of its own and waits until it answers;
// it ends with the test. The environment goes before ours.
func startProcess(t testing.TB, listen string, environment ...string) *programProcess {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return startProgramFile(t, self, listen, environment...)
}

// startProgramFile is startProcess for a program that was built otherwise.
func startProgramFile(t testing.TB, file, listen string, environment ...string) *programProcess {
	t.Helper()
	p := &programProcess{command: exec.CommandContext(context.Background(), file, "serve", "--listen", listen), ended: make(chan struct{})}
	p.command.Env = append(append(os.Environ(), asProcess+"=yes"), environment...)
	var errs syncBuffer
	p.command.Stderr = &errs
	out, err := p.command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := p.command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.kill)
	first := make(chan string, 1)
	go func() {
		defer close(p.ended)
		lines := bufio.NewScanner(out)
		for lines.Scan() {
			select {
			case first <- lines.Text():
			default: // only the first is waited for
			}
		}
		_ = p.command.Wait() // killed processes end with an error
	}()
	select {
	case line := <-first:
		p.url = strings.TrimPrefix(line, "Breakwright answers at ")
	case <-p.ended:
		t.Fatalf("serve ended: %s", &errs)
	case <-time.After(2 * time.Minute): // a stuck start must not hang the tests
		t.Fatalf("serve says nothing: %s", &errs)
	}
	return p
}

// kill ends the process at once, without a word to it.
func (p *programProcess) kill() {
	_ = p.command.Process.Kill() // it may have ended already
	<-p.ended
}

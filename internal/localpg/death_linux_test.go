//go:build !quick

package localpg

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"
)

// doomed is the environment variable that turns this test binary into a
// program that starts a server in the named folder and waits to be killed.
const doomed = "CLUSTER_TEST_DOOMED"

func TestMain(m *testing.M) {
	dir := os.Getenv(doomed)
	if dir == "" {
		os.Exit(m.Run())
	}
	server, err := Start(context.Background(), Config{Dir: dir, Durable: true})
	if err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	fmt.Println(server.DSN(superuser, superuser))
	time.Sleep(time.Minute)
	os.Exit(1) // nobody killed us
}

func TestStart_RightAfterTheOwnerWasKilled(t *testing.T) {
	dir := newFolder(t)
	owner := exec.Command(os.Args[0])
	owner.Env = append(os.Environ(), doomed+"="+dir)
	output, err := owner.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := owner.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(output).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	if !IsInUse(dir) {
		t.Fatalf("the other process has no server: %s", line)
	}
	if err := owner.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	owner.Wait() // says "killed"

	if got := queryValue[int](t, startIn(t, dir), "select 1"); got != 1 {
		t.Error("the server does not answer")
	}
}

package localpg

import (
	"os"
	"os/exec"
	"runtime"
	"time"
)

// serverProcess is a running postgres and the news of its end.
type serverProcess struct {
	command *exec.Cmd
	ended   chan struct{} // closed once it is gone
	err     error         // how it ended; read after ended
}

// launchProcess starts the command from a goroutine that keeps its thread until the
// server ends: the kernel sends the parent-death signal when the *thread* that
// forked goes, and Go may end idle threads.
func launchProcess(command *exec.Cmd, log *os.File) (*serverProcess, error) {
	dieWithParent(command)
	command.Stdout, command.Stderr = log, log
	p := &serverProcess{command: command, ended: make(chan struct{})}
	started := make(chan error)
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := command.Start()
		started <- err
		if err == nil {
			p.err = command.Wait()
		}
		close(p.ended)
	}()
	return p, <-started
}

func (p *serverProcess) isRunning() bool {
	select {
	case <-p.ended:
		return false
	default:
		return true
	}
}

// shutDown shuts down fast, and at once when that takes longer than patience.
func (p *serverProcess) shutDown(patience time.Duration) {
	p.command.Process.Signal(fastShutdown) // an error means that it has ended
	select {
	case <-p.ended:
	case <-time.After(patience):
		p.command.Process.Signal(immediateShutdown)
		<-p.ended
	}
}

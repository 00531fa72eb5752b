package localpg

import "os/exec"

// dieWithParent has the kernel shut the server down when we are gone, even
// when we were killed outright. The kernel watches the thread that started it,
// not the process: see [launchProcess].
func dieWithParent(command *exec.Cmd) {
	command.SysProcAttr.Pdeathsig = fastShutdown
}

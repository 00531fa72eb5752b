//go:build !linux

package localpg

import "os/exec"

// dieWithParent can promise nothing here: a server whose parent was killed
// outright runs on, and the next [Start] says so and how to stop it.
func dieWithParent(*exec.Cmd) {}

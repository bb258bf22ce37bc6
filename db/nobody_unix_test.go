//go:build unix

package db_test

import (
	"os"
	"os/exec"
	"syscall"
)

// asNobody has a command run by a person without rights, if this one has all.
func asNobody(c *exec.Cmd) {
	if os.Geteuid() == 0 {
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
}

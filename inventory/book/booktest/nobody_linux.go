package booktest

import (
	"os"
	"os/exec"
	"syscall"
)

// nobody is the user id that owns no files.
const nobody = 65534

// asNobody lets a program run as a user without rights where the tests run as
// an administrator, and end when they end.
func asNobody(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGQUIT}
	if os.Getuid() == 0 {
		cmd.SysProcAttr.Credential = &syscall.Credential{Uid: nobody, Gid: nobody}
	}
}

// giveAway lets that user have a folder.
func giveAway(dir string) error {
	if os.Getuid() != 0 {
		return nil
	}
	return os.Chown(dir, nobody, nobody)
}

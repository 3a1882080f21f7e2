package booktest

import (
	"os/exec"
	"runtime"
	"syscall"
)

// process is a program started for the tests.
type process struct {
	cmd   *exec.Cmd
	ended chan struct{}
}

// start starts cmd. Where the system can, it ends with the thread that started
// it, which therefore stays: no test leaves it behind, however it ends.
func start(cmd *exec.Cmd) (*process, error) {
	p := &process{cmd: cmd, ended: make(chan struct{})}
	started := make(chan error)
	go func() {
		runtime.LockOSThread()
		defer close(p.ended)
		err := cmd.Start()
		started <- err
		if err == nil {
			_ = cmd.Wait() // how it ended is of no interest
		}
	}()
	return p, <-started
}

// end ends the process and waits for it.
func (p *process) end() error {
	err := p.cmd.Process.Signal(syscall.SIGQUIT)
	<-p.ended
	return err
}

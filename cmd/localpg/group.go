package main

import (
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"syscall"

	"golang.org/x/sys/unix"
)

// ownGroup puts the command into a process group of its own, so that Ctrl-C reaches it once and not twice, through
// the terminal and through us. Where we had the terminal it gets it, and the function returned takes it back.
func ownGroup(cmd *exec.Cmd) (restore func()) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGTERM}
	terminal := int(os.Stdin.Fd())
	foreground, err := unix.IoctlGetInt(terminal, unix.TIOCGPGRP)
	if err != nil || foreground != unix.Getpgrp() {
		return func() {} // no terminal, or we are in its background
	}
	cmd.SysProcAttr.Foreground, cmd.SysProcAttr.Ctty = true, terminal
	return func() {
		signal.Ignore(syscall.SIGTTOU) // a background process that takes the terminal is stopped by it
		_ = unix.IoctlSetPointerInt(terminal, unix.TIOCSPGRP, foreground)
	}
}

// start runs the command from a thread that lives as long as it does, since the signal that ends it if we are killed
// is tied to that thread.
func start(cmd *exec.Cmd) (ended <-chan struct{}, err error) {
	started, done := make(chan error, 1), make(chan struct{})
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := cmd.Start()
		started <- err
		if err == nil {
			_ = cmd.Wait() // what it says is in cmd.ProcessState
			close(done)
		}
	}()
	return done, <-started
}

package cluster

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
)

// attributes drop root's rights, keep Ctrl-C from reaching the server before its clients, and end the server when the
// thread that started it dies, even by SIGKILL.
func (a account) attributes() *syscall.SysProcAttr {
	attr := &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGINT}
	if a.drop {
		attr.Credential = &syscall.Credential{Uid: uint32(a.uid), Gid: uint32(a.gid), Groups: []uint32{}}
	}
	return attr
}

// mayEnter reads the permission bits: the account has no group but its own.
func (a account) mayEnter(dir string) bool {
	info, err := os.Stat(dir)
	if err != nil {
		return false
	}
	owner, known := info.Sys().(*syscall.Stat_t)
	if !known {
		return false
	}
	switch mode := info.Mode().Perm(); {
	case int(owner.Uid) == a.uid:
		return mode&0o100 != 0
	case int(owner.Gid) == a.gid:
		return mode&0o010 != 0
	default:
		return mode&0o001 != 0
	}
}

// owns tells whether a path belongs to the account.
func (a account) owns(path string) bool {
	info, err := os.Stat(path)
	if err != nil {
		return false
	}
	owner, known := info.Sys().(*syscall.Stat_t)
	return known && int(owner.Uid) == a.uid
}

// lockFile holds a file for this process alone; the kernel lets go of it when the process ends, however it ends.
func lockFile(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		if errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, errInUse
		}
		return nil, fmt.Errorf("lock %s: %w", path, err)
	}
	return f, nil
}

func alive(pid int) bool {
	return syscall.Kill(pid, 0) != syscall.ESRCH
}

// worksIn tells whether a process has dir as its working folder, as a PostgreSQL server has its data folder. A
// process that may not be looked at belongs to another user and is no server of ours.
func worksIn(pid int, dir string) bool {
	at, err := os.Readlink(filepath.Join("/proc", strconv.Itoa(pid), "cwd"))
	if err != nil {
		return false
	}
	real, err := filepath.EvalSymlinks(dir)
	return err == nil && at == real
}

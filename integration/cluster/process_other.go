//go:build !linux

package cluster

import (
	"errors"
	"os"
	"syscall"
)

var errLinuxOnly = errors.New("a private PostgreSQL cluster runs on Linux only; name a running server in DATABASE_URL")

func (a account) attributes() *syscall.SysProcAttr { return nil }

func (a account) mayEnter(string) bool { return false }

func (a account) owns(string) bool { return false }

func lockFile(string) (*os.File, error) { return nil, errLinuxOnly }

func alive(int) bool { return false }

func worksIn(int, string) bool { return false }

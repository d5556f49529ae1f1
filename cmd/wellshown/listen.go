package main

import (
	"errors"
	"fmt"
	"net"
	"strconv"
	"syscall"
)

// listen opens the address that the service answers on.
func (c config) listen() (net.Listener, error) {
	address := net.JoinHostPort(c.Host, strconv.Itoa(c.Port))
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("listen on %s: %w. %s", address, err, listenHelp(err))
	}
	return listener, nil
}

// listenHelp says which of the two settings to look at.
func listenHelp(err error) string {
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return "Something else is there: stop it, or choose another port with PORT"
	case errors.Is(err, syscall.EACCES):
		return "Ports below 1024 take rights that this account does not have: choose another one with PORT"
	}
	return "HOST has to be an address of this machine: 127.0.0.1 for itself alone, 0.0.0.0 for all of its networks"
}

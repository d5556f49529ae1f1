// Package mailbox is a real mail server for tests: Debian's python3-aiosmtpd, in the
// open or with STARTTLS and a password. mailbox.py says what it does with which address.
package mailbox

import (
	"bufio"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	_ "embed"
	"encoding/json"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"
)

//go:embed mailbox.py
var script string

// python is Debian's own, for which its packages are.
const python = "/usr/bin/python3"

// User and Password are asked for where the server encrypts.
const (
	User     = "wellshown"
	Password = "well:shown@1"
)

// Letter is a letter as it came.
type Letter struct {
	To, ID, Subject, Date, Auto, From, HeaderTo, Text, Login string
	Encrypted                                                bool
}

// Mailbox is a running mail server.
type Mailbox struct {
	Port  int
	Roots string // file of the certificate that a server which encrypts shows; empty: it does not

	mu      sync.Mutex
	letters []Letter
}

// Open starts a server that takes letters in the open.
func Open(tb testing.TB) *Mailbox {
	tb.Helper()
	return start(tb, &Mailbox{})
}

// Encrypted starts a server that asks for STARTTLS and a password.
func Encrypted(tb testing.TB) *Mailbox {
	tb.Helper()
	certificate, key := certify(tb)
	return start(tb, &Mailbox{Roots: certificate}, certificate, key)
}

func start(tb testing.TB, m *Mailbox, arguments ...string) *Mailbox {
	tb.Helper()
	if exec.Command(python, "-c", "import aiosmtpd").Run() != nil {
		if os.Getenv("CI") != "" {
			tb.Fatal("there is no python3-aiosmtpd: run make setup")
		}
		tb.Skip("there is no python3-aiosmtpd: run make setup")
	}
	server := exec.Command(python, append([]string{"-c", script}, arguments...)...)
	says, err := server.StdoutPipe()
	if err == nil {
		err = server.Start()
	}
	if err != nil {
		tb.Fatalf("start the mail server: %v", err)
	}
	lines := bufio.NewScanner(says)
	tb.Cleanup(func() { _ = server.Process.Kill(); _, _ = io.Copy(io.Discard, says); _ = server.Wait() })
	if !lines.Scan() || json.Unmarshal(lines.Bytes(), m) != nil || m.Port == 0 {
		tb.Fatal("the mail server does not say where it is")
	}
	go m.take(lines)
	return m
}

func (m *Mailbox) take(lines *bufio.Scanner) {
	for lines.Scan() {
		var l Letter
		if json.Unmarshal(lines.Bytes(), &l) != nil {
			continue
		}
		m.mu.Lock()
		m.letters = append(m.letters, l)
		m.mu.Unlock()
	}
}

// Letters are all that came so far, in order.
func (m *Mailbox) Letters() []Letter {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.Clone(m.letters)
}

// certify makes a certificate for this machine, for an hour.
func certify(tb testing.TB) (certificate, key string) {
	tb.Helper()
	secret, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		tb.Fatal(err)
	}
	about := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "mailbox"}, IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)},
		NotBefore: time.Now().Add(-time.Minute), NotAfter: time.Now().Add(time.Hour), IsCA: true, BasicConstraintsValid: true,
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
	made, err := x509.CreateCertificate(rand.Reader, about, about, &secret.PublicKey, secret)
	if err != nil {
		tb.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(secret)
	if err != nil {
		tb.Fatal(err)
	}
	dir := tb.TempDir()
	certificate, key = filepath.Join(dir, "certificate.pem"), filepath.Join(dir, "key.pem")
	for path, block := range map[string]*pem.Block{certificate: {Type: "CERTIFICATE", Bytes: made}, key: {Type: "PRIVATE KEY", Bytes: private}} {
		if err := os.WriteFile(path, pem.EncodeToMemory(block), 0o600); err != nil {
			tb.Fatal(err)
		}
	}
	return certificate, key
}

package mailing

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"regexp"
	"strings"
	"time"

	"github.com/wneessen/go-mail"
)

// Security is how the way to a mail server is kept from others' eyes.
type Security string

// The kinds of security.
const (
	StartTLS Security = "starttls" // the usual: in the open, then encrypted before anything is said (RFC 3207)
	TLS      Security = "tls"      // encrypted from the first byte (RFC 8314)
	Open     Security = "none"     // not at all: for a server on the same machine
)

// Server is a mail server that takes mail for anybody (RFC 6409).
type Server struct {
	Host     string
	Port     int
	User     string // empty: it asks for none
	Password string
	From     string // the address, perhaps with a name before it
	Security Security
	Timeout  time.Duration  // handing over one letter takes at most this long
	Roots    *x509.CertPool // nil: those of the machine
}

// Failure is a letter that was not handed over, or of which that is not known.
type Failure struct {
	Code    int    // that the server answered; 0: none
	Says    string // in its words, without addresses
	Lasting bool   // trying again would be answered alike (RFC 5321, section 4.2.1)
}

// Error is what the server said.
func (f *Failure) Error() string { return f.Says }

// Send hands a letter over. It answers nil if and only if the server has taken it, and
// a Failure otherwise.
func (s Server) Send(ctx context.Context, l Letter) error {
	m, err := s.message(l)
	if err != nil {
		return &Failure{Says: s.scrub(err), Lasting: true}
	}
	ctx, cancel := context.WithTimeout(ctx, s.Timeout)
	defer cancel()
	client, err := s.client(ctx)
	if err != nil {
		return &Failure{Says: s.scrub(err)}
	}
	err = client.DialAndSendWithContext(ctx, m)
	if err == nil || m.IsDelivered() { // what comes after the server has taken it does not matter
		return nil
	}
	f := &Failure{Says: s.scrub(err)}
	var refused *mail.SendError
	if errors.As(err, &refused) {
		f.Code = refused.ErrorCode()
		f.Lasting = f.Code >= 500 && f.Code < 600
	}
	return f
}

func (s Server) message(l Letter) (*mail.Msg, error) {
	m := mail.NewMsg(mail.WithNoDefaultUserAgent())
	if err := m.From(s.From); err != nil {
		return nil, fmt.Errorf("read the sender's address: %w", err)
	}
	if err := m.To(l.To); err != nil {
		return nil, fmt.Errorf("read the address: %w", err)
	}
	title, body := l.written()
	m.Subject(title)
	m.SetMessageIDWithValue(l.ID)
	m.SetDateWithValue(l.At)
	m.SetGenHeader("Auto-Submitted", "auto-generated") // RFC 3834: nobody's absence is answered
	m.SetGenHeader("Content-Language", l.Language)
	m.SetBodyString(mail.TypeTextPlain, body)
	return m, nil
}

// client is one way to the server. It is cut when ctx ends, whatever is under way.
func (s Server) client(ctx context.Context) (*mail.Client, error) {
	options := []mail.Option{mail.WithPort(s.Port), mail.WithTimeout(s.Timeout), mail.WithoutNoop(), mail.WithTLSConfig(&tls.Config{ServerName: s.Host, RootCAs: s.Roots, MinVersion: tls.VersionTLS12}),
		mail.WithDialContextFunc(func(dialing context.Context, network, address string) (net.Conn, error) {
			conn, err := s.dial(dialing, network, address)
			if err == nil {
				context.AfterFunc(ctx, func() { conn.Close() })
			}
			return conn, err
		})}
	switch s.Security {
	case TLS:
		options = append(options, mail.WithSSL())
	case Open:
		options = append(options, mail.WithTLSPolicy(mail.NoTLS))
	default:
		options = append(options, mail.WithTLSPolicy(mail.TLSMandatory))
	}
	if s.User != "" {
		options = append(options, mail.WithSMTPAuth(mail.SMTPAuthAutoDiscover), mail.WithUsername(s.User), mail.WithPassword(s.Password))
	}
	return mail.NewClient(s.Host, options...)
}

func (s Server) dial(ctx context.Context, network, address string) (net.Conn, error) {
	if s.Security == TLS {
		d := tls.Dialer{Config: &tls.Config{ServerName: s.Host, RootCAs: s.Roots, MinVersion: tls.VersionTLS12}}
		return d.DialContext(ctx, network, address)
	}
	var d net.Dialer
	return d.DialContext(ctx, network, address)
}

var (
	addressed = regexp.MustCompile(`[^\s<>:,;"']+@[^\s<>:,;"']+`)
	unprinted = regexp.MustCompile(`[\x00-\x1f\x7f]+`)
)

// mostSays is how much of what a server says is kept: its answers are lines of 512 octets
// at most (RFC 5321, section 4.5.3.1.5).
const mostSays = 512

// scrub leaves out whom it was about: servers repeat addresses.
func (s Server) scrub(err error) string {
	says, _, _ := strings.Cut(err.Error(), ", affected ") // whom, and which message
	if s.Password != "" {
		says = strings.ReplaceAll(says, s.Password, "(the password)")
	}
	says = addressed.ReplaceAllString(says, "(an address)")
	says = strings.TrimSpace(unprinted.ReplaceAllString(strings.ToValidUTF8(says, "?"), " "))
	if letters := []rune(says); len(letters) > mostSays {
		says = string(letters[:mostSays])
	}
	return says
}

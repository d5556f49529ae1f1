package mailing_test

import (
	"crypto/x509"
	"errors"
	"net"
	"os"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/mailing"
	"wellshown/integration/mailbox"
)

func letter(to, language string) mailing.Letter {
	return mailing.Letter{To: to, Language: language, ID: "0123456789abcdef@wellshown.example", At: time.Date(2026, 3, 8, 14, 0, 0, 0, time.UTC),
		Counts: assessment.NoticeCounts{Due: 2, Lapsed: 1}, Link: "https://shown.example/"}
}

func open(m *mailbox.Mailbox) mailing.Server {
	return mailing.Server{Host: "127.0.0.1", Port: m.Port, From: "Wellshown <reminders@shown.example>", Security: mailing.Open, Timeout: 2 * time.Second}
}

// The letter that arrives is the one that was written, at a server that is another
// implementation: its id and day (RFC 5322), that nobody answers it (RFC 3834), the text
// in the language of whoever it is for, and no name beside the address.
func TestALetterArrives(t *testing.T) {
	t.Parallel()
	m := mailbox.Open(t)
	for language, want := range map[string][2]string{
		"en": {"Wellshown: 3 things wait for you", "1 thing that you held is over.\n2 things that you hold come to their end, or can be renewed.\n"},
		"es": {"Wellshown: 3 asuntos le esperan", "1 competencia suya ha vencido.\n2 competencias suyas llegan a su fin o ya se pueden renovar.\n"},
	} {
		if err := open(m).Send(t.Context(), letter(language+"@home.example", language)); err != nil {
			t.Fatal(err)
		}
		var got mailbox.Letter
		for range 100 {
			for _, l := range m.Letters() {
				if l.To == language+"@home.example" {
					got = l
				}
			}
			if got.To != "" {
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
		if got.ID != "<0123456789abcdef@wellshown.example>" || got.Auto != "auto-generated" || got.Subject != want[0] || got.HeaderTo != language+"@home.example" ||
			!strings.HasPrefix(got.Text, want[1]) || !strings.Contains(got.Text, "\nhttps://shown.example/\n") || got.Date != "Sun, 08 Mar 2026 14:00:00 +0000" {
			t.Errorf("%s: %+v", language, got)
		}
	}
}

// With STARTTLS nothing is said in the open, and a server whose certificate is not known
// is told nothing (RFC 3207, section 4.1).
func TestALetterGoesEncrypted(t *testing.T) {
	t.Parallel()
	m := mailbox.Encrypted(t)
	s := open(m)
	s.Security, s.User, s.Password = mailing.StartTLS, mailbox.User, mailbox.Password
	if err := s.Send(t.Context(), letter("unknown@home.example", "en")); err == nil || !strings.Contains(err.Error(), "certificate") {
		t.Errorf("to a server that nobody vouches for: %v", err)
	}
	text, err := os.ReadFile(m.Roots)
	if err != nil {
		t.Fatal(err)
	}
	s.Roots = x509.NewCertPool()
	s.Roots.AppendCertsFromPEM(text)
	if err := s.Send(t.Context(), letter("known@home.example", "en")); err != nil {
		t.Fatal(err)
	}
	wrong := s
	wrong.Password = "wrong:wrong"
	if err := wrong.Send(t.Context(), letter("wrong@home.example", "en")); err == nil || strings.Contains(err.Error(), wrong.Password) {
		t.Errorf("with a wrong password: %v", err)
	}
	got := m.Letters()
	if len(got) != 1 || !got[0].Encrypted || got[0].Login != mailbox.User || got[0].To != "known@home.example" {
		t.Errorf("%+v", got)
	}
}

// What a server may do to a letter, and what is made of it: codes of 500 and more last
// (RFC 5321, section 4.2.1), everything else is tried again, and nothing of it names
// whoever it was for.
func TestLettersThatDoNotArrive(t *testing.T) {
	t.Parallel()
	m := mailbox.Open(t)
	for to, want := range map[string]mailing.Failure{
		"later@home.example":  {Code: 451, Says: "Try again later"},
		"never@home.example":  {Code: 550, Says: "nobody here", Lasting: true},
		"dies@home.example":   {},
		"silent@home.example": {},
		"slow@home.example":   {},
		"no address":          {Lasting: true},
	} {
		err := open(m).Send(t.Context(), letter(to, "en"))
		var f *mailing.Failure
		if !errors.As(err, &f) || f.Code != want.Code || f.Lasting != want.Lasting || !strings.Contains(f.Says, want.Says) || f.Says == "" {
			t.Errorf("%s: %+v", to, err)
			continue
		}
		if name, _, _ := strings.Cut(to, "@"); strings.Contains(f.Says, name+"@") || strings.Contains(f.Says, "home.example") {
			t.Errorf("%s: says whom it was for: %s", to, f.Says)
		}
	}
}

// A server that is not there, one that says nothing, and one that cannot encrypt.
func TestServersThatAreNone(t *testing.T) {
	t.Parallel()
	m := mailbox.Open(t)
	silent, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer silent.Close()
	gone := open(m)
	gone.Port = 1
	mute := open(m)
	mute.Port, mute.Timeout = silent.Addr().(*net.TCPAddr).Port, 200*time.Millisecond
	plain := open(m)
	plain.Security = mailing.StartTLS
	implicit := open(m)
	implicit.Security = mailing.TLS
	for name, s := range map[string]mailing.Server{"gone": gone, "mute": mute, "without STARTTLS": plain, "without TLS": implicit} {
		err := s.Send(t.Context(), letter("a@home.example", "en"))
		var f *mailing.Failure
		if !errors.As(err, &f) || f.Lasting || f.Says == "" {
			t.Errorf("%s: %+v", name, err)
		}
	}
	if got := m.Letters(); len(got) > 0 {
		t.Errorf("sent all the same: %+v", got)
	}
}

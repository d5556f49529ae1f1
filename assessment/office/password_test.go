package office

import (
	"context"
	"strings"
	"testing"
)

// The hashes are those of the reference implementation's own tests (phc-winner-
// argon2, src/test.c, version 0x13, Argon2id), from memory; a wrong memory would
// not match.
func TestPasswordHashesOfTheReference(t *testing.T) {
	o := New(nil, Options{})
	for _, c := range []struct{ password, kept string }{
		{"password", "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"},
		{"password", "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"},
		{"password", "$argon2id$v=19$m=256,t=2,p=2$c29tZXNhbHQ$bQk8UB/VmZZF4Oo79iDXuL5/0ttZwg2f/5U52iv1cDc"},
		{"password", "$argon2id$v=19$m=65536,t=1,p=1$c29tZXNhbHQ$9qWtwbpyPd3vm1rB1GThgPzZ3/ydHL92zKL+15XZypg"},
		{"differentpassword", "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$C4TWUs9rDEvq7w3+J4umqA32aWKB1+DSiRuBfYxFj94"},
		{"password", "$argon2id$v=19$m=65536,t=2,p=1$ZGlmZnNhbHQ$vfMrBczELrFdWP0ZsfhWsRPaHppYdP3MVEMIVlqoFBw"},
	} {
		if ok, err := o.matches(context.Background(), o.signingIn, c.kept, c.password); err != nil || !ok {
			t.Errorf("%s: matches %v, %v", c.kept, ok, err)
		}
		if ok, err := o.matches(context.Background(), o.signingIn, c.kept, c.password+" "); err != nil || ok {
			t.Errorf("%s with another password: matches %v, %v", c.kept, ok, err)
		}
	}
}

// RFC 9106, section 4: the second recommended option is 64 MiB and three passes,
// with a salt of 128 bits and a key of 256.
func TestWhatAPasswordHashCosts(t *testing.T) {
	o := New(nil, Options{})
	first, err := o.hash(t.Context(), "four unrelated words")
	if err != nil {
		t.Fatal(err)
	}
	second, err := o.hash(t.Context(), "four unrelated words")
	if err != nil {
		t.Fatal(err)
	}
	if first == second {
		t.Error("two hashes of one password are the same: there is no salt")
	}
	h, err := parsePHC(first)
	if err != nil || h.cost != (PasswordCost{Memory: 65536, Passes: 3, Threads: 2}) || len(h.salt) != 16 || len(h.key) != 32 {
		t.Errorf("%s: %+v, %v", first, h.cost, err)
	}
	if ok, err := o.matches(t.Context(), o.signingIn, first, "four unrelated words"); err != nil || !ok {
		t.Errorf("its own password: %v, %v", ok, err)
	}
	if ok, err := o.matches(t.Context(), o.signingIn, "", ""); err != nil || ok {
		t.Errorf("no password kept, none given: %v, %v", ok, err)
	}
}

// Common practice, no source: what a person would try first is refused.
func TestPasswordRules(t *testing.T) {
	const name, email = "Zoë Nguyễn-Berg", "zoe.nguyen@wren.example"
	for _, c := range []struct{ password, wants string }{
		{"seven slow herons", ""},
		{"ответственность", ""}, // 15 characters, not 30 bytes
		{"twelve chars", ""},
		{"eleven char", "at least 12"},
		{"водоворот", "at least 12"}, // 9 characters in 18 bytes
		{"", "at least 12"},
		{strings.Repeat("ab", 63) + "xy", ""},
		{strings.Repeat("ab", 64) + "c", "at most 128"},
		{"password password", "over and over"},
		{"herons herons", "over and over"},
		{"Password1234!", "anybody would try"},
		{"welcome-admin-2026", "anybody would try"},
		{"123456789012", "anybody would try"},
		{"abcdefghijklm", "anybody would try"},
		{"987654321098", "anybody would try"},
		{"suction nurse heron", ""},
		{"aaaaaaaaaaaaaa", "over and over"},
		{"łłłłłłłłłłłłłł", "over and over"},
		{"Zoë Nguyễn Berg", "own name"},
		{"zoënguyễnberg2027", "own name"},
		{"Zoe.Nguyen@Wren.example", "own name or e-mail"},
		{"my-ZoeNguyen-pass", "own name or e-mail"},
		{"bad \xff bytes in it", "cannot be read"},
	} {
		err := checkPassword(c.password, name, email)
		if c.wants == "" && err != nil || c.wants != "" && (err == nil || !strings.Contains(err.Error(), c.wants)) {
			t.Errorf("%q: got %v, want %q", c.password, err, c.wants)
		}
	}
	if err := checkPassword("correct horse battery", "Bo", ""); err != nil {
		t.Errorf("a short name and no address forbid nothing: %v", err)
	}
}

// What is read is what was written, and nothing that a hash could be made to cost
// without bound.
func FuzzParsePHC(f *testing.F) {
	f.Add("$argon2id$v=19$m=65536,t=3,p=2$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc")
	f.Add("$argon2id$v=19$m=4294967295,t=4294967295,p=255$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc")
	f.Add("$argon2id$v=19$m=8,t=1,p=1$c29tZXNhbHQ=$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc")
	f.Add("$argon2id$v=19$m=+8,t=01,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c")
	f.Add("$argon2i$v=19$m=8,t=1,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c")
	f.Add("$argon2id$v=16$m=8,t=1,p=1$$")
	f.Add("")
	f.Fuzz(func(t *testing.T, s string) {
		h, err := parsePHC(s)
		if err != nil {
			return
		}
		if h.String() != s {
			t.Errorf("%q reads as %q", s, h)
		}
		if h.cost.Memory > 1<<20 || h.cost.Passes > 16 || h.cost.Threads > 16 || h.cost.Passes == 0 || h.cost.Threads == 0 {
			t.Errorf("%q costs %+v", s, h.cost)
		}
	})
}

package migrations

import (
	"crypto/sha256"
	"encoding/base64"
	"strings"
	"testing"
)

// The exchange printed in RFC 7677 section 3: user "user", password "pencil". From the keys follow the client's proof
// and the server's signature that the RFC shows.
func TestScramKeysGiveTheExchangeOfRFC7677(t *testing.T) {
	t.Parallel()
	salt, err := base64.StdEncoding.DecodeString("W22ZaJ0SNY7soEsUEjb6gQ==")
	if err != nil {
		t.Fatal(err)
	}
	stored, server, err := scramKeys("pencil", salt, 4096)
	if err != nil {
		t.Fatal(err)
	}
	message := "n=user,r=rOprNGfwEbeRWgbNEkqO," +
		"r=rOprNGfwEbeRWgbNEkqO%hvYDpWUa2RaTCAfuxFIlj)hNlF$k0,s=W22ZaJ0SNY7soEsUEjb6gQ==,i=4096," +
		"c=biws,r=rOprNGfwEbeRWgbNEkqO%hvYDpWUa2RaTCAfuxFIlj)hNlF$k0"
	if got := base64.StdEncoding.EncodeToString(mac(server, message)); got != "6rriTRBi23WpRR/wtup+mMhUZUn/dB5nLTJRsjl95G4=" {
		t.Errorf("server signature %s", got)
	}
	proof, err := base64.StdEncoding.DecodeString("dHzbZapWIk4jUhN+Ute9ytag9zjfMHgsqmmiz7AndVQ=")
	if err != nil {
		t.Fatal(err)
	}
	client := mac(stored, message) // the proof is the client key XOR this signature; the stored key is the client key's hash
	for i := range client {
		client[i] ^= proof[i]
	}
	if hash := sha256.Sum256(client); string(hash[:]) != string(stored) {
		t.Error("the RFC's proof does not lead back to the stored key")
	}
}

func TestServicePasswordDependsOnTheOwnersAlone(t *testing.T) {
	t.Parallel()
	if servicePassword("a") != servicePassword("a") || servicePassword("a") == servicePassword("b") {
		t.Error("equal owners' passwords must give equal ones, others must not")
	}
	if p := servicePassword("a"); len(p) != 43 || strings.ContainsAny(p, "+/= '") {
		t.Errorf("%q is not 32 bytes as base64url", p)
	}
}

// A password must not come out in an error that may be logged.
func TestAnUnreadableURLIsNotShown(t *testing.T) {
	t.Parallel()
	for _, bad := range []string{"postgres://o:s3cret@h:port/d", "postgres://o:s3cret%zz@h/d", "host=h password=s3cret port=x", ""} {
		if _, err := parse(bad); err == nil || strings.Contains(err.Error(), "s3cret") {
			t.Errorf("parse(%q): %v", bad, err)
		}
	}
}

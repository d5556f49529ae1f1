package assessment_test

import (
	"crypto/ecdsa"
	"crypto/ed25519"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/rsa"
	"crypto/x509"
	"encoding/base64"
	"encoding/hex"
	"strings"
	"testing"

	"wellshown/assessment"
)

// RFC 6979, appendix A.2.5: the key pair on P-256, and its signature with SHA-256 of
// the message "sample".
const (
	rfcX = "60FED4BA255A9D31C961EB74C6356D68C049B8923B61FA6CE669622E60F29FB6"
	rfcY = "7903FE1008B8BC99A41AE9E95628BC64F2F1B20C2D7E9F5177A3C294D4462299"
	rfcR = "EFD48B2AACB6A8FD1140DD9CD45E81D69D2C877B56AAF991C34D0EA84EAF3716"
	rfcS = "F7CB1C942D657C41D436C7A1B6E29F65F3E900DBB9AFF4064DC4AB2F843ACDA8"
)

// before is what stands before the point in a SubjectPublicKeyInfo on P-256 (RFC
// 5480, sections 2 and 2.1.1; the point uncompressed as in section 2.2).
const before = "3059301306072a8648ce3d020106082a8648ce3d030107034200" + "04"

func fromHex(t *testing.T, text string) []byte {
	t.Helper()
	b, err := hex.DecodeString(text)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func url(b []byte) string { return base64.RawURLEncoding.EncodeToString(b) }

func TestRFC6979SignatureOfSample(t *testing.T) {
	t.Parallel()
	key, err := assessment.ReadDeviceKey(url(fromHex(t, before+rfcX+rfcY)))
	if err != nil {
		t.Fatal(err)
	}
	good, err := assessment.ReadDeviceSignature(url(fromHex(t, rfcR+rfcS)))
	if err != nil || !key.Signed("sample", good) {
		t.Errorf("the signature of the RFC does not verify: %v", err)
	}
	if key.Signed("test", good) || key.Signed("sample ", good) || key.Signed("", good) {
		t.Error("it verifies for another message")
	}
	for i := range good {
		bad := append(assessment.DeviceSignature{}, good...)
		bad[i] ^= 1
		if key.Signed("sample", bad) {
			t.Errorf("it verifies with byte %d changed", i)
		}
	}
	order := "FFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551" // of the group (RFC 6979, A.2.5)
	none := strings.Repeat("00", 32)
	for _, bad := range []string{none + none, rfcR + none, none + rfcS, order + order, rfcS + rfcR, strings.Repeat("FF", 64)} {
		if key.Signed("sample", fromHex(t, bad)) {
			t.Errorf("%s verifies", bad)
		}
	}
	if key.Signed("sample", good[:63]) || assessment.DeviceKey(nil).Signed("sample", good) {
		t.Error("what is no signature, or no key, verifies")
	}
}

// Only an ECDSA key on P-256, written as RFC 5480 has it, is a device's.
func TestOtherKeysAreNoDevices(t *testing.T) {
	t.Parallel()
	good := fromHex(t, before+rfcX+rfcY)
	der := func(key any) []byte {
		b, err := x509.MarshalPKIXPublicKey(key)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	p384, err := ecdsa.GenerateKey(elliptic.P384(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	modulus, err := rsa.GenerateKey(rand.Reader, 2048)
	if err != nil {
		t.Fatal(err)
	}
	edwards, _, err := ed25519.GenerateKey(rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	compressed := fromHex(t, "3039301306072a8648ce3d020106082a8648ce3d030107032200"+"03"+rfcX)
	for what, sent := range map[string]string{
		"nothing": "", "no base64url": "!!", "a bit too many": url(good)[:len(url(good))-1] + "R", "cut short": url(good[:90]), "more after it": url(append(append([]byte{}, good...), 0)),
		"a point beside the curve": url(fromHex(t, before+rfcX+rfcX)), "the point at infinity": url(fromHex(t, "3019301306072a8648ce3d020106082a8648ce3d03010703020000")),
		"a compressed point": url(compressed), "P-384": url(der(&p384.PublicKey)), "RSA": url(der(&modulus.PublicKey)), "Ed25519": url(der(edwards)),
		"plain base64": base64.StdEncoding.EncodeToString(fromHex(t, before+rfcX+rfcY)[:60]) + "+/",
	} {
		if key, err := assessment.ReadDeviceKey(sent); err == nil {
			t.Errorf("%s is taken for a key: %x", what, key)
		}
	}
	if _, err := assessment.ReadDeviceKey(url(good) + "=="); err != nil {
		t.Errorf("the same with its padding: %v", err)
	}
	for _, bad := range []string{"", "!!", url(good), url(good[:63]), url(good[:65])} {
		if _, err := assessment.ReadDeviceSignature(bad); err == nil {
			t.Errorf("%q is taken for a signature", bad)
		}
	}
}

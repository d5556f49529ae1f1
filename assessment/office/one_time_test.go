package office

import (
	"encoding/base32"
	"strings"
	"testing"
	"time"
)

// RFC 6238, appendix B, the rows of SHA-1, from memory. They have eight digits; six
// are the same number modulo 10^6 (RFC 4226, section 5.3), so its last six.
var publishedCodes = []struct {
	at   int64
	code string
}{
	{59, "94287082"}, {1111111109, "07081804"}, {1111111111, "14050471"}, {1234567890, "89005924"}, {2000000000, "69279037"}, {20000000000, "65353130"},
}

var publishedSecret = []byte("12345678901234567890")

func TestCodesOfRFC6238(t *testing.T) {
	for _, v := range publishedCodes {
		at, want := time.Unix(v.at, 0), v.code[2:]
		step, ok, err := stepOf(publishedSecret, want, at, 0)
		if err != nil || !ok || step != v.at/30 {
			t.Errorf("%d: %s is of step %d, %v, %v", v.at, want, step, ok, err)
		}
		if got, err := codeAt(publishedSecret, v.at/30); err != nil || got != want {
			t.Errorf("%d: the code is %s, %v; published %s", v.at, got, err, want)
		}
	}
}

// RFC 6238, section 5.2: one step of delay is let pass, two are not, and no code
// twice.
func TestACodeIsGoodForItsStepAndOneMore(t *testing.T) {
	const step = 1111111109 / 30
	code := publishedCodes[1].code[2:]
	for off, good := range map[int64]bool{-2: false, -1: true, 0: true, 1: true, 2: false} {
		if _, ok, err := stepOf(publishedSecret, code, time.Unix((step+off)*30, 0), 0); err != nil || ok != good {
			t.Errorf("%d steps on: %v, %v", off, ok, err)
		}
	}
	if _, ok, _ := stepOf(publishedSecret, code, time.Unix(step*30, 0), step); ok {
		t.Error("a code is accepted again")
	}
	for _, wrong := range []string{"", "000000", code[1:], code + "0", strings.Repeat("9", 400)} {
		if _, ok, err := stepOf(publishedSecret, wrong, time.Unix(step*30, 0), 0); ok || err != nil {
			t.Errorf("%q: %v, %v", wrong, ok, err)
		}
	}
}

func TestTheAddressInTheSquare(t *testing.T) {
	got := codeAddress(publishedSecret, "Wren: Hollow", "ada@ward.example")
	want := "otpauth://totp/Wellshown%20Wren%20%20Hollow:ada@ward.example?secret=" + base32.StdEncoding.EncodeToString(publishedSecret) +
		"&issuer=Wellshown%20Wren%20%20Hollow&algorithm=SHA1&digits=6&period=30"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

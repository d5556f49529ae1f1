package assessment_test

import (
	"math/big"
	"regexp"
	"strings"
	"testing"

	"wellshown/assessment"
)

func TestNumbersAreRead(t *testing.T) {
	for text, want := range map[string]string{
		"14.9": "149/10", "-13.3": "-133/10", "1/2": "1/2", "95/100": "19/20", "0": "0", "-0": "0", "007": "7", "0.50": "1/2",
		"999999999999": "999999999999", "0.000000000001": "1/1000000000000", "-1/3": "-1/3",
		// a leading zero is no other base (common practice, no source)
		"010": "10", "010/3": "10/3", "1/010": "1/10", "09/08": "9/8", "00.10": "1/10",
	} {
		if n, err := assessment.ParseNumber(text); err != nil || n.Fraction() != want {
			t.Errorf("%q is %s (%v), not %s", text, n.Fraction(), err, want)
		}
	}
	for _, bad := range []string{"", " 1", "1 ", "+1", ".5", "5.", "1,5", "1e3", "1/0", "1/00", "1/-2", "0x10", "1/2/3", "1.5/2", "--1", "1_000",
		"1234567890123", "0.1234567890123", "1/1234567890123", "Inf", "NaN", "½", "１", "1\n"} {
		if n, err := assessment.ParseNumber(bad); err == nil {
			t.Errorf("%q was read as %s", bad, n)
		}
	}
}

func TestNumbersAreShown(t *testing.T) {
	for text, want := range map[string]string{"1/2": "0.5", "1/3": "1/3", "10/4": "2.5", "3": "3", "-7/8": "-0.875", "1/8192": "1/8192"} {
		if got := assessment.MustNumber(text).String(); got != want {
			t.Errorf("%s shows as %s, not %s", text, got, want)
		}
	}
	// cut, never rounded up to a mark that was missed
	for text, want := range map[string]string{"191/200": "95.5", "9496/10000": "94.9", "17/19": "89.4", "1": "100", "0": "0", "18/20": "90", "94999999999/100000000000": "94.9"} {
		if got := assessment.MustNumber(text).Percent(); got != want {
			t.Errorf("%s shows as %s %%, not %s %%", text, got, want)
		}
	}
}

func TestNumbersAdd(t *testing.T) {
	third, half := assessment.MustNumber("1/3"), assessment.MustNumber("1/2")
	for name, c := range map[string][2]string{
		"plus": {third.Plus(half).Fraction(), "5/6"}, "minus": {third.Minus(half).Fraction(), "-1/6"}, "times": {third.Times(half).Fraction(), "1/6"},
		"over": {third.Over(half).Fraction(), "2/3"}, "abs": {third.Minus(half).Abs().Fraction(), "1/6"}, "zero": {assessment.Number{}.Plus(half).Fraction(), "1/2"},
		"untouched": {third.Fraction(), "1/3"},
	} {
		if c[0] != c[1] {
			t.Errorf("%s is %s, not %s", name, c[0], c[1])
		}
	}
	if third.Cmp(half) != -1 || half.Cmp(third) != 1 || half.Cmp(half) != 0 || (assessment.Number{}).Sign() != 0 || assessment.Whole(-3).Sign() != -1 {
		t.Error("order or sign is wrong")
	}
}

var leadingZeros = regexp.MustCompile(`(^-?|/)0+([0-9])`)

// FuzzParseNumber: what is read is the exact value that math/big reads once leading
// zeros are gone, which it takes for base 8 in fractions; it shows as text that is
// read back as the same, and nothing panics.
func FuzzParseNumber(f *testing.F) {
	for _, s := range []string{"14.9", "-13.3", "1/2", "1/0", "999999999999.999999999999", "1/999999999999", "", "00/01", "010/3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, err := assessment.ParseNumber(s)
		if err != nil {
			return
		}
		want, ok := new(big.Rat).SetString(leadingZeros.ReplaceAllString(s, "$1$2"))
		if !ok || want.RatString() != n.Fraction() {
			t.Errorf("%q was read as %s", s, n.Fraction())
		}
		if back, err := assessment.ParseNumber(n.String()); err != nil || back.Cmp(n) != 0 {
			t.Errorf("%q shows as %s, which is read back as %s (%v)", s, n, back, err)
		}
		if strings.HasPrefix(n.Abs().String(), "-") || n.Percent() == "" {
			t.Errorf("%q has the size %s", s, n.Abs())
		}
	})
}

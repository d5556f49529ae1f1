package office

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
)

// Every single wrong letter and every swap of neighbours is caught, in codes as the
// office makes them.
func TestCheckCodesCatchSlips(t *testing.T) {
	t.Parallel()
	for i, code := range codes(t, 200) {
		if got, err := ReadCode(code); got != code || err != nil {
			t.Fatalf("%s is read as %s: %v", code, got, err)
		}
		for at := range code {
			for _, c := range "0123456789ABCDEFGHJKMNPQRSTVWXYZ" {
				wrong := code[:at] + string(c) + code[at+1:]
				if _, err := ReadCode(wrong); wrong != code && err == nil {
					t.Errorf("%d: %s passes for %s", i, wrong, code)
				}
			}
			if at == 0 {
				continue
			}
			swapped := code[:at-1] + code[at:at+1] + code[at-1:at] + code[at+1:]
			if _, err := ReadCode(swapped); swapped != code && err == nil {
				t.Errorf("%d: the swap %s passes for %s", i, swapped, code)
			}
		}
	}
}

func codes(t *testing.T, n int) []string {
	t.Helper()
	o := New(nil, Options{})
	all := make([]string, n)
	for i := range all {
		var err error
		if all[i], err = o.checkCode(); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func TestCheckCodesAreReadAsTyped(t *testing.T) {
	t.Parallel()
	code := codes(t, 1)[0]
	shown := ShowCode(code)
	if !regexp.MustCompile(`^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$`).MatchString(shown) {
		t.Errorf("shown as %s", shown)
	}
	for _, typed := range []string{shown, strings.ToLower(shown), " " + strings.ReplaceAll(shown, "-", " ") + " ",
		strings.NewReplacer("0", "O", "1", "l").Replace(code), strings.NewReplacer("0", "o", "1", "I").Replace(code)} {
		if got, err := ReadCode(typed); err != nil || got != code {
			t.Errorf("%q: got %s, %v", typed, got, err)
		}
	}
	for _, bad := range []string{"", code[:11], code + "0", "UUUU-UUUU-UUUU", "000000000001", strings.Repeat("é", 6), code[:11] + "\x00"} {
		_, err := ReadCode(bad)
		if fault.KindOf(err) != fault.Invalid {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

// What is wrong is told apart, so that people look for the right thing.
func TestCheckCodesSayWhatIsWrong(t *testing.T) {
	t.Parallel()
	if code, err := ReadCode(exampleCode); err != nil || ShowCode(code) != exampleCode {
		t.Errorf("the example is read as %q, %v", code, err)
	}
	for typed, says := range map[string]string{
		"":                "has 0 letters and digits",
		exampleCode[:9]:   "has 8 letters and digits",
		exampleCode + "X": "has 13 letters and digits",
		"4H7K-9QXM-2TBU":  "a sign that none has",
		"éééé-éééé-éééé":  "a sign that none has",
		"4H7K-9QXM-2TBD":  "mistyped",
		"H47K-9QXM-2TBT":  "mistyped",
	} {
		if _, err := ReadCode(typed); fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v; want it to say %q", typed, err, says)
		}
	}
}

// RFC 9562, section 5.7: 48 bits of Unix milliseconds, version 7, variant 10, and
// what is made later sorts later. The instant and its first twelve digits are those
// of the example in its appendix A.6.
func TestIDsAreOfVersionSeven(t *testing.T) {
	t.Parallel()
	o := New(nil, Options{})
	at := time.Date(2022, 2, 22, 19, 22, 22, 0, time.UTC)
	form := regexp.MustCompile(`^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`)
	last := ""
	for range 1000 { // section 6.2, method 2: of one millisecond too
		id, err := newID[string](o, at)
		if err != nil || !form.MatchString(id) || id <= last {
			t.Fatalf("%s after %s: %v", id, last, err)
		}
		last = id
	}
	var ids []string
	for i := range 300 {
		id, err := newID[string](o, at.Add(time.Duration(i*i)*time.Millisecond+time.Duration(i)*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		ids = append(ids, id)
	}
	if !slices.IsSorted(ids) {
		t.Error("ids of later instants do not sort later")
	}
	ones := New(nil, Options{Random: ever(0xff)})
	if id, _ := newID[string](ones, at); id != "017f22e2-79b0-7fff-bfff-ffffffffffff" {
		t.Errorf("of nothing but ones: %s", id)
	}
	if _, err := newID[string](New(nil, Options{Random: strings.NewReader("short")}), at); err == nil {
		t.Error("an id was made without randomness")
	}
}

// ever is a source of one byte over and over.
type ever byte

func (e ever) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = byte(e)
	}
	return len(b), nil
}

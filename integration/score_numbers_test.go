package integration

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"unicode"

	"wellshown/api"
	"wellshown/assessment"
)

// numberTask asks the devices' program for a number, a unit or all that says something.
type numberTask struct {
	Number   *string      `json:"number,omitempty"`
	Quantity *api.Reading `json:"quantity,omitempty"`
	Into     string       `json:"into,omitempty"`
	Saying   bool         `json:"saying,omitempty"`
}

type numberAnswer struct {
	Text, Fraction, Percent string
	Saying                  [][2]rune
	Refused, Broken         string
}

// TestADeviceReadsNumbersAsTheOffice: the same texts are numbers, and they are
// written alike.
func TestADeviceReadsNumbersAsTheOffice(t *testing.T) {
	texts := []string{"14.9", "-13.3", "1/2", "95/100", "0", "-0", "-0.0", "007", "010/3", "09/08", "0.50", "999999999999.999999999999", "1/999999999999", "1/4096", "1/8192", "-7/8", "9496/10000",
		"", " 1", "1 ", "+1", ".5", "5.", "1,5", "1e3", "1/0", "1/00", "1/-2", "0x10", "1/2/3", "1.5/2", "--1", "1_000", "1234567890123", "0.1234567890123", "1/1234567890123", "-1234567890123/1", "Inf", "NaN", "½", "１", "1\n", "\n1"}
	g := rand.New(rand.NewPCG(12, 2026))
	for range 2000 {
		texts = append(texts, fmt.Sprintf("%d.%0*d", g.IntN(2000)-1000, 1+g.IntN(12), g.IntN(9)), fmt.Sprintf("%d/%d", g.IntN(2000)-1000, g.IntN(5000)))
	}
	var tasks []numberTask
	for _, text := range texts {
		tasks = append(tasks, numberTask{Number: &text})
	}
	refused := 0
	for i, device := range askDevice[numberAnswer](t, tasks) {
		n, err := assessment.ParseNumber(texts[i])
		if device.Broken != "" || (device.Refused != "") != (err != nil) {
			t.Errorf("%q: the device refuses with %q%s, the core with %v", texts[i], device.Refused, device.Broken, err)
		}
		if err != nil {
			refused++
		} else if device.Text != n.String() || device.Fraction != n.Fraction() || device.Percent != n.Percent() {
			t.Errorf("%q is %s, %s and %s %%; the core says %s, %s and %s %%", texts[i], device.Text, device.Fraction, device.Percent, n, n.Fraction(), n.Percent())
		}
	}
	t.Logf("%d texts, %d of them no numbers", len(texts), refused)
}

// TestADeviceKnowsTheUnits: the pressures are those of NIST SP 811 appendix B.8, and
// every unit is the same of every other as in the core.
func TestADeviceKnowsTheUnits(t *testing.T) {
	type known struct{ value, from, into, fraction string }
	all := []known{
		{"1", "mmHg", "Pa", "133.322387415"}, {"1", "cmH2O", "Pa", "98.0665"}, {"1", "kPa", "Pa", "1000"},
		{"1", "min", "s", "60"}, {"1", "cm", "mm", "10"}, {"1", "L", "mL", "1000"}, {"1", "L/min", "mL/min", "1000"},
	}
	for i := range all {
		all[i].fraction = assessment.MustNumber(all[i].fraction).Fraction()
	}
	units := append(assessment.Units(), "", "degC", "1/min", "constructor")
	for _, from := range units {
		for _, into := range units {
			k := known{value: "-7/3", from: from, into: into}
			if q, err := (assessment.Quantity{Value: assessment.MustNumber(k.value), Unit: from}).Convert(into); err == nil {
				k.fraction = q.Value.Fraction()
			}
			if into != "" {
				all = append(all, k)
			}
		}
	}
	var tasks []numberTask
	for _, k := range all {
		tasks = append(tasks, numberTask{Quantity: &api.Reading{Value: k.value, Unit: k.from}, Into: k.into})
	}
	for i, device := range askDevice[numberAnswer](t, tasks) {
		if k := all[i]; device.Broken != "" || device.Fraction != k.fraction || (device.Refused != "") != (k.fraction == "") {
			t.Errorf("%s %s is %q %s on the device, not %q (%s%s)", k.value, k.from, device.Fraction, k.into, k.fraction, device.Refused, device.Broken)
		}
	}
	t.Logf("%d conversions", len(all))
}

// TestADeviceKnowsWhatSaysSomething: for every character that the core's edition of
// Unicode has; what a newer one adds may say something on a device, and the office
// refuses it then.
func TestADeviceKnowsWhatSaysSomething(t *testing.T) {
	says := map[rune]bool{}
	for _, run := range askDevice[numberAnswer](t, []numberTask{{Saying: true}})[0].Saying {
		for c := run[0]; c <= run[1]; c++ {
			says[c] = true
		}
	}
	for c := rune(0); c <= unicode.MaxRune; c++ {
		core := assessment.Says(string(c))
		if core == says[c] || says[c] && unicode.Is(unicode.Cn, c) {
			continue
		}
		t.Errorf("%U says something: %t on the device, %t in the core", c, says[c], core)
	}
	if len(says) < 100000 {
		t.Errorf("only %d characters say something", len(says))
	}
	t.Logf("%d characters say something on the device", len(says))
}

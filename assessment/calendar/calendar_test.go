package calendar_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"wellshown/assessment/calendar"
	"wellshown/assessment/civil"
)

// seen is an event as a reader sees it.
type seen struct {
	UID, Summary, From, Until, Stamp string
	Sequence                         int
}

// readers are two programs that are not ours.
var readers = map[string]struct{ lacks, program, file string }{
	"python3-icalendar": {"import icalendar", "/usr/bin/python3", "read.py"},
	"ical.js":           {"", "node", "read.mjs"},
}

func read(t *testing.T, name string, body []byte) []seen {
	t.Helper()
	r := readers[name]
	if _, err := os.Stat("../../node_modules/ical.js"); r.lacks == "" && err != nil || r.lacks != "" && exec.Command(r.program, "-c", r.lacks).Run() != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("there is no %s: run make setup and npm ci", name)
		}
		t.Skipf("there is no %s: run make setup and npm ci", name)
	}
	c := exec.Command(r.program, r.file)
	c.Stdin = bytes.NewReader(body)
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, err.(*exec.ExitError).Stderr)
	}
	var events []seen
	if err := json.Unmarshal(out, &events); err != nil {
		t.Fatalf("%s: %v: %s", name, err, out)
	}
	return events
}

// sample has texts that a careless writer breaks: long ones in several alphabets, and what
// iCalendar marks with a backslash (RFC 5545, section 3.3.11).
func sample() calendar.Calendar {
	zone, err := time.LoadLocation("America/Denver")
	if err != nil {
		panic(err) // it is in Go's own copy
	}
	day := civil.MustParse("2026-03-07")
	c := calendar.Calendar{Name: "Wellshown, Wren Hollow", Day: day, Stamp: day.In(zone)}
	for i, s := range []string{
		"Last day: Tracheostomy suctioning, 7K",
		"Último día: Aspiración de la traqueostomía; cambio de cánula, comprobación y señales de alarma — niñas y niños, 7K",
		"Ostatni dzień: odsysanie tchawicy, żółć, źdźbło, pchnąć w tę łódź jeża lub ośm skrzyń fig; zażółć gęślą jaźń jeszcze raz",
		"Ngày cuối: hút đờm qua ống mở khí quản; kiểm tra máy thở, bộ dây và bóng bóp trước khi đi — trẻ em tại nhà, 7K",
		"最終日：気管切開の吸引と回路の交換、警報への対応、予備の人工呼吸器の確認、そして外出の準備をひとつずつ確かめること",
		`Back\slash, semi;colon and "quotes"`,
	} {
		c.Events = append(c.Events, calendar.Event{UID: string(rune('a'+i)) + "@wellshown.example", On: day.AddDays(i), Summary: s})
	}
	// The night on which clocks go forward in Denver is an hour shorter.
	c.Events = append(c.Events, calendar.Event{UID: "night@wellshown.example", Starts: day.At(19*60, zone), Ends: day.AddDays(1).At(7*60, zone), Summary: "Shift: 7K"},
		calendar.Event{UID: "days@wellshown.example", On: day, Through: day.AddDays(2), Summary: "Three days"})
	return c
}

// What is written is read back by two programs that are not ours, to the letter; days stay
// days, and a night across a change of clocks has the length it has.
func TestOthersReadWhatIsWritten(t *testing.T) {
	t.Parallel()
	c := sample()
	for name := range readers {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			events := read(t, name, c.Write())
			if len(events) != len(c.Events) {
				t.Fatalf("%d events; want %d", len(events), len(c.Events))
			}
			for i, e := range events {
				want := c.Events[i]
				from, until := want.On.String(), civil.Later(want.Through, want.On).AddDays(1).String()
				if !want.Starts.IsZero() {
					from, until = want.Starts.UTC().Format("2006-01-02T15:04:05+00:00"), want.Ends.UTC().Format("2006-01-02T15:04:05+00:00")
				}
				if e.UID != want.UID || e.Summary != want.Summary || e.From != from || e.Until != until || e.Sequence != 65 || e.Stamp != "2026-03-07T07:00:00+00:00" {
					t.Errorf("read %+v; want %+v from %s until %s", e, want, from, until)
				}
			}
		})
	}
	if night := c.Events[len(c.Events)-2]; night.Ends.Sub(night.Starts) != 11*time.Hour {
		t.Errorf("the night has %s", night.Ends.Sub(night.Starts))
	}
}

// Lines end in CR LF, have 75 octets at most and are not cut within a character (RFC 5545,
// section 3.1); what is asked for is there, and the same day writes the same bytes.
func TestLinesAreFoldedBetweenCharacters(t *testing.T) {
	t.Parallel()
	body := sample().Write()
	lines := strings.Split(string(body), "\r\n")
	for _, l := range lines {
		if len(l) > 75 || !utf8.ValidString(l) || strings.ContainsAny(l, "\r\n") {
			t.Errorf("%d octets, valid %t: %q", len(l), utf8.ValidString(l), l)
		}
	}
	for _, want := range []string{"BEGIN:VCALENDAR", "VERSION:2.0", "METHOD:PUBLISH", "DTSTART;VALUE=DATE:20260307", "DTEND;VALUE=DATE:20260308", "CLASS:PRIVATE", "TRANSP:TRANSPARENT", "DTSTART:20260308T020000Z"} {
		if !strings.Contains(string(body), want+"\r\n") {
			t.Errorf("no line %s in\n%s", want, body)
		}
	}
	if again := sample().Write(); !bytes.Equal(body, again) {
		t.Error("the same calendar is written otherwise the second time")
	}
}

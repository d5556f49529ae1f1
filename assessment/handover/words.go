package handover

import (
	"slices"
	"time"
)

const competent = "competent"

// The words that such files have. Whoever has a key of their own can sign any other, and a
// house would say it after them; so a file in other words is told as such and not read out.
var (
	hows     = []string{WasHeld, HadLapsed, WasWithdrawn, WasWaived, WasLearning}
	outcomes = []string{competent, "not yet competent", "stopped for safety"}
	settings = []string{WithTheChild, InSimulation}
	untils   = []string{"redemonstrated", "reinstated"}
)

// words are the parts that are not in the words of such files.
func (b Body) words() []Finding {
	var findings []Finding
	if !isDay(b.About.Day) || !isInstant(b.About.MadeAt) {
		findings = append(findings, Finding{Part: AboutUnknown})
	}
	if slices.ContainsFunc(b.Held, func(h Held) bool { return !h.inWords() }) {
		findings = append(findings, Finding{Part: HeldUnknown})
	}
	seen := map[Row]bool{}
	for i, e := range b.Entries {
		row := Row{e.Kind, e.ID}
		if !e.inWords() || seen[row] {
			findings = append(findings, Finding{Part: EntryUnknown, Place: i + 1})
		}
		seen[row] = true
	}
	return findings
}

func (h Held) inWords() bool {
	return slices.Contains(hows, h.How) && noneOr(h.Since, isDay) && noneOr(h.Through, isDay) && h.Child >= 0
}

func (e Entry) inWords() bool {
	if e.ID == "" || !isDay(e.On) || !isInstant(e.Written) || e.Child < 0 || e.Taken != nil && !isDay(e.Taken.On) {
		return false
	}
	ends := e.Through != "" || e.Until != "" || e.Of != ""
	if e.Kind == Demonstration {
		return slices.Contains(outcomes, e.Outcome) && slices.Contains(settings, e.Setting) && !ends
	}
	if e.Outcome != "" || e.Score != "" || e.Setting != "" || e.Formal || e.Checklist != nil || e.Text != "" || len(e.Signed) > 0 {
		return false
	}
	switch e.Kind {
	case Withdrawal:
		return slices.Contains(untils, e.Until) && e.Through == "" && e.Of == ""
	case Reinstatement:
		return e.Of != "" && e.Through == "" && e.Until == ""
	case Waiver:
		return isDay(e.Through) && e.Until == "" && e.Of == ""
	}
	return false
}

func noneOr(text string, is func(string) bool) bool { return text == "" || is(text) }

func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}

func isInstant(text string) bool {
	_, err := time.Parse(time.RFC3339Nano, text)
	return err == nil
}

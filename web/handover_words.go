package web

import (
	"strconv"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/handover"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// fileDay says a day of a file; what is no day stands as it is.
func fileDay(w wording.Words, day string) string {
	d, err := civil.Parse(day)
	if err != nil {
		return day
	}
	return w.ShortDay(d)
}

func fileInstant(w wording.Words, a handover.About) string {
	at, err := time.Parse(time.RFC3339Nano, a.MadeAt)
	zone, bad := time.LoadLocation(a.Zone)
	if err != nil || bad != nil {
		return a.MadeAt
	}
	return w.Instant(at, zone)
}

func handoverHeld(w wording.Words, h handover.Held) HandoverLine {
	line := HandoverLine{Title: h.Title, Says: howWords(w, h.How)}
	if h.Child != 0 {
		line.By = w.Say("for one child (number %d in this file)", h.Child)
	}
	switch {
	case h.Since != "" && h.Through != "":
		line.Says = w.Say("%s, since %s; it was to end after %s", line.Says, fileDay(w, h.Since), fileDay(w, h.Through))
	case h.Since != "":
		line.Says = w.Say("%s, since %s", line.Says, fileDay(w, h.Since))
	}
	return line
}

func howWords(w wording.Words, how string) string {
	switch how {
	case handover.WasHeld:
		return w.Say("was held")
	case handover.HadLapsed:
		return w.Say("had lapsed")
	case handover.WasWithdrawn:
		return w.Say("was withdrawn")
	case handover.WasWaived:
		return w.Say("was waived")
	case handover.WasLearning:
		return w.Say("was being learnt")
	}
	return how
}

func handoverEntry(w wording.Words, number int, e handover.Entry) HandoverLine {
	line := HandoverLine{Number: number, Title: e.Title, Says: entryWords(w, e)}
	if e.Child != 0 {
		line.Says += " · " + w.Say("for one child (number %d in this file)", e.Child)
	}
	by := e.By.Name
	if e.By.Licence != "" {
		by += ", " + e.By.Licence
	}
	line.By = w.Say("by %s", by)
	if e.Kind == handover.Demonstration {
		line.By = w.Say("observed by %s", by)
	}
	if e.Kind == handover.Demonstration {
		line.Signed = halfSigned(w, e)
	}
	if e.Taken != nil {
		line.Taken = w.Say("taken back on %s: it did not count any more", fileDay(w, e.Taken.On))
	}
	return line
}

// halfSigned says what came of a demonstration without both signatures.
func halfSigned(w wording.Words, e handover.Entry) []string {
	switch {
	case e.SignedByBoth():
		return nil
	case e.CountsAlone():
		return []string{w.Say("signed by the observer alone, which is enough for what was not competent: it counted")}
	}
	return []string{w.Say("not signed by both: it did not count")}
}

func entryWords(w wording.Words, e handover.Entry) string {
	day := fileDay(w, e.On)
	switch e.Kind {
	case handover.Withdrawal:
		return w.Say("withdrawn on %s", day)
	case handover.Reinstatement:
		return w.Say("withdrawal lifted on %s", day)
	case handover.Waiver:
		return w.Say("waived from %s through %s, without being shown", day, fileDay(w, e.Through))
	}
	outcome := w.Of(assessment.Outcome(e.Outcome).Phrase())
	if e.Setting == handover.WithTheChild {
		outcome = w.Say("%s, with the child", outcome)
	} else {
		outcome = w.Say("%s, in simulation", outcome)
	}
	if !e.Formal {
		return w.Say("practised on %s, which did not count: %s", day, outcome)
	}
	said := w.Say("shown on %s: %s", day, outcome)
	if e.Checklist != nil {
		said += " · " + w.Say("checklist revision %s", strconv.Itoa(e.Checklist.Revision))
	}
	return said
}

func sinceWords(w wording.Words, s office.EntrySince) string {
	switch {
	case !s.There:
		return w.Say("The ledger here does not have it as the file says.")
	case !s.TakenOn.IsZero():
		return w.Say("Taken back since, on %s.", w.ShortDay(s.TakenOn))
	}
	return w.Say("It stands in the ledger here, and was not taken back.")
}

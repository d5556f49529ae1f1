package web

import (
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// history is what happened to somebody by a day, newest first. What was taken
// back says so and stays.
func history(w wording.Words, d office.PersonDesk, zone *time.Location) []Event {
	type dated struct {
		at time.Time
		Event
	}
	var all []dated
	for _, r := range d.Records {
		all = append(all, dated{r.PerformedAt, recordEvent(w, r, zone)})
	}
	for _, h := range d.Happenings {
		all = append(all, dated{h.At, happening(w, h, zone)})
	}
	slices.SortStableFunc(all, func(a, b dated) int { return b.at.Compare(a.at) })
	var events []Event
	for _, e := range all {
		events = append(events, e.Event)
	}
	return events
}

func recordEvent(w wording.Words, r postgres.Demonstration, zone *time.Location) Event {
	what := w.Say("Return demonstration of %s: %s", r.Title, r.Outcome)
	if !r.Formal {
		what = w.Say("Practice, observed, of %s: %s", r.Title, r.Outcome)
	}
	detail := phrase.Of("seen by %s", r.Observer)
	if r.Client != "" {
		detail = phrase.Of("%s, %s", detail, phrase.Of("for %s", r.Client))
	}
	if r.CorrectedAt != nil {
		back := phrase.Of("Taken back on %s by %s: %s", w.Instant(*r.CorrectedAt, zone), r.CorrectedBy, phrase.Typed(r.Correction))
		detail = phrase.Of("%s. %s", detail, back)
	}
	return Event{Day: w.ShortDay(civil.DayOf(r.PerformedAt, zone)), What: what, Detail: w.Pieces(detail), Href: "/demonstrations/" + string(r.ID)}
}

// signed are the kinds that somebody signs; all else is written down.
var signed = map[assessment.EntryKind]bool{assessment.WithdrawalEntry: true, assessment.ReinstatementEntry: true, assessment.WaiverEntry: true}

func happening(w wording.Words, h office.HappeningView, zone *time.Location) Event {
	e, detail := Event{Day: w.ShortDay(h.On), What: happened(w, h)}, phrase.Of("by %s", h.By)
	if signed[h.Kind] {
		detail = phrase.Of("signed by %s on %s", h.By, w.Instant(h.Signed, zone))
	}
	if h.Reason != "" {
		detail = phrase.Of("%s: %s", detail, phrase.Typed(strings.TrimSpace(h.Reason)))
	}
	if h.Incident != "" {
		e.Href = incidentsAt + "/" + h.Incident
	}
	if h.TakenBack != nil {
		detail = phrase.Of("%s. %s", detail, phrase.Of("Taken back on %s: %s", w.Instant(*h.TakenBack, zone), phrase.Typed(h.Correction)))
	}
	e.Detail = w.Pieces(detail)
	return e
}

func happened(w wording.Words, h office.HappeningView) string {
	title := h.Title
	if h.Client.ID != "" {
		title = w.Say("%s for %s", title, clientName(h.Client))
	}
	switch h.Kind {
	case assessment.WithdrawalEntry:
		if h.Until == assessment.Reinstated {
			return w.Say("%s: withdrawn until reinstated", title)
		}
		return w.Say("%s: withdrawn until shown again", title)
	case assessment.ReinstatementEntry:
		return w.Say("%s: reinstated", title)
	case assessment.WaiverEntry:
		return w.Say("%s: waived from %s through %s", title, w.ShortDay(h.FromOn), w.ShortDay(h.ThroughOn))
	case assessment.TeachingEntry:
		if onAnother(h) {
			return w.Say("%s: taught on %s", title, w.ShortDay(h.FromOn))
		}
		return w.Say("%s: taught", title)
	}
	if onAnother(h) {
		return w.Say("%s: practised at work on %s", title, w.ShortDay(h.FromOn))
	}
	return w.Say("%s: practised at work", title)
}

// onAnother tells whether teaching or practice was written down on another day than
// its own.
func onAnother(h office.HappeningView) bool {
	return !h.FromOn.IsZero() && civil.DayOf(h.At, time.UTC) != h.FromOn && h.On != h.FromOn
}

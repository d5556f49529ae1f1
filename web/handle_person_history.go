package web

import (
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// history is what happened to somebody by a day, newest first. What was taken
// back says so and stays.
func history(d office.PersonDesk, zone *time.Location) []Event {
	type dated struct {
		at time.Time
		Event
	}
	var all []dated
	for _, r := range d.Records {
		all = append(all, dated{r.PerformedAt, recordEvent(r, zone)})
	}
	for _, h := range d.Happenings {
		all = append(all, dated{h.At, happening(h, zone)})
	}
	slices.SortStableFunc(all, func(a, b dated) int { return b.at.Compare(a.at) })
	var events []Event
	for _, e := range all {
		events = append(events, e.Event)
	}
	return events
}

func recordEvent(r postgres.Demonstration, zone *time.Location) Event {
	what := "Return demonstration of "
	if !r.Formal {
		what = "Practice, observed, of "
	}
	detail := "seen by " + r.Observer
	if r.Client != "" {
		detail += ", for " + r.Client
	}
	if r.CorrectedAt != nil {
		detail += ". Taken back on " + instant(*r.CorrectedAt, zone) + " by " + r.CorrectedBy + ": " + r.Correction
	}
	return Event{Day: dayIn(&r.PerformedAt, zone), What: what + r.Title + ": " + string(r.Outcome), Detail: detail, Href: "/demonstrations/" + string(r.ID)}
}

// signed are the kinds that somebody signs; all else is written down.
var signed = map[assessment.EntryKind]bool{assessment.WithdrawalEntry: true, assessment.ReinstatementEntry: true, assessment.WaiverEntry: true}

func happening(h office.HappeningView, zone *time.Location) Event {
	e := Event{Day: day(h.On), Detail: "by " + h.By}
	if signed[h.Kind] {
		e.Detail = "signed by " + h.By + " on " + instant(h.Signed, zone)
	}
	title := h.Title
	if h.Client.ID != "" {
		title += " for " + clientName(h.Client)
	}
	switch h.Kind {
	case assessment.WithdrawalEntry:
		e.What = title + ": withdrawn until shown again"
		if h.Until == assessment.Reinstated {
			e.What = title + ": withdrawn until reinstated"
		}
	case assessment.ReinstatementEntry:
		e.What = title + ": reinstated"
	case assessment.WaiverEntry:
		e.What = title + ": waived from " + day(h.FromOn) + " through " + day(h.ThroughOn)
	case assessment.TeachingEntry:
		e.What = title + ": taught" + onAnother(h)
	default:
		e.What = title + ": practised at work" + onAnother(h)
	}
	if h.Reason != "" {
		e.Detail += ": " + strings.TrimSpace(h.Reason)
	}
	if h.Incident != "" {
		e.Href = incidentsAt + "/" + h.Incident
	}
	if h.TakenBack != nil {
		e.Detail += ". Taken back on " + instant(*h.TakenBack, zone) + ": " + h.Correction
	}
	return e
}

// onAnother names the day of teaching or practice where it was written down on
// another one.
func onAnother(h office.HappeningView) string {
	if h.FromOn.IsZero() || civil.DayOf(h.At, time.UTC) == h.FromOn || h.On == h.FromOn {
		return ""
	}
	return " on " + day(h.FromOn)
}

package assessment

import (
	"strings"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// Supervision of home health aides, 42 CFR 484.80(h), as an agency may use it for its aides. A
// patient who also gets skilled care: at least every 14 days, and each aide who serves such
// patients is watched giving care on site at least once a year (from memory); of the 14-day
// assessments one in each 60-day episode of the patient may be by two-way audio-video where
// circumstances that are written down leave no other way. A patient without skilled care: on
// site by a registered nurse at least every 60 days (from memory), and the aide is watched with
// each such patient every 6 months. These dates make nobody current, and what is overdue takes
// no standing away.

// How often.
const (
	SkilledCareDays    = 14
	NoSkilledCareDays  = 60
	SkilledMonths      = 12 // between days on which the aide is watched with a patient who gets skilled care
	NoSkilledMonths    = 6  // with each patient who does not
	EpisodeDays        = 60
	videoInEachEpisode = 1
)

// SupervisionHow is how an assessment was made.
type SupervisionHow string

// The two ways.
const (
	OnSite     SupervisionHow = "on site"
	AudioVideo SupervisionHow = "audio-video"
)

// SupervisionHows lists the ways.
var SupervisionHows = []SupervisionHow{OnSite, AudioVideo}

// SupervisoryVisit is one assessment of an aide's services with a patient.
type SupervisoryVisit struct {
	Client  ClientID
	Aide    PersonID
	On      civil.Date
	How     SupervisionHow
	Watched bool   // the aide was watched giving care
	Why     string // the circumstances, where it was by audio-video
}

// SkilledCare says from a day on whether a patient gets skilled care, and from which day
// their 60-day episodes are counted; zero: it is not known.
type SkilledCare struct {
	From     civil.Date
	Skilled  bool
	Episodes civil.Date
}

// CareOn is what is known of a day, from settings in order of their first day. It answers
// false where nothing is: then the shorter times are taken.
func CareOn(settings []SkilledCare, on civil.Date) (SkilledCare, bool) {
	now, known := SkilledCare{Skilled: true}, false
	for _, s := range settings {
		if !s.From.After(on) {
			now, known = s, true
		}
	}
	return now, known
}

// SuperviseBy is the last day on which the next assessment is on time: so many days after the
// last one, or after the aide began with the patient. Where skilled care began since, it is no
// later than 14 days after that, and no later than it was before.
func SuperviseBy(last civil.Date, settings []SkilledCare, on civil.Date) civil.Date {
	care, known := CareOn(settings, on)
	if !care.Skilled {
		return last.AddDays(NoSkilledCareDays)
	}
	if known && care.From.After(last) {
		if before, _ := CareOn(settings, care.From.AddDays(-1)); !before.Skilled {
			return civil.Earlier(last.AddDays(NoSkilledCareDays), care.From.AddDays(SkilledCareDays))
		}
	}
	return last.AddDays(SkilledCareDays)
}

// WatchBy is the last day on which the aide is watched in time, after the last time or after
// they began: a year with patients who get skilled care, half a year with each who does not.
func WatchBy(last civil.Date, skilled bool) civil.Date {
	if skilled {
		return last.AddMonths(SkilledMonths)
	}
	return last.AddMonths(NoSkilledMonths)
}

// MayBeVideo refuses an assessment by audio-video: of a patient without skilled care, without
// its circumstances, and a second one of the same patient in one 60-day episode. Where it is
// not known from which day episodes are counted, any two that could lie in one do.
func MayBeVideo(v SupervisoryVisit, care SkilledCare, known []SupervisoryVisit) error {
	var f fault.Fields
	switch {
	case v.How != AudioVideo:
		return nil
	case !care.Skilled:
		f.Add("how", "Without skilled care the visit is on site.")
	case strings.TrimSpace(v.Why) == "":
		f.Add("why", "Say which circumstances outside the agency’s control left no other way.")
	case v.Watched:
		f.Add("watched", "The aide is watched giving care on site, not by audio-video.")
	}
	n := 0
	for _, k := range known {
		if k.How == AudioVideo && k.Client == v.Client && oneEpisode(k.On, v.On, care.Episodes) {
			n++
		}
	}
	if n >= videoInEachEpisode {
		f.Add("how", "There was an assessment by audio-video in this 60-day episode of the child. This one is on site.")
	}
	return f.Err()
}

// oneEpisode reports whether two days lie, or could lie, in one episode.
func oneEpisode(a, b, from civil.Date) bool {
	if from.IsZero() {
		return max(a.Sub(b), b.Sub(a)) < EpisodeDays
	}
	return episode(a, from) == episode(b, from)
}

// episode is which one, counted from the first; those before it are below 0.
func episode(on, from civil.Date) int {
	days := on.Sub(from)
	if days < 0 {
		days -= EpisodeDays - 1
	}
	return days / EpisodeDays
}

package web

import (
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// The words in which days, instants and names stand on every page.
const (
	dayForm     = "2 Jan 2006"
	instantForm = "2 Jan 2006, 15:04 MST"
)

// day is a day for the reader, "18 Nov 2026"; nothing for the zero day.
func day(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Format(dayForm)
}

// dayIn is the civil day of an instant for the reader; nothing for no instant.
func dayIn(at *time.Time, zone *time.Location) string {
	if at == nil {
		return ""
	}
	return at.In(zone).Format(dayForm)
}

// instant is an instant for the reader, "18 Nov 2026, 15:42 MST".
func instant(at time.Time, zone *time.Location) string { return at.In(zone).Format(instantForm) }

// isoDay is a day as date fields take it; nothing for the zero day.
func isoDay(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

// clientName is a child for the reader, "Mira, 7K"; nothing for none.
func clientName(c office.ClientRef) string {
	if c.ID == "" {
		return ""
	}
	return c.FirstName + ", " + c.Code
}

// kindOf is what sort of caregiver somebody is: "mother", "nurse".
func kindOf(p office.PersonRef) string {
	if p.Relation != "" && p.Kind == assessment.Family {
		return p.Relation
	}
	return string(p.Kind)
}

// kindIn is kindOf in the reader's language.
func kindIn(w wording.Words, p office.PersonRef) string {
	if p.Relation != "" && p.Kind == assessment.Family {
		return word(w, relations, p.Relation)
	}
	return w.Of(p.Kind.Phrase())
}

// relations are the words that families are mostly called by; others stand as the
// agency wrote them.
var relations = []phrase.Phrase{phrase.Of("mother"), phrase.Of("father"), phrase.Of("grandmother"), phrase.Of("grandfather"), phrase.Of("aunt"), phrase.Of("uncle"),
	phrase.Of("sister"), phrase.Of("brother"), phrase.Of("stepmother"), phrase.Of("stepfather"), phrase.Of("foster mother"), phrase.Of("foster father")}

// equipment are the kinds that most children have; others stand as the agency wrote them.
var equipment = []phrase.Phrase{phrase.Of("ventilator"), phrase.Of("back-up ventilator"), phrase.Of("circuit"), phrase.Of("humidifier"), phrase.Of("tracheostomy tube"), phrase.Of("suction unit")}

// word is one of some words in the reader's language; another stands as it is.
func word(w wording.Words, known []phrase.Phrase, said string) string {
	for _, p := range known {
		if p.Format == said {
			return w.Of(p)
		}
	}
	return said
}

// sentence begins with a capital letter and ends with a full stop.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	words = strings.ToUpper(words[:1]) + words[1:]
	if strings.HasSuffix(words, ".") {
		return words
	}
	return words + "."
}

// spoken puts a child's values in place of the names in braces; what is not
// ordered stands as what it is.
func spoken(text string, list assessment.Checklist, words map[string]string) string {
	for _, p := range list.Parameters {
		says := words[p.Name]
		if says == "" {
			says, _, _ = strings.Cut(p.Says, ",")
		}
		text = strings.ReplaceAll(text, "{"+p.Name+"}", says)
	}
	return text
}

// spokenIn says what has words of a checklist in it, in the reader's language where all of
// them are known there, with a child's values in place of the names in braces; else in
// English, marked as such.
func spokenIn(w wording.Words, p phrase.Phrase, list assessment.Checklist, words map[string]string) Worded {
	text, known := w.Whole(p)
	for _, v := range list.Parameters {
		says := words[v.Name]
		if says == "" {
			says = shortly(v.Says)
			if known {
				says, _ = w.Theirs(says)
			}
		}
		text = strings.ReplaceAll(text, "{"+v.Name+"}", says)
	}
	return worded(text, known)
}

// dayIn is the civil day of an instant on the agency's clocks; nothing for no instant.
func (v *visit) dayIn(at *time.Time) string {
	if at == nil {
		return ""
	}
	return v.words().ShortDay(civil.DayOf(*at, v.zone()))
}

// fullDay is a day with its weekday and year, for the head of a page.
func fullDay(w wording.Words, d civil.Date) string {
	if w.Language() == wording.English {
		return longDay(d)
	}
	y, _, _ := d.Civil()
	return w.Say("%s %s", w.Weekday(d), w.Say("of %s", strconv.Itoa(y)))
}

// rolesIn lists roles in the reader's language.
func rolesIn(w wording.Words, roles []assessment.Role) string {
	var words []string
	for _, r := range roles {
		words = append(words, w.Of(r.Phrase()))
	}
	return strings.Join(words, ", ")
}

// zone is the agency's, for instants.
func (v *visit) zone() *time.Location {
	zone, err := time.LoadLocation(v.session.Agency.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}

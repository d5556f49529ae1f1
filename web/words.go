package web

import (
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
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

// zone is the agency's, for instants.
func (v *visit) zone() *time.Location {
	zone, err := time.LoadLocation(v.session.Agency.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}

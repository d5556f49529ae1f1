package reports

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Certificate draws a certificate of competency. It is a pure function: the same
// facts give the same bytes. It refuses facts that do not make a certificate,
// above all one that is not signed by both.
func Certificate(f office.CertificateFacts) ([]byte, error) {
	p, err := certificate(f)
	if err != nil {
		return nil, fmt.Errorf("draw certificate %d: %w", f.Number, err)
	}
	return p.bytes()
}

func certificate(f office.CertificateFacts) (*paper, error) {
	if err := wholeCertificate(f); err != nil {
		return nil, err
	}
	p, err := newPaper(meta{Title: "Certificate of competency: " + f.Person + ", " + f.Title, Language: "en",
		Agency: f.Agency, Demo: f.Demo, Issued: f.IssuedAt, Zone: f.Zone})
	if err != nil {
		return nil, err
	}
	signed, err := signaturesOf(f.Signatures, f.Zone, f.Kind)
	if err != nil {
		return nil, err
	}
	p.letterhead("Certificate of competency")
	p.row(label("who"), p.fitting(name(f.Person), 2), soft(f.Kind))
	p.gap(12)
	p.row(label("skill"), head(f.Title), soft(forWhom(f.Client)+fmt.Sprintf(" · checklist revision %d", f.Revision)))
	p.gap(12)
	p.row(label("shown"), text(shownInWords(p.say, f.Shown)), soft(withWhomInWords(f.Shown)+" · "+scoresInWords(f)))
	p.gap(12)
	p.row(label("holds"), large(p.say.date(f.HeldOn)+" through "+p.say.date(f.Through)), soft(renewalInWords(p.say, f)))
	p.gap(12)
	p.row(label("number"), text(fmt.Sprintf("Certificate no. %d", f.Number)))
	p.gap(14)
	p.signatures(label("signed"), signed...)
	p.check(check{Code: office.ShowCode(f.Code), Address: f.CheckURL, Words: certificateCheck})
	return p, nil
}

const certificateCheck = "Scan or type it to see whether this still holds today. It states what was seen on the days named. " +
	"It can be withdrawn, or end early, after it was printed."

// wholeCertificate refuses facts in which anything is missing that a reader would
// take for granted.
func wholeCertificate(f office.CertificateFacts) error {
	var faults []error
	need := func(ok bool, what string) {
		if !ok {
			faults = append(faults, errors.New(what))
		}
	}
	need(oneLine(f.Person) != "", "it is nobody's")
	need(oneLine(f.Title) != "", "the skill is missing")
	need(f.Number > 0, "it has no number")
	need(f.Revision > 0, "the checklist revision is missing")
	need(len(f.Shown) > 0, "no demonstration is behind it")
	need(!f.HeldOn.IsZero() && !f.Through.Before(f.HeldOn), "it holds on no day")
	need(len(f.Code) == 12, "the check code is not whole")
	for _, part := range []string{office.PartObserver, office.PartLearner} {
		need(signedBy(f.Signatures, part), "the signature of the "+part+" is missing")
	}
	return errors.Join(faults...)
}

// signedBy reports whether a part is signed with all that a signature states:
// name, instant and meaning (21 CFR 11.50(a)).
func signedBy(all []postgres.Signature, part string) bool {
	for _, s := range all {
		if s.Part == part {
			return oneLine(s.PrintedName) != "" && oneLine(s.Meaning) != "" && !s.SignedAt.IsZero()
		}
	}
	return false
}

// signaturesOf is signatures as they are printed, each by the clocks under which
// it was made. The learner has a relation to the child where the observer has a
// licence.
func signaturesOf(all []postgres.Signature, zone *time.Location, relation string) ([]signature, error) {
	var out []signature
	for _, s := range all {
		there, err := zoneOf(s.Zone, zone)
		if err != nil {
			return nil, fmt.Errorf("signature of the %s: %w", s.Part, err)
		}
		one := signature{Name: s.PrintedName, Meaning: s.Meaning, At: s.SignedAt, Zone: there}
		switch {
		case s.Licence != "":
			one.Licence = "licence " + s.Licence
		case s.Part == office.PartLearner:
			one.Licence = relation
		}
		out = append(out, one)
	}
	return out, nil
}

// zoneOf is the zone of this name; known saves looking it up.
func zoneOf(name string, known *time.Location) (*time.Location, error) {
	if name == "" || known != nil && known.String() == name {
		return known, nil
	}
	zone, err := time.LoadLocation(name)
	if err != nil {
		return nil, fmt.Errorf("load the zone %q: %w", name, err)
	}
	return zone, nil
}

func forWhom(client string) string {
	if oneLine(client) == "" {
		return "not tied to one child"
	}
	return "for " + client
}

// shownInWords tells how many were shown, and on which days.
func shownInWords(say phrases, shown []office.Shown) string {
	days := make([]civil.Date, len(shown))
	for i, s := range shown {
		days[i] = s.On
	}
	if len(shown) == 1 {
		return "1 return demonstration, competent, on " + say.date(days[0])
	}
	slices.SortFunc(days, civil.Date.Compare)
	days = slices.Compact(days)
	return fmt.Sprintf("%d return demonstrations, all competent, on %s: %s", len(shown), counted(len(days), "day", "days"), datesInWords(say, days))
}

func withWhomInWords(shown []office.Shown) string {
	real := 0
	for _, s := range shown {
		if s.Real {
			real++
		}
	}
	switch {
	case real == 0:
		return "in simulation"
	case real == len(shown):
		return "with the child"
	}
	return fmt.Sprintf("%d with the child, %d in simulation", real, len(shown)-real)
}

// scoresInWords tells scores in percent, cut and never rounded up.
func scoresInWords(f office.CertificateFacts) string {
	var scores []string
	for _, s := range f.Shown {
		if s.Score != nil {
			scores = append(scores, s.Score.Percent())
		}
	}
	pass := "pass mark " + f.PassMark.Percent() + " %"
	switch len(scores) {
	case 0:
		return pass
	case 1:
		return "score " + scores[0] + " %, " + pass
	}
	return "scores " + strings.Join(scores, ", ") + " %, " + pass
}

// renewalInWords tells from when a renewal keeps its day; nothing where that
// would have been before it was held.
func renewalInWords(say phrases, f office.CertificateFacts) string {
	switch {
	case f.RenewFrom.IsZero():
		return "shown again, it holds anew from that day"
	case f.RenewFrom.After(f.HeldOn):
		return "can be renewed from " + say.date(f.RenewFrom)
	}
	return ""
}

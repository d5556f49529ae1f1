package reports

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
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
	in := wording.In(wording.Of(f.Language))
	p, err := newPaper(meta{Title: in.Say("Certificate of competency: %s, %s", f.Person, f.Title), Language: string(in.Language()),
		Agency: f.Agency, Demo: f.Demo, Issued: f.IssuedAt, Zone: f.Zone})
	if err != nil {
		return nil, err
	}
	signed, err := signaturesOf(in, f.Signatures, f.Zone, in.Say(f.Kind))
	if err != nil {
		return nil, err
	}
	p.letterhead(in.Say("Certificate of competency"))
	p.row(label(in.Say("who")), p.fitting(name(f.Person), 2), soft(in.Say(f.Kind)))
	p.gap(12)
	p.row(label(in.Say("skill")), head(theirs(in, f.Title)), soft(forWhom(in, f.Client)+" · "+in.Say("checklist revision %d", f.Revision)))
	p.gap(12)
	p.row(label(in.Say("shown")), text(shownInWords(in, f.Shown)), soft(in.Of(withWhomInWords(f.Shown))+" · "+scoresInWords(in, f)))
	p.gap(12)
	p.row(label(in.Say("holds")), large(in.Say("%s through %s", f.HeldOn, f.Through)), soft(in.Of(renewalInWords(f))))
	p.gap(12)
	p.row(label(in.Say("number")), text(in.Say("Certificate no. %d", f.Number)))
	p.gap(14)
	p.signatures(label(in.Say("signed")), signed...)
	p.check(check{Code: office.ShowCode(f.Code), Address: f.CheckURL, Words: in.Say(certificateCheck)})
	return p, nil
}

var certificateCheck = phrase.Of("Scan or type it to see whether this still holds today. It states what was seen on the days named. It can be withdrawn, or end early, after it was printed.").Format

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
func signaturesOf(w wording.Words, all []postgres.Signature, zone *time.Location, relation string) ([]signature, error) {
	var out []signature
	for _, s := range all {
		there, err := zoneOf(s.Zone, zone)
		if err != nil {
			return nil, fmt.Errorf("signature of the %s: %w", s.Part, err)
		}
		one := signature{Name: s.PrintedName, Meaning: w.Say(s.Meaning), At: s.SignedAt, Zone: there}
		switch {
		case s.Licence != "":
			one.Licence = w.Say("licence %s", s.Licence)
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

func forWhom(w wording.Words, client string) string {
	if oneLine(client) == "" {
		return w.Say("not tied to one child")
	}
	return w.Say("for %s", client)
}

// shownInWords tells how many were shown, and on which days.
func shownInWords(w wording.Words, shown []office.Shown) string {
	days := make([]civil.Date, len(shown))
	for i, s := range shown {
		days[i] = s.On
	}
	if len(shown) == 1 {
		return w.Say("1 return demonstration, competent, on %s", days[0])
	}
	slices.SortFunc(days, civil.Date.Compare)
	days = slices.Compact(days)
	return w.Say("%d return demonstrations, all competent, on %s: %s", len(shown), phrase.Count(len(days), "1 day", "%d days"), daysNamed(w, days))
}

// daysNamed names days; in English without repeating their months and years.
func daysNamed(w wording.Words, days []civil.Date) string {
	if w.Language() == wording.English {
		return datesInWords(english, days)
	}
	var named []string
	for _, d := range days {
		named = append(named, w.Day(d))
	}
	return w.List(named)
}

func withWhomInWords(shown []office.Shown) phrase.Phrase {
	real := 0
	for _, s := range shown {
		if s.Real {
			real++
		}
	}
	switch {
	case real == 0:
		return withWhom(false)
	case real == len(shown):
		return withWhom(true)
	}
	return phrase.Of("%d with the child, %d in simulation", real, len(shown)-real)
}

// scoresInWords tells scores in percent, cut and never rounded up.
func scoresInWords(w wording.Words, f office.CertificateFacts) string {
	var scores []string
	for _, s := range f.Shown {
		if s.Score != nil {
			scores = append(scores, s.Score.Percent())
		}
	}
	pass := f.PassMark.Percent()
	switch len(scores) {
	case 0:
		return w.Say("pass mark %s %%", pass)
	case 1:
		return w.Say("score %s %%, pass mark %s %%", scores[0], pass)
	}
	return w.Say("scores %s %%, pass mark %s %%", strings.Join(scores, ", "), pass)
}

// renewalInWords tells from when a renewal keeps its day; nothing where that
// would have been before it was held.
func renewalInWords(f office.CertificateFacts) phrase.Phrase {
	switch {
	case f.RenewFrom.IsZero():
		return phrase.Of("shown again, it holds anew from that day")
	case f.RenewFrom.After(f.HeldOn):
		return phrase.Of("can be renewed from %s", f.RenewFrom)
	}
	return phrase.Phrase{}
}

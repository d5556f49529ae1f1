package web

import (
	"encoding/hex"
	"net/http"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) certificate(v *visit) error {
	id, err := pathID[assessment.CertificateID](v, "id")
	if err != nil {
		return err
	}
	t, err := s.office.ViewCertificate(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	w := v.words()
	page := CertificatePage{Frame: v.frame("papers"), Number: strconv.Itoa(t.Number), Code: office.ShowCode(t.Code), Who: t.Person, WhoHref: "/people/" + string(t.PersonID),
		Skill: t.Title, Client: t.Client, Revision: t.Revision, Shown: shownWords(w, t.Shown), Scores: scoresOf(w, t.Shown), From: w.ShortDay(t.HeldOn), Through: w.ShortDay(t.ThroughOn),
		Renew: w.ShortDay(t.RenewFrom), Holds: t.Holds(), Today: w.ShortDay(t.On), PDF: "/certificates/" + string(t.ID) + "/certificate.pdf", Proof: "/certificates/" + string(t.ID) + "/proof",
		SHA256: hex.EncodeToString(t.PDFSHA256), Check: t.CheckURL}
	page.As, page.Why, page.Since = stands(w, t.Reliance, t.ThroughOn)
	for _, g := range t.Signatures {
		page.Signed = append(page.Signed, signatureOf(w, g, t.Zone))
	}
	for _, r := range t.Shown {
		page.Records = append(page.Records, Link{w.Say("record of %s", w.ShortDay(r.On)), demonstrationAt(r.ID)})
	}
	return v.show(page)
}

// stands says how a competency stands that a certificate was issued for: while it
// holds, its last day where that differs from the printed one; else why not and
// since when.
func stands(w wording.Words, r office.Reliance, printed civil.Date) (as, why, since string) {
	switch {
	case r.Holds() && r.Standing.Through != printed:
		return w.ShortDay(r.Standing.Through), "", ""
	case r.Holds():
		return "", "", ""
	case !r.TakenBackOn.IsZero():
		return "", w.Say("A record that it rests on was taken back"), w.ShortDay(r.TakenBackOn)
	case r.Left():
		return "", w.Say("Its holder is no longer with the agency"), w.ShortDay(r.LeftOn)
	case r.Standing.Word == assessment.Lapsed:
		return "", w.Say("It has lapsed"), w.ShortDay(r.Standing.Since)
	case r.Standing.Word == assessment.Withdrawn:
		return "", w.Say("It is withdrawn"), w.ShortDay(r.Standing.Since)
	}
	return "", w.Say("It is no longer held"), w.ShortDay(r.Standing.Since) // as when the child's equipment was changed
}

func shownWords(w wording.Words, shown []office.ShownRecord) string {
	days := map[civil.Date]bool{}
	real := 0
	for _, r := range shown {
		days[r.On] = true
		if r.Real {
			real++
		}
	}
	words := w.Say("%s, competent, on %s", phrase.Count(len(shown), "%d return demonstration", "%d return demonstrations"), phrase.Count(len(days), "%d day", "%d days"))
	if real > 0 {
		words += ", " + w.Say("%d with the child", real)
	}
	return words
}

func scoresOf(w wording.Words, shown []office.ShownRecord) string {
	var scores []string
	for _, r := range shown {
		if r.Score != nil {
			scores = append(scores, r.Score.Percent()+" %")
		}
	}
	if len(scores) == 0 {
		return ""
	}
	return w.Say("Scores: %s", strings.Join(scores, ", "))
}

func (s *Site) certificatePDF(v *visit) error {
	id, err := pathID[assessment.CertificateID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.CertificatePDF(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

// check answers anybody who has a certificate in hand. A code that was mistyped
// is told from one that was never issued.
func (s *Site) check(v *visit) error {
	typed := v.c.Param("code")
	if typed == "" {
		typed = v.query("code")
	}
	page := CheckPage{Frame: v.frame(""), Typed: typed}
	if typed == "" {
		return v.show(page)
	}
	c, err := s.office.Check(v.ctx(), typed)
	switch fault.KindOf(err) {
	case fault.Invalid:
		page.Faults = Faults{What: v.say("This code is mistyped."), Why: v.say("It was not looked up."), Fields: []FieldFault{{"code", v.say("Check code"), v.message(err)}}}
		return v.again(page)
	case fault.NotFound:
		page.Answer = "unknown"
		return s.pages.Write(v.c.Writer, http.StatusNotFound, page)
	}
	if err != nil {
		return err
	}
	page.answer(v.words(), c)
	return v.show(page)
}

// message is what a refusal says.
func (v *visit) message(err error) string {
	f, _ := fault.As(err)
	return v.words().Of(f.Phrase())
}

func (p *CheckPage) answer(w wording.Words, c office.Checked) {
	p.Answer, p.Typed = "ended", office.ShowCode(c.Code)
	p.Frame.Demo = p.Frame.Demo || c.Demo
	if c.Holds() {
		p.Answer = "holds"
	}
	if !c.Erased.IsZero() {
		p.Answer, p.Number, p.Today, p.Issuer, p.Since, p.SHA256 = "erased", strconv.Itoa(c.Number), w.ShortDay(c.On), c.Agency, w.ShortDay(c.Erased), hex.EncodeToString(c.SHA256)
		return
	}
	p.Number, p.Today, p.Issuer, p.Who, p.Skill, p.ForChild = strconv.Itoa(c.Number), w.ShortDay(c.On), c.Agency, c.Person, c.Title, c.Client
	p.From, p.Through, p.SHA256 = w.ShortDay(c.HeldOn), w.ShortDay(c.Through), hex.EncodeToString(c.SHA256)
	p.As, p.Why, p.Since = stands(w, c.Reliance, c.Through)
}

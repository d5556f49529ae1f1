package web

import (
	"encoding/hex"
	"encoding/json"
	"net/http"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

func (s *Site) ledger(v *visit) error {
	h, err := s.office.LedgerHead(v.ctx(), v.by())
	if err != nil && fault.KindOf(err) != fault.NotFound {
		return err
	}
	return v.show(ledgerPage(v, h))
}

func ledgerPage(v *visit, h office.HeadView) LedgerPage {
	page := LedgerPage{Frame: v.frame("papers"), Signed: h.Signed, Keys: h.Keys}
	if h.Signed != "" {
		page.Entries, page.Sealed = count(int(h.Size), "entry", "entries"), instant(h.At, v.zone())
	}
	if v.by().May(assessment.ReadEntries) == nil {
		page.All = "/ledger/entries"
	}
	return page
}

func (s *Site) ledgerHead(v *visit) error {
	h, err := s.office.LedgerHead(v.ctx(), v.by())
	if err != nil {
		return err
	}
	return file(v.c, []byte(h.Signed), "ledger-head-"+strconv.FormatInt(h.Size, 10)+".txt", "text/plain; charset=utf-8")
}

// pastedHead is a head as it was signed, from what was pasted: browsers, mail and
// hands add line ends, blank lines around it and spaces at the ends of its lines.
func pastedHead(text string) string {
	lines := strings.Split(strings.TrimSpace(strings.ReplaceAll(text, "\r\n", "\n")), "\n")
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	if kept := strings.Join(lines, "\n"); kept != "" {
		return kept + "\n"
	}
	return ""
}

// extension holds a head that somebody kept against the ledger of today.
func (s *Site) extension(v *visit) error {
	kept := pastedHead(v.secret("head"))
	x, err := s.office.Extends(v.ctx(), v.by(), kept)
	page := ledgerPage(v, x.Now)
	page.Head = kept
	if err != nil {
		faults, unknown := v.wrong(err, "Nothing was compared.", label("head", "The head that was kept"))
		if unknown != nil {
			return unknown
		}
		page.Faults = faults
		return v.again(page)
	}
	page.Answer, page.Why = "broken", x.Why
	if x.Extends {
		page.Answer = "extends"
	}
	page.Kept = count(int(x.Kept.Size), "entry", "entries") + ", sealed " + instant(x.Kept.At, v.zone())
	return v.show(page)
}

func (s *Site) entries(v *visit) error {
	found, err := s.office.Entries(v.ctx(), v.by(), v.query("after"), 0)
	if err != nil {
		return err
	}
	page := EntriesPage{Frame: v.frame("papers")}
	for _, e := range found.Items {
		page.Lines = append(page.Lines, entryLine(v, e))
	}
	if found.Next != "" {
		page.Older = "/ledger/entries?after=" + found.Next
	}
	return v.show(page)
}

func entryLine(v *visit, e postgres.EntryBy) EntryLine {
	line := EntryLine{Position: strconv.FormatInt(e.Position, 10), At: instant(e.At, v.zone()), Who: e.Actor, Act: e.Act, Kind: kindWords(e.Kind), Subject: e.Subject}
	if e.Deleted {
		line.Kind += ", deleted"
	}
	return line
}

func kindWords(kind string) string { return strings.ReplaceAll(kind, "_", " ") }

func (s *Site) demonstrationProof(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	p, err := s.office.ProofOfDemonstration(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	return v.show(proofPage(v, p, v.say("this demonstration and its signatures"), demonstrationAt(id)))
}

func (s *Site) demonstrationProofFile(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	p, err := s.office.ProofOfDemonstration(v.ctx(), v.by(), id)
	return proofFile(v, p, "proof-of-demonstration-"+string(id), err)
}

func (s *Site) certificateProof(v *visit) error {
	id, err := pathID[assessment.CertificateID](v, "id")
	if err != nil {
		return err
	}
	p, err := s.office.ProofOfCertificate(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	return v.show(proofPage(v, p, v.say("this certificate"), "/certificates/"+string(id)))
}

func (s *Site) certificateProofFile(v *visit) error {
	id, err := pathID[assessment.CertificateID](v, "id")
	if err != nil {
		return err
	}
	p, err := s.office.ProofOfCertificate(v.ctx(), v.by(), id)
	return proofFile(v, p, "proof-of-certificate-"+string(id), err)
}

func proofPage(v *visit, p office.ProofView, of, back string) ProofPage {
	page := ProofPage{Frame: v.frame("papers"), Of: of, Back: back, Waiting: p.Waiting, File: back + "/proof.json"}
	if p.Head.Signed != "" {
		page.Sealed, page.Size = v.words().Instant(p.Head.At, v.zone()), v.words().Count(int(p.Head.Size), "%d entry", "%d entries")
	}
	for _, e := range p.Entries {
		page.Entries = append(page.Entries, ProofEntry{What: v.words().Of(leafPhrase(e)), At: v.words().Instant(e.At, v.zone()), Act: typed(v.words(), e.Act),
			Position: strconv.FormatInt(e.Position, 10), SHA256: hex.EncodeToString(e.RecordSha256), Same: len(e.Receipt.Record) > 0})
	}
	for _, e := range p.Erasures {
		w, zone := v.words(), v.zone()
		page.Erased = append(page.Erased, w.Pieces(phrase.Of("Erased by %s, %s; asked for by %s, %s. Why: %s", e.Ender, w.Instant(*e.EndedAt, zone), e.Asker, w.Instant(e.AskedAt, zone), phrase.Typed(e.Reason))))
	}
	return page
}

// leafPhrase says what a leaf is about.
func leafPhrase(e office.SealedEntry) phrase.Phrase {
	_, part, _ := strings.Cut(e.Subject, "/")
	switch {
	case e.Kind == "demonstration":
		return phrase.Of("demonstration")
	case e.Kind == "certificate":
		return phrase.Of("certificate")
	case part == office.PartObserver:
		return phrase.Of("signature of the observer")
	case part == office.PartLearner:
		return phrase.Of("signature of the learner")
	}
	return phrase.Text(kindWords(e.Kind))
}

// proofFile is what proves it to somebody who has nothing but the public keys: an
// array of receipts.
func proofFile(v *visit, p office.ProofView, name string, err error) error {
	if err != nil {
		return err
	}
	receipts := []ledger.Receipt{}
	for _, e := range p.Entries {
		receipts = append(receipts, e.Receipt)
	}
	body, err := json.MarshalIndent(receipts, "", "  ")
	if err != nil {
		return err
	}
	v.c.Status(http.StatusOK)
	return file(v.c, body, name+".json", "application/json")
}

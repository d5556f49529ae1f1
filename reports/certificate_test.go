package reports

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

func denver(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func number(s string) *assessment.Number {
	n := assessment.MustNumber(s)
	return &n
}

// bothSigned is the two signatures of a record.
func bothSigned(learner string) []postgres.Signature {
	return []postgres.Signature{
		{Part: office.PartObserver, PrintedName: "Ольга Мартин", Licence: "RN 48213", Meaning: office.MeaningObserver, SignedAt: issued, Zone: "America/Denver"},
		{Part: office.PartLearner, PrintedName: learner, Meaning: office.MeaningLearner, SignedAt: issued.Add(2 * time.Minute), Zone: "America/Denver"},
	}
}

func certificateFacts(t testing.TB, who string) office.CertificateFacts {
	return office.CertificateFacts{
		Agency: "Larkmoor Home Nursing", Zone: denver(t), Number: 128, Code: "4H7K9QXM2TBT", CheckURL: "https://wellshown.example/check/4H7K9QXM2TBT",
		Person: who, Kind: "mother", Title: "Tracheostomy suctioning", Client: "Mira, 7K", Revision: 4,
		Shown: []office.Shown{{On: civil.MustParse("2026-11-09"), Score: number("191/200")},
			{On: civil.MustParse("2026-11-12"), Score: number("1"), Real: true}, {On: civil.MustParse("2026-11-18"), Score: number("9496/10000"), Real: true}},
		PassMark: assessment.MustNumber("19/20"), HeldOn: civil.MustParse("2026-11-18"), Through: civil.MustParse("2027-11-30"),
		RenewFrom: civil.MustParse("2027-09-01"), Signatures: bothSigned(who), IssuedAt: issued.Add(2 * time.Minute),
	}
}

func drawnCertificate(t *testing.T, called string, f office.CertificateFacts) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return certificate(f) })
}

func TestCertificate(t *testing.T) {
	path := drawnCertificate(t, "certificate", certificateFacts(t, "Nguyễn Thị Lan"))
	golden(t, "certificate", path)
	says(t, path, "Certificate of competency", "Nguyễn Thị Lan", "mother", "Tracheostomy suctioning", "for Mira, 7K · checklist revision 4",
		"3 return demonstrations, all competent, on 3 days: 9, 12 and 18 November 2026", "2 with the child, 1 in simulation",
		// 94.96 % is cut, not rounded: no figure shown may reach a mark that the exact one missed.
		"scores 95.5, 100, 94.9 %, pass mark 95 %",
		"18 November 2026 through 30 November 2027", "can be renewed from 1 September 2027", "Certificate no. 128",
		"Check code 4H7K-9QXM-2TBT", "In an emergency call the local emergency number.")
}

// 21 CFR 11.50(a) (electronic records; electronic signatures) wants with each
// signature the printed name of the signer, the date and time, and the meaning.
// It is a benchmark here: nothing claims that the rule is complied with. That the
// time has its zone, and a licence is shown, goes beyond it. Cited from memory.
func TestCertificateSignaturesSayWhoWhenAndWhat(t *testing.T) {
	path := drawnCertificate(t, "certificate-signed", certificateFacts(t, "Łucja Żak"))
	says(t, path, "Ольга Мартин", "licence RN 48213", "“I observed and judged this.”", "18 Nov 2026, 15:42 MST",
		"Łucja Żak", "“I showed this and we talked it over.”", "18 Nov 2026, 15:44 MST")
}

// Each signature is told by the clocks under which it was made, whatever the
// agency's zone is by now.
func TestCertificateSignaturesKeepTheirZone(t *testing.T) {
	f := certificateFacts(t, "Zoë")
	f.Signatures[0].Zone = "America/New_York"
	says(t, drawnCertificate(t, "certificate-zones", f), "18 Nov 2026, 17:42 EST", "18 Nov 2026, 15:44 MST")
	f.Signatures[0].Zone = "Larkmoor/Nowhere"
	if _, err := Certificate(f); err == nil {
		t.Error("a signature in an unknown zone is printed")
	}
}

func TestCertificateNames(t *testing.T) {
	for called, who := range map[string]string{
		"lan": "Nguyễn Thị Lan", "lucja": "Łucja Żak", "zoe": "Zoë", "olga": "Ольга Мартинова",
		"long": "Maximiliana Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh Cholmondeley-Majoribanks y Villanueva de la Cañada",
	} {
		f := certificateFacts(t, who)
		path := drawnCertificate(t, "certificate-"+called, f)
		// pdftotext joins what a line breaks behind a hyphen.
		plain := strings.NewReplacer("-", "", " ", "")
		if got := plain.Replace(said(t, path)); strings.Count(got, plain.Replace(who)) != 2 {
			t.Errorf("%s is not there as holder and as signer:\n%s", who, got)
		}
		if pages := tool(t, "pdfinfo", path); !regexp.MustCompile(`Pages:\s+1\n`).MatchString(pages) {
			t.Errorf("%s: the certificate is not on one page", who)
		}
	}
}

func TestCertificateCodeIsRead(t *testing.T) {
	f := certificateFacts(t, "Zoë")
	path := drawnCertificate(t, "certificate-code", f)
	image := strings.TrimSuffix(path, ".pdf")
	tool(t, "pdftoppm", "-r", "150", "-gray", "-png", "-singlefile", path, image)
	if got := strings.TrimSpace(tool(t, "zbarimg", "--nodbus", "-q", "--raw", image+".png")); got != f.CheckURL {
		t.Errorf("the code says %q, want %q", got, f.CheckURL)
	}
}

func TestCertificateOfOneDemonstrationInSimulation(t *testing.T) {
	f := certificateFacts(t, "Zoë")
	f.Client, f.RenewFrom = "", civil.Date{}
	f.Shown = f.Shown[:1]
	path := drawnCertificate(t, "certificate-simple", f)
	says(t, path, "not tied to one child · checklist revision 4", "1 return demonstration, competent, on 9 November 2026", "in simulation ·",
		"score 95.5 %, pass mark 95 %", "shown again, it holds anew from that day")
	saysNot(t, path, "Mira")
}

// A certificate that lacks a signature, a day or a demonstration would be a wrong
// "current" on paper.
func TestCertificateRefusesHalfFacts(t *testing.T) {
	for name, spoil := range map[string]func(*office.CertificateFacts){
		"nobody":              func(f *office.CertificateFacts) { f.Person = " " },
		"no skill":            func(f *office.CertificateFacts) { f.Title = "" },
		"no number":           func(f *office.CertificateFacts) { f.Number = 0 },
		"no revision":         func(f *office.CertificateFacts) { f.Revision = 0 },
		"nothing shown":       func(f *office.CertificateFacts) { f.Shown = nil },
		"no first day":        func(f *office.CertificateFacts) { f.HeldOn = civil.Date{} },
		"ends before":         func(f *office.CertificateFacts) { f.Through = f.HeldOn.AddDays(-1) },
		"no end":              func(f *office.CertificateFacts) { f.Through = civil.Date{} },
		"short code":          func(f *office.CertificateFacts) { f.Code = "4H7K" },
		"no address":          func(f *office.CertificateFacts) { f.CheckURL = "" },
		"no instant":          func(f *office.CertificateFacts) { f.IssuedAt = time.Time{} },
		"unsigned":            func(f *office.CertificateFacts) { f.Signatures = nil },
		"observer only":       func(f *office.CertificateFacts) { f.Signatures = f.Signatures[:1] },
		"learner only":        func(f *office.CertificateFacts) { f.Signatures = f.Signatures[1:] },
		"no meaning":          func(f *office.CertificateFacts) { f.Signatures[0].Meaning = "" },
		"signed by nobody":    func(f *office.CertificateFacts) { f.Signatures[1].PrintedName = "" },
		"signed at no time":   func(f *office.CertificateFacts) { f.Signatures[1].SignedAt = time.Time{} },
		"observer signs both": func(f *office.CertificateFacts) { f.Signatures[1].Part = office.PartObserver },
	} {
		f := certificateFacts(t, "Zoë")
		spoil(&f)
		if pdf, err := Certificate(f); err == nil || pdf != nil {
			t.Errorf("%s: printed", name)
		}
	}
}

func TestDatesInWords(t *testing.T) {
	for want, days := range map[string][]string{
		"":                               nil,
		"9 November 2026":                {"2026-11-09", "2026-11-09"},
		"9, 12 and 18 November 2026":     {"2026-11-09", "2026-11-12", "2026-11-12", "2026-11-18"},
		"30 October and 9 November 2026": {"2026-10-30", "2026-11-09"},
		"30 December 2026, 2 January and 5 February 2027": {"2026-12-30", "2027-01-02", "2027-02-05"},
		"9 November 2026 and 9 November 2027":             {"2026-11-09", "2027-11-09"},
		"1, 2 November and 3 December 2026":               {"2026-11-01", "2026-11-02", "2026-12-03"},
	} {
		var all []civil.Date
		for _, d := range days {
			all = append(all, civil.MustParse(d))
		}
		if got := datesInWords(english, all); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Whatever stands in the facts, a certificate is refused or comes out whole:
// nothing off the paper, never a panic.
func FuzzCertificate(f *testing.F) {
	f.Add("Nguyễn Thị Lan", "Tracheostomy suctioning", "Mira, 7K", "RN 1", "https://wellshown.example/check/4H7K9QXM2TBT", 3, int64(1795041720), 400)
	f.Add("😀\xff", "a\u0301\u202e\n\t", strings.Repeat("ш", 300), "", "http://[", 0, int64(-1), -1)
	f.Fuzz(func(t *testing.T, who, title, client, licence, address string, shown int, at int64, days int) {
		facts := certificateFacts(t, who)
		facts.Title, facts.Client, facts.CheckURL, facts.Signatures[0].Licence = title, client, address, licence
		facts.IssuedAt = time.Unix(at, 0).UTC()
		facts.Through = facts.HeldOn.AddDays(days)
		facts.Shown = nil
		for i := range min(max(shown, 0), 40) {
			facts.Shown = append(facts.Shown, office.Shown{On: facts.HeldOn.AddDays(i * shown), Score: number(fmt.Sprintf("%d/41", i+1))})
		}
		p, err := certificate(facts)
		if err != nil {
			return
		}
		inside(t, p)
		if pdf, err := p.bytes(); err == nil && !strings.HasPrefix(string(pdf), "%PDF-") {
			t.Errorf("%q is no PDF", pdf[:min(len(pdf), 20)])
		}
	})
}

// One page, three faces, a QR code; the fonts are cut before.
func BenchmarkCertificate(b *testing.B) {
	if err := Prepare(); err != nil {
		b.Fatal(err)
	}
	facts := certificateFacts(b, "Nguyễn Thị Lan")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Certificate(facts); err != nil {
			b.Fatal(err)
		}
	}
}

package reports

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// papers are the documents of a small agency in which a mother has been awarded
// the circuit change for her child, and a nurse has shown it with a critical step
// missed.
type papers struct {
	*ward.Ward
	*Reports
	child         assessment.ClientID
	mother, nurse assessment.Actor
	last, missed  office.DemonstrationView
}

func openPapers(t *testing.T) papers {
	w := ward.New(t, ward.WithCertificate(Certificate))
	p := papers{Ward: w, Reports: New(w.Office), child: w.Client("7K", "Mira")}
	p.mother, p.nurse = w.Family("Nguyễn Thị Lan", p.child), w.Nurse("Łucja Żak")
	w.Join(p.nurse, p.child)
	for _, who := range []assessment.Actor{p.mother, p.nurse} {
		w.Card(who)
	}
	w.Require("circuit-change", "")
	p.last = w.Award(p.mother, "circuit-change", p.child)
	for _, before := range []string{"circuit-test", "bagging", "alarms-power", "humidifier"} {
		w.Award(p.nurse, before, p.child)
	}
	p.missed = w.Demonstrate(p.nurse, "circuit-change", p.child, ward.Missing(21))
	return p
}

func kept(t *testing.T, called string) func([]byte, string, error) string {
	return func(pdf []byte, _ string, err error) string {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		path := filed(t, pdf)
		sound(t, called, path)
		return path
	}
}

// What the papers say is what the office answers, from a real database.
func TestPapersOfAnAgency(t *testing.T) {
	p := openPapers(t)
	ctx, on := t.Context(), p.Today()
	if p.last.Certificate == nil {
		t.Fatal("the award brought no certificate")
	}
	t.Run("certificate", func(t *testing.T) {
		path := kept(t, "certificate")(p.CertificatePDF(ctx, p.mother, p.last.Certificate.ID))
		checked, err := p.Office.Check(ctx, p.last.Certificate.Code)
		if err != nil {
			t.Fatal(err)
		}
		says(t, path, "Nguyễn Thị Lan", "Single-limb heated-humidified ventilator circuit change", "for Mira, 7K",
			"3 return demonstrations, all competent, on 3 days:", "scores 100, 100, 100 %, pass mark 95 %",
			english.date(checked.HeldOn)+" through "+english.date(checked.Through), "Check code "+office.ShowCode(checked.Code),
			p.Educators[0].Name, office.MeaningObserver, office.MeaningLearner)
	})
	t.Run("record", func(t *testing.T) {
		says(t, kept(t, "record")(p.Record(ctx, p.Educators[0], p.last.ID, wording.English)), "Competent on", "Nguyễn Thị Lan", "Every rule was met.", "Yes, from", "circuit: single limb, leak port")
		says(t, kept(t, "missed")(p.Record(ctx, p.Educators[0], p.missed.ID, wording.English)), "Not yet competent on", "Łucja Żak", "Critical step 21 was not shown well enough")
	})
	t.Run("blank", func(t *testing.T) {
		says(t, kept(t, "blank")(p.Blank(ctx, p.Educators[0], p.last.RevisionID)), "Single-limb heated-humidified ventilator circuit change", "in force since")
	})
	t.Run("transcript", func(t *testing.T) {
		says(t, kept(t, "transcript")(p.Transcript(ctx, p.mother, p.mother.Person, civil.Date{}, wording.English)),
			"Current in the one required skill on "+english.date(on), "Nguyễn Thị Lan", office.ShowCode(p.last.Certificate.Code))
	})
	t.Run("transcript of a part", func(t *testing.T) {
		by := p.LetIn(p.Unseeing("Halina Wren"), office.AccessForm{Clients: []assessment.ClientID{p.child}})
		says(t, kept(t, "part")(p.Transcript(ctx, by, p.mother.Person, civil.Date{}, wording.English)), "This is a part: records and certificates that are about other children are left out")
		by = p.LetIn(p.Unseeing("Tove Ask"), office.AccessForm{People: []assessment.PersonID{p.mother.Person}})
		if text := said(t, kept(t, "whole")(p.Transcript(ctx, by, p.mother.Person, civil.Date{}, wording.English))); strings.Contains(text, "This is a part") {
			t.Error("the whole is called a part")
		}
	})
	t.Run("readiness", func(t *testing.T) {
		says(t, kept(t, "readiness")(p.Readiness(ctx, p.mother, p.child, time.Time{}, wording.English)), "Not yet:", "Mira, 7K", "Nguyễn Thị Lan")
	})
	t.Run("overdue", p.overdueOnAnyDay)
	t.Run("for whom", p.forWhomTheOfficeSays)
}

// The nurse is behind today, and before long so is the mother: on any day the
// paper, the CSV and the office say the same.
func (p papers) overdueOnAnyDay(t *testing.T) {
	ctx, on := t.Context(), p.Today()
	for want, q := range map[string]office.OverdueQuery{
		"Two of 2 caregivers lacked a required skill on 6 January 2026":     {On: civil.MustParse("2026-01-06")},
		"One of 2 caregivers lacks a required skill on " + english.date(on): {},
		"Two of 2 caregivers will lack a required skill on ":                {On: on.AddDays(500), BySkill: true},
	} {
		path := kept(t, "overdue")(p.Overdue(ctx, p.Coordinator, q))
		says(t, path, want, "Łucja Żak")
		answer, err := p.Office.Overdue(ctx, p.Coordinator, q)
		if err != nil {
			t.Fatal(err)
		}
		table, _, err := p.OverdueCSV(ctx, p.Coordinator, q)
		if err != nil || bytes.Count(table, []byte("\r\n")) != len(answer.Lines)+1 {
			t.Errorf("%d lines in the office, the table says\n%s%v", len(answer.Lines), table, err)
		}
	}
}

// Printed twice, a certificate is the same bytes; papers that are not for the
// asker are refused by the office.
func (p papers) forWhomTheOfficeSays(t *testing.T) {
	ctx := t.Context()
	first, name, err := p.CertificatePDF(ctx, p.Coordinator, p.last.Certificate.ID)
	if err != nil || !strings.HasPrefix(name, "certificate-") {
		t.Fatal(name, err)
	}
	p.Pass(24 * time.Hour)
	if again, _, err := p.CertificatePDF(ctx, p.mother, p.last.Certificate.ID); err != nil || !bytes.Equal(first, again) {
		t.Errorf("printed again it differs: %v", err)
	}
	for what, err := range map[string]error{
		"another's certificate": third(p.CertificatePDF(ctx, p.nurse, p.last.Certificate.ID)),
		"another's record":      third(p.Record(ctx, p.nurse, p.last.ID, wording.English)),
		"another's transcript":  third(p.Transcript(ctx, p.nurse, p.mother.Person, civil.Date{}, wording.English)),
		"the overdue report":    third(p.Overdue(ctx, p.mother, office.OverdueQuery{})),
	} {
		if kind := fault.KindOf(err); kind != fault.Forbidden && kind != fault.NotFound {
			t.Errorf("%s is answered with %v", what, err)
		}
	}
}

func third(_ []byte, _ string, err error) error { return err }

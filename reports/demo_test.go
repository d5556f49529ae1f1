package reports

import "testing"

// A paper of an invented agency says so on every page, in the words of its language.
func TestPapersOfADemonstrationSaySo(t *testing.T) {
	f := certificateFacts(t, "Nguyễn Thị Lan")
	f.Demo = true
	p, err := certificate(f)
	if err != nil {
		t.Fatal(err)
	}
	says(t, filed(t, finished(t, p)), "Larkmoor Home Nursing · demonstration: people and records are invented")
	f.Demo = false
	if p, err = certificate(f); err != nil {
		t.Fatal(err)
	}
	saysNot(t, filed(t, finished(t, p)), "demonstration: people")
	long, err := newPaper(meta{Title: "Two pages", Language: "es", Agency: "Larkmoor Home Nursing", Demo: true, Issued: issued, Zone: denver(t)})
	if err != nil {
		t.Fatal(err)
	}
	long.letterhead("Una página")
	for range 90 {
		long.paragraph("Una línea.")
	}
	path := filed(t, finished(t, long))
	for _, page := range []string{"1", "2"} {
		one := t.TempDir() + "/one.pdf"
		tool(t, "qpdf", path, "--pages", ".", page, "--", one)
		says(t, one, "demostración: las personas y los registros son inventados")
	}
}

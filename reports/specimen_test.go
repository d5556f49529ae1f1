package reports

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// Everything in the specimens is invented.

var mountain = time.FixedZone("MST", -7*3600)

var issued = time.Date(2026, 11, 18, 22, 42, 0, 0, time.UTC)

const checkAddress = "https://wellshown.example/check/4H7K-9QXM-2TBT"

func blankPaper(t testing.TB, change ...func(*meta)) *paper {
	t.Helper()
	m := meta{Title: "Specimen", Language: "en", Agency: "Larkmoor Home Nursing", Issued: issued, Zone: mountain}
	for _, f := range change {
		f(&m)
	}
	p, err := newPaper(m)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func finished(t testing.TB, p *paper) []byte {
	t.Helper()
	pdf, err := p.bytes()
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// specimen is one page with all that a certificate has, for one person's name.
func specimen(t testing.TB, who string) *paper {
	p := blankPaper(t)
	p.letterhead("Certificate of competency")
	p.row(label("who"), name(who))
	p.row(label("skill"), head("Tracheostomy suctioning"), soft("for Mira, 7K · checklist revision 4"))
	p.row(label("shown"), text("3 return demonstrations, all competent, on 3 days"), soft("scores 97, 100, 100 of 100"))
	p.row(label("holds"), large("18 November 2026 through 30 November 2027"))
	p.signatures(label("signed"),
		signature{Name: "Noor Haddadin, RN", Licence: "licence on file", Meaning: "I observed and judged this.", At: issued},
		signature{Name: who, Licence: "mother", Meaning: "I showed this and we talked it over.", At: issued.Add(2 * time.Minute)})
	p.check(check{Code: "4H7K-9QXM-2TBT", Address: checkAddress})
	return p
}

// longTable has as many numbered rows, in groups of seven.
func longTable(rows int) table {
	t := table{columns: []column{{title: "skill", share: 3}, {title: "standing", share: 1}, {title: "days", share: 0.5, align: toRight}}}
	for i := range rows {
		if i%7 == 0 {
			t.rows = append(t.rows, tableRow{section: []words{group(fmt.Sprintf("Caregiver %d", i/7)), soft("nurse")}})
		}
		t.rows = append(t.rows, tableRow{left: label(fmt.Sprintf("no%d", i)),
			cells: [][]words{cell(strong("Tracheostomy tube change"), soft("for Mira")), cell(marked(shapeLapsed, "lapsed")), cell(text(fmt.Sprint(i)))}})
	}
	return t
}

// everywhere puts one text wherever a text can be put.
func everywhere(t testing.TB, s string) *paper {
	short := string([]rune(s)[:min(len([]rune(s)), 40)]) // titles and labels are the program's own words
	p := blankPaper(t, func(m *meta) { m.Title, m.Agency = "Title "+s, short })
	p.letterhead(s)
	p.heading(s)
	p.paragraph(s)
	p.note(s)
	p.row(label(short), name(s), head(s), large(s), strong(s), text(s), soft(s))
	p.choices(label(short), marked(shapeBox, s), marked(shapeMet, "met"), text(s))
	p.blanks(label(short), short, short)
	p.table(table{columns: []column{{title: short, share: 1}, {title: short, share: 2, align: toRight}, {title: "n", share: 1, align: toMiddle}}, rows: []tableRow{
		{section: []words{group(s), soft(s)}},
		{left: label(s), cells: [][]words{cell(strong(s), soft(s)), cell(hand(s)), cell(mark(shapeDue))}},
	}})
	p.table(table{empty: s})
	p.signatures(label(short), signature{Name: s, Licence: s, Meaning: s, At: issued}, signature{Meaning: s})
	p.check(check{Code: short, Address: checkAddress, Words: short})
	return p
}

// pageTexts is what each page says, frame aside, line by line.
func pageTexts(p *paper) []string {
	p.flush()
	var all []string
	for _, d := range p.pages {
		var lines []string
		for _, it := range d {
			if w, ok := it.(writing); ok {
				lines = append(lines, w.text)
			}
		}
		all = append(all, strings.Join(lines, "\n"))
	}
	return all
}

// pageOf is the page that holds a line, counted from 0, or -1.
func pageOf(p *paper, line string) int {
	return slices.IndexFunc(pageTexts(p), func(s string) bool {
		return slices.Contains(strings.Split(s, "\n"), line)
	})
}

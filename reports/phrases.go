package reports

import (
	"fmt"
	"strings"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/wording"
)

// phrases are the words that papers say by themselves, in one language.
type phrases struct {
	w         wording.Words // for what families read
	page      string        // of two numbers
	issued    string        // of an instant
	continued string
	empty     string
	code      string
	scan      string
	byHand    string
	safety    string
	draft     string // said of a translation that nobody has reviewed yet; empty for English
	caution   string // beside what comes before all else
	demo      string // said beside the agency's name where it is invented
	quotes    [2]string
	day       string // of day, month and year
	months    [12]string
	short     [12]string
}

var english = phrases{
	w:    wording.In(wording.English),
	page: "Page %d of %d", issued: "Issued %s", continued: "(continued)", empty: "Nothing to list.",
	code: "Check code", scan: "Scan or type it to see whether this still holds today.", byHand: "signature and date", caution: "first of all",
	demo: "demonstration: people and records are invented",
	safety: "This paper supports and never replaces the child’s orders, the maker’s instructions, local rules and licensed practice. " +
		"In an emergency call the local emergency number.",
	quotes: [2]string{"“", "”"}, day: "%d %s %d",
	months: [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
	short:  [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},
}

var spanish = phrases{
	w:    wording.In(wording.Spanish),
	page: "Página %d de %d", issued: "Emitido el %s", continued: "(continuación)", empty: "No hay nada que mostrar.",
	code: "Código de comprobación", scan: "Escanéelo o escríbalo para saber si esto sigue vigente hoy.", byHand: "firma y fecha", caution: "ante todo",
	demo: "demostración: las personas y los registros son inventados",
	safety: "Este documento apoya y nunca sustituye las indicaciones médicas del niño o la niña, las instrucciones del fabricante, las normas locales " +
		"ni la práctica profesional con licencia. En una emergencia, llame al número local de emergencias.",
	draft:  "Lo que este documento dice en español es un borrador: falta que lo revise un traductor calificado.",
	quotes: [2]string{"«", "»"}, day: "%d de %s de %d",
	months: [12]string{"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"},
	short:  [12]string{"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sept", "oct", "nov", "dic"},
}

// phrasesIn picks the phrases for a language tag: Spanish for es and its regions,
// else English.
func phrasesIn(language string) phrases {
	base, _, _ := strings.Cut(strings.ToLower(language), "-")
	if base == "es" {
		return spanish
	}
	return english
}

func (s phrases) quoted(said string) string { return s.quotes[0] + said + s.quotes[1] }

// date is a day with its month in full: 18 November 2026. No day is no text.
func (s phrases) date(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.Civil()
	return fmt.Sprintf(s.day, day, s.months[m-1], y)
}

// shortDate is a day for tables: 18 Nov 2026.
func (s phrases) shortDate(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.Civil()
	return fmt.Sprintf("%d %s %d", day, s.short[m-1], y)
}

// instant is a moment as the clocks of zone showed it, with the zone's name or,
// where it has none, its distance from UTC: 18 Nov 2026, 15:42 MST.
func (s phrases) instant(at time.Time, zone *time.Location) string {
	local := at.In(zone)
	name := local.Format("MST")
	if strings.HasPrefix(name, "+") || strings.HasPrefix(name, "-") {
		name = "UTC" + local.Format("-07:00")
	}
	return fmt.Sprintf("%s, %s %s", s.shortDate(civil.DayOf(at, zone)), local.Format("15:04"), name)
}

// theirs is what an agency calls its own things, and what its checklists say: in the
// language where that is a starter's word for word, else as it stands.
func theirs(w wording.Words, text string) string {
	said, _ := w.Theirs(text)
	return said
}

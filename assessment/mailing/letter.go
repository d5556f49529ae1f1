// Package mailing writes the mail that reminds people and hands it to a mail server.
// Mail lies on many machines for long, so it names nobody and nothing: it says how
// much is due, and where to look.
package mailing

import (
	"strings"
	"time"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/message/catalog"

	"wellshown/assessment"
)

// Letter is the mail of one day to one person. The same letter has the same text and the
// same id, however often it is handed over, so that whoever gets it twice can tell (RFC
// 5322, section 3.6.4).
type Letter struct {
	To       string // the address alone
	Language string // en or es
	ID       string // of the message, without angle brackets
	At       time.Time
	Counts   assessment.NoticeCounts
	Link     string // where to sign in
}

// The sentences, each by its English text in the singular.
const (
	subject   = "Wellshown: %d thing waits for you"
	due       = "%d thing that you hold comes to its end, or can be renewed."
	lapsed    = "%d thing that you held is over."
	unplanned = "%d thing that others hold ends within days, and nothing is planned by which it could be renewed."
	rostered  = "%d thing is over that somebody on the coming roster has to hold."
	look      = "Sign in to see what it is, and what to do next:"
	why       = "This message names nobody and nothing, on purpose. Your agency has Wellshown send it, at most once a day. A coordinator of your agency can change that."
)

// texts has each sentence in each language.
var texts = func() *catalog.Builder {
	b := catalog.NewBuilder(catalog.Fallback(language.English))
	number := func(tag language.Tag, key, one, other string) {
		if err := b.Set(tag, key, plural.Selectf(1, "%d", plural.One, one, plural.Other, other)); err != nil {
			panic(err) // a fixed text
		}
	}
	plain := func(tag language.Tag, key, text string) {
		if err := b.SetString(tag, key, text); err != nil {
			panic(err) // a fixed text
		}
	}
	en, es := language.English, language.Spanish
	number(en, subject, subject, "Wellshown: %d things wait for you")
	number(es, subject, "Wellshown: %d asunto le espera", "Wellshown: %d asuntos le esperan")
	number(en, due, due, "%d things that you hold come to their end, or can be renewed.")
	number(es, due, "%d competencia suya llega a su fin o ya se puede renovar.", "%d competencias suyas llegan a su fin o ya se pueden renovar.")
	number(en, lapsed, lapsed, "%d things that you held are over.")
	number(es, lapsed, "%d competencia suya ha vencido.", "%d competencias suyas han vencido.")
	number(en, unplanned, unplanned, "%d things that others hold end within days, and nothing is planned by which they could be renewed.")
	number(es, unplanned, "%d competencia de otras personas vence en unos días y no hay nada previsto para renovarla.", "%d competencias de otras personas vencen en unos días y no hay nada previsto para renovarlas.")
	number(en, rostered, rostered, "%d things are over that people on the coming roster have to hold.")
	number(es, rostered, "%d competencia que exige un turno próximo ha vencido.", "%d competencias que exigen los próximos turnos han vencido.")
	plain(en, look, look)
	plain(es, look, "Inicie sesión para ver de qué se trata y qué hacer:")
	plain(en, why, why)
	plain(es, why, "Este mensaje no nombra a nadie ni nada, a propósito. Su agencia lo envía por medio de Wellshown, como mucho una vez al día. Una coordinadora o un coordinador de su agencia puede cambiarlo.")
	return b
}()

// written is the subject and the text of a letter.
func (l Letter) written() (title, body string) {
	p := message.NewPrinter(language.Make(l.Language), message.Catalog(texts))
	c := l.Counts
	var lines []string
	for _, one := range []struct {
		key string
		n   int
	}{{lapsed, c.Lapsed}, {due, c.Due}, {rostered, c.Rostered}, {unplanned, c.Unplanned}} {
		if one.n > 0 {
			lines = append(lines, p.Sprintf(one.key, one.n))
		}
	}
	lines = append(lines, "", p.Sprintf(look), l.Link, "", p.Sprintf(why))
	return p.Sprintf(subject, c.Lapsed+c.Due+c.Rostered+c.Unplanned), strings.Join(lines, "\n") + "\n"
}

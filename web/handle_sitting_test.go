package web

import (
	"net/http"
	"strconv"
	"strings"
	"testing"
	"time"
)

// A check whose time is over takes no answer any more, says in the reader's language what is
// kept and how to go on, and comes to no pass (the issue's own rule, no other source).
func TestACheckWhoseTimeIsOver(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	const bank = "/checks/suction"
	p := b.at.get(bank).wants(http.StatusOK).form(bank + "/starters").send().wants(http.StatusOK)
	p.form(bank+"/rule").send("asked", "to learn", "length", "10", "pass_mark", "9/10", "open_minutes", "5").wants(http.StatusUnprocessableEntity).says("Give a whole number from 10 to 1440.")
	p.form(bank+"/rule").send("asked", "to learn", "length", "10", "pass_mark", "9/10", "open_minutes", "90").wants(http.StatusOK).says("open for 90 minutes")
	if err := b.Office.SetLanguage(t.Context(), b.learner, "es"); err != nil {
		t.Fatal(err)
	}
	nurse := as(t, b.site, b.Ward, b.learner)
	p = nurse.get("/checks").wants(http.StatusOK).form(bank + "/sittings").send().wants(http.StatusOK).says("abierto hasta el")
	at := strings.TrimSuffix(p.form(p.at+"/answers").action, "/answers")
	nurse.get("/checks").wants(http.StatusOK).says("Está abierto hasta el")
	b.Pass(91 * time.Minute)
	nurse.get("/checks").wants(http.StatusOK).says("Su tiempo terminó el")
	p.form(at+"/answers").send("value", "12", "unit", "s", "chosen", "1", "go", "on").wants(http.StatusUnprocessableEntity).says("Se terminó el tiempo", "llegó tarde y no se guardó")
	b.at.get(at).wants(http.StatusOK).says("Its time was over on", "it comes to no pass")
	b.at.get(bank).wants(http.StatusOK).says("The time of one try was over on")
	nurse.get(at).wants(http.StatusOK).saysNot("llegó tarde").form(at+"/handing-in").send().wants(http.StatusOK).says("no cuenta como aprobado", "Todavía no")
	b.at.get(bank).wants(http.StatusOK).says("handed in when its time was over")
}

// Who could read what a check asks is told so before, and wherever its result is read (rule of
// this house, no published source).
func TestACheckOfWhoCouldReadIt(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	const bank = "/checks/suction"
	p := b.at.get(bank).wants(http.StatusOK).form(bank + "/starters").send().wants(http.StatusOK)
	p.form(bank+"/rule").send("asked", "to learn", "length", "1", "pass_mark", "1/10").wants(http.StatusOK)
	p = b.at.get("/checks").wants(http.StatusOK).form(bank+"/sittings").send().wants(http.StatusOK).says("You can read what this check asks", "ask one to sit with you")
	at := strings.TrimSuffix(p.form(p.at+"/answers").action, "/answers")
	b.at.get(at + "?question=all").form(at + "/handing-in").send().wants(http.StatusOK).says("could read what it asks, because of their work here.").saysNot("trainer was there. Passing")
	as(t, b.site, b.Ward, b.Educators[1]).get(at).wants(http.StatusOK).says("could read what it asks", "Was a trainer there?")
	nurse := as(t, b.site, b.Ward, b.learner)
	p = nurse.get("/checks").wants(http.StatusOK).form(bank + "/sittings").send().wants(http.StatusOK).saysNot("You can read what this check asks")
	at = strings.TrimSuffix(p.form(p.at+"/answers").action, "/answers")
	nurse.get(at + "?question=all").form(at + "/handing-in").send().wants(http.StatusOK).saysNot("could read what it asks")
}

// What is marked is the pair that has no answer yet, not one that was chosen (common
// practice, no source).
func TestAPairThatIsMissingIsMarked(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	const bank = "/checks/suction"
	p := b.at.get(bank).wants(http.StatusOK).form(bank + "/starters").send().wants(http.StatusOK)
	p.form(bank+"/rule").send("asked", "to learn", "length", "13", "pass_mark", "9/10").wants(http.StatusOK)
	nurse := as(t, b.site, b.Ward, b.learner)
	p = nurse.get("/checks").wants(http.StatusOK).form(bank + "/sittings").send().wants(http.StatusOK)
	at := strings.TrimSuffix(p.form(p.at+"/answers").action, "/answers")
	for n := 1; n <= 13; n++ {
		p = nurse.get(at + "?question=" + strconv.Itoa(n)).wants(http.StatusOK)
		if answer := p.form(at + "/answers"); answer.fields.Has("match-1") {
			p = answer.send("match-1", "1", "go", "on").wants(http.StatusUnprocessableEntity)
			if !strings.Contains(p.body, `href="#field-match-2"`) || strings.Contains(p.body, `href="#field-match-1"`) {
				t.Error("what is marked is not what is missing")
			}
			done := nurse.get(at + "?question=all").form(at + "/handing-in").send().wants(http.StatusOK)
			if !strings.Contains(done.body, "<li><b>") || strings.Contains(done.body, "</b>; <b>") {
				t.Error("pairs that are right run into each other")
			}
			return
		}
	}
	t.Error("no question asks for pairs")
}

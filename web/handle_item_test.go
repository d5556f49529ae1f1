package web

import (
	"net/http"
	"strings"
	"testing"
)

// An item is written, looked at, refused with each fault beside its field, kept, revised by
// two at once, asked no more and asked again; nothing that was typed is lost (the issue's own
// rules, no other source).
func TestAnItemOnPages(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	const bank = "/checks/suction"
	b.at.get(bank + "/questions.pdf").wants(http.StatusUnprocessableEntity) // there are none
	b.at.get(bank).wants(http.StatusOK).form(bank + "/starters").send().wants(http.StatusOK)
	b.at.get(bank).follow("Español").wants(http.StatusOK).says("13 questions on Tracheostomy suctioning in es")
	p := b.at.get(bank).follow("Write an item").wants(http.StatusOK).says("What kind of item?").follow("Pairs to match").wants(http.StatusOK)
	if !p.has(bank) || !strings.Contains(p.body, `name="pair-4-es"`) || strings.Contains(p.body, `name="pair-5-es"`) {
		t.Error("a match has no four pairs in both languages to begin with")
	}
	p = b.at.get(bank + "/new-item?kind=single").wants(http.StatusOK)
	typed := []string{"id", "our-one", "difficulty", "2", "ask-en", "When do you stop?", "teach-en", "The child shows it.", "option-1-en", "When it is pink.", "option-3-en", "When the child is pale."}
	fresh := bank + "/new-item"
	form := func(p *page, more ...string) *page { return p.form(fresh).send(append(typed, more...)...) }
	keptAsTyped := func(p *page, action, field, want string) {
		if got := p.form(action).fields.Get(field); got != want {
			t.Errorf("typed was %q, and %q stands there", want, got)
		}
	}
	bad := form(p, "id", "Ours & theirs", "do", "save").wants(http.StatusUnprocessableEntity).says("The item is not kept.", "small letters a to z")
	keptAsTyped(bad, fresh, "option-3-en", "When the child is pale.")
	bad = form(p, "do", "save").wants(http.StatusUnprocessableEntity).says("2 things need mending", "Say what is right.", "Name the source")
	keptAsTyped(bad, fresh, "option-3-en", "When the child is pale.")
	more := form(p, "do", "more").wants(http.StatusOK)
	if !strings.Contains(more.body, `name="option-6-es"`) {
		t.Error("there is no room for more")
	}
	keptAsTyped(more, fresh, "option-3-en", "When the child is pale.")
	typed = append(typed, "right", "3", "no-source", "yes")
	look := form(p, "do", "look").wants(http.StatusOK).says("When do you stop?", "Right, and told after handing in: When the child is pale.", "Flesch–Kincaid", "It is asked in English")
	keptAsTyped(look, fresh, "ask-en", "When do you stop?")
	b.at.get(bank + "/items/our-one").wants(http.StatusNotFound) // looking keeps nothing
	first := form(p, "do", "save").wants(http.StatusOK).says("It is kept.", "Version 1", "too few to say")
	form(p, "do", "save", "ask-en", "When?").wants(http.StatusUnprocessableEntity).says("an item with this id already")

	other := as(t, b.site, b.Ward, b.Educators[1]).get(bank + "/items/our-one").wants(http.StatusOK)
	first.form(bank+"/items/our-one").send("ask-es", "¿Cuándo para?", "teach-es", "Lo muestra el niño.", "option-1-es", "Rosado.", "option-2-es", "Pálido.", "do", "save").wants(http.StatusOK).says("Version 2", "One version before")
	late := other.form(bank+"/items/our-one").send("ask-en", "When do you stop at once?", "do", "save").wants(http.StatusUnprocessableEntity).says(b.Educators[0].Name+" has changed this item", "As "+b.Educators[0].Name+" kept it", "¿Cuándo para?")
	keptAsTyped(late, bank+"/items/our-one", "ask-en", "When do you stop at once?")
	late.form(bank+"/items/our-one").send("do", "save").wants(http.StatusOK).says("Version 3", "Two versions before")

	b.at.get(bank+"/items/our-one").form(bank+"/items/our-one/retirement").send("retired", "yes").wants(http.StatusOK)
	p = b.at.get(bank+"/items/our-one").wants(http.StatusOK).says("It is not asked any more.", "Ask it again")
	p.form(bank+"/items/our-one").send("do", "save").wants(http.StatusOK).says("Ask it no more")
	for _, item := range []string{"suction-01", "suction-02", "suction-03", "suction-04", "suction-05", "suction-06", "suction-07"} { // saved as it stands nothing changes
		at := bank + "/items/" + item
		b.at.get(at).wants(http.StatusOK).form(at).send("do", "save").wants(http.StatusOK).says("Version 1")
	}
	as(t, b.site, b.Ward, b.Coordinator).get(bank + "/items/our-one").wants(http.StatusOK).says("How it is asked")
	nurse := as(t, b.site, b.Ward, b.learner)
	nurse.get(bank + "/items/our-one").wants(http.StatusForbidden)
	nurse.get(bank + "/new-item").wants(http.StatusForbidden)
}

// A check is printed once it was handed in, in the language in which it was taken, and not
// before: what is right is told nobody who still answers (common practice, no source).
func TestACheckIsPrinted(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	const bank = "/checks/suction"
	p := b.at.get(bank).wants(http.StatusOK).form(bank + "/starters").send().wants(http.StatusOK)
	p.form(bank+"/rule").send("asked", "to learn", "length", "10", "pass_mark", "9/10").wants(http.StatusOK)
	if err := b.Office.SetLanguage(t.Context(), b.learner, "es"); err != nil {
		t.Fatal(err)
	}
	nurse := as(t, b.site, b.Ward, b.learner)
	p = nurse.get("/checks").wants(http.StatusOK).form(bank + "/sittings").send().wants(http.StatusOK)
	at := strings.TrimSuffix(p.form(p.at+"/answers").action, "/answers")
	nurse.get(at + "/check.pdf").wants(http.StatusUnprocessableEntity).says("no está entregado todavía")
	b.at.get(at + "/check.pdf").wants(http.StatusUnprocessableEntity).says("not handed in yet")
	p = nurse.get(at + "?question=all").wants(http.StatusOK).form(at + "/handing-in").send().wants(http.StatusOK)
	if got := p.follow("Imprimir").wants(http.StatusOK); !strings.HasPrefix(got.body, "check of ") || !strings.HasSuffix(got.body, " in es") {
		t.Errorf("the paper is %q", got.body)
	}
	nurse.post(bank+"/sittings", p.form("/sign-out").fields).wants(http.StatusUnprocessableEntity).says("El próximo intento es a partir del")
}

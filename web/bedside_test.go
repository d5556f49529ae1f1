package web

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// marks gives the buttons of the marking form that give a mark.
func marks(form *html.Node) []*html.Node {
	var found []*html.Node
	for _, b := range all(form, "button") {
		if hasClass(b, "give") {
			found = append(found, b)
		}
	}
	return found
}

func markingForm(t *testing.T, page Page) *html.Node {
	t.Helper()
	for _, form := range all(parsedAll(t, map[string]Page{"marking": page})["marking"], "form") {
		if hasClass(form, "current") {
			return form
		}
	}
	t.Fatal("no marking form")
	return nil
}

// A preferred mark invites ticking through: until one is chosen all look
// alike, and only unsafe is set apart.
func TestNoMarkIsPreferred(t *testing.T) {
	buttons := marks(markingForm(t, markingSample()))
	var values []string
	for _, b := range buttons {
		values = append(values, attr(b, "value"))
		want := "give"
		if attr(b, "value") == "unsafe" {
			want = "give unsafe"
		}
		if attr(b, "class") != want || attr(b, "aria-pressed") != "false" {
			t.Errorf("%s has class %q and pressed %q", attr(b, "value"), attr(b, "class"), attr(b, "aria-pressed"))
		}
	}
	if got := strings.Join(values, ", "); got != "independent, cued, assisted, not met, unsafe" {
		t.Errorf("marks are %s", got)
	}
}

// Enter in a text field presses the first submit button of its form (HTML,
// implicit submission): it must never give a mark.
func TestEnterGivesNoMark(t *testing.T) {
	for name, page := range bedsideSamples() {
		marking, ok := page.(MarkingPage)
		if !ok || marking.Now.Number == 0 {
			continue
		}
		for _, b := range all(markingForm(t, marking), "button") {
			if attr(b, "type") != "submit" {
				continue
			}
			if attr(b, "value") != "" {
				t.Errorf("%s: Enter gives %q", name, attr(b, "value"))
			}
			break
		}
	}
}

func TestTheChosenMarkIsPressed(t *testing.T) {
	page := markingSample()
	page.Now.Marks = markButtons("cued")
	for _, b := range marks(markingForm(t, page)) {
		want := "false"
		if attr(b, "value") == "cued" {
			want = "true"
		}
		if attr(b, "aria-pressed") != want {
			t.Errorf("%s pressed %s, want %s", attr(b, "value"), attr(b, "aria-pressed"), want)
		}
	}
}

// Stopping is never one tap away from a mark: it is a link to a page that asks.
func TestStoppingAsksFirst(t *testing.T) {
	node := parsedAll(t, map[string]Page{"marking": markingSample()})["marking"]
	for _, b := range all(node, "button") {
		if strings.Contains(attr(b, "formaction"), "stop") {
			t.Error("a button stops at once")
		}
	}
	found := false
	for _, a := range all(node, "a") {
		found = found || attr(a, "href") == markingSample().Stop
	}
	if !found {
		t.Error("no way to stop")
	}
}

package web

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// marks gives the buttons of the marking form that give a mark.
func markButtonsIn(form *html.Node) []*html.Node {
	var found []*html.Node
	for _, b := range nodes(form, "button") {
		if hasClass(b, "give") {
			found = append(found, b)
		}
	}
	return found
}

func markingForm(t *testing.T, page Page) *html.Node {
	t.Helper()
	for _, form := range nodes(parsedAll(t, map[string]Page{"marking": page})["marking"], "form") {
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
	buttons := markButtonsIn(markingForm(t, markingSample()))
	var values []string
	for _, b := range buttons {
		values = append(values, attrOf(b, "value"))
		want := "give"
		if attrOf(b, "value") == "unsafe" {
			want = "give unsafe"
		}
		if attrOf(b, "class") != want || attrOf(b, "aria-pressed") != "false" {
			t.Errorf("%s has class %q and pressed %q", attrOf(b, "value"), attrOf(b, "class"), attrOf(b, "aria-pressed"))
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
		for _, b := range nodes(markingForm(t, marking), "button") {
			if attrOf(b, "type") != "submit" {
				continue
			}
			if attrOf(b, "value") != "" {
				t.Errorf("%s: Enter gives %q", name, attrOf(b, "value"))
			}
			break
		}
	}
}

func TestTheChosenMarkIsPressed(t *testing.T) {
	page := markingSample()
	page.Now.Marks = markButtons("cued")
	for _, b := range markButtonsIn(markingForm(t, page)) {
		want := "false"
		if attrOf(b, "value") == "cued" {
			want = "true"
		}
		if attrOf(b, "aria-pressed") != want {
			t.Errorf("%s pressed %s, want %s", attrOf(b, "value"), attrOf(b, "aria-pressed"), want)
		}
	}
}

// Stopping is never one tap away from a mark: it is a link to a page that asks.
func TestStoppingAsksFirst(t *testing.T) {
	node := parsedAll(t, map[string]Page{"marking": markingSample()})["marking"]
	for _, b := range nodes(node, "button") {
		if strings.Contains(attrOf(b, "formaction"), "stop") {
			t.Error("a button stops at once")
		}
	}
	found := false
	for _, a := range nodes(node, "a") {
		found = found || attrOf(a, "href") == markingSample().Stop
	}
	if !found {
		t.Error("no way to stop")
	}
}

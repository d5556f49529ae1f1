package web

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// checkNothingInline: the content security policy would refuse it.
func checkNothingInline(t *testing.T, name string, node *html.Node) {
	for n := range node.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if n.Data == "style" || n.Data == "script" && (attr(n, "src") == "" || n.FirstChild != nil) {
			t.Errorf("%s: inline %s", name, n.Data)
		}
		for _, a := range n.Attr {
			value := strings.ToLower(strings.TrimSpace(a.Val))
			if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
				t.Errorf("%s: attribute %s on %s", name, a.Key, n.Data)
			}
			address := a.Key == "href" || a.Key == "src" || a.Key == "action" || a.Key == "formaction"
			if address && (strings.HasPrefix(value, "javascript:") || strings.Contains(value, "://") || strings.HasPrefix(value, "//")) {
				t.Errorf("%s: %s=%q on %s", name, a.Key, a.Val, n.Data)
			}
		}
	}
}

// checkHeadings: one h1 with words, no level left out (WCAG 1.3.1, 2.4.6).
func checkHeadings(t *testing.T, name string, node *html.Node) {
	ones, last := 0, 0
	for _, h := range all(node, "h1", "h2", "h3", "h4", "h5", "h6") {
		level := int(h.Data[1] - '0')
		if level == 1 {
			ones++
		}
		// Some pages state a fault or a way of reading before their h1.
		if level > last+1 && last > 0 {
			t.Errorf("%s: h%d after h%d", name, level, last)
		}
		last = level
		if text(h) == "" {
			t.Errorf("%s: empty %s", name, h.Data)
		}
	}
	if ones != 1 {
		t.Errorf("%s: %d h1", name, ones)
	}
}

// checkLandmarks: language (3.1.1), title (2.4.2), landmarks and a way past
// the repeated part (2.4.1).
func checkLandmarks(t *testing.T, name string, node *html.Node) {
	if attr(all(node, "html")[0], "lang") == "" {
		t.Errorf("%s: no lang", name)
	}
	if title := text(all(node, "title")[0]); title == "" || strings.HasPrefix(title, "·") && !strings.Contains(name, "empty") {
		t.Errorf("%s: title %q", name, title)
	}
	for _, tag := range []string{"header", "main", "footer"} {
		if n := len(all(node, tag)); n != 1 {
			t.Errorf("%s: %d %s", name, n, tag)
		}
	}
	labels := map[string]bool{}
	for _, nav := range all(node, "nav") {
		label := attr(nav, "aria-label")
		if label == "" || labels[label] {
			t.Errorf("%s: nav labelled %q", name, label)
		}
		labels[label] = true
	}
	if first := all(node, "a")[0]; attr(first, "href") != "#main" {
		t.Errorf("%s: the first link is not the skip link", name)
	}
}

// checkIDs: each id once, and whatever points to one finds it.
func checkIDs(t *testing.T, name string, node *html.Node) {
	ids := idsOf(node)
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%s: id %s %d times", name, id, n)
		}
	}
	for n := range node.Descendants() {
		for _, a := range n.Attr {
			var wanted []string
			switch a.Key {
			case "for", "popovertarget", "data-stopwatch":
				wanted = []string{a.Val}
			case "aria-describedby", "aria-labelledby":
				wanted = strings.Fields(a.Val)
			}
			for _, id := range wanted {
				if ids[id] == 0 {
					t.Errorf("%s: %s points to %s, which is not there", name, a.Key, id)
				}
			}
		}
	}
}

// checkLabels: each control has a visible or hidden label (1.3.1, 3.3.2,
// 4.1.2); radios and ticks stand in a group with a legend.
func checkLabels(t *testing.T, name string, node *html.Node) {
	labelled := map[string]bool{}
	for _, label := range all(node, "label") {
		labelled[attr(label, "for")] = text(label) != ""
	}
	for _, control := range all(node, "input", "select", "textarea") {
		kind := attr(control, "type")
		if kind == "hidden" {
			continue
		}
		if !labelled[attr(control, "id")] {
			t.Errorf("%s: %s %s has no label", name, control.Data, attr(control, "name"))
		}
		if kind == "password" && (attr(control, "autocomplete") == "" || attr(control, "value") != "") {
			t.Errorf("%s: password field %s lacks autocomplete or sends a value back", name, attr(control, "name"))
		}
		if kind == "radio" && len(all(inside(control, "fieldset"), "legend")) != 1 {
			t.Errorf("%s: radio %s stands in no group with a legend", name, attr(control, "name"))
		}
	}
}

// inside gives the nearest element of a kind around a node, or an empty one.
func inside(n *html.Node, tag string) *html.Node {
	for a := range n.Ancestors() {
		if a.Type == html.ElementNode && a.Data == tag {
			return a
		}
	}
	return &html.Node{}
}

// checkFaults: a field in fault says so and is tied to its message (3.3.1),
// and each link of the summary leads to a field.
func checkFaults(t *testing.T, name string, node *html.Node) {
	byID := map[string]*html.Node{}
	for n := range node.Descendants() {
		byID[attr(n, "id")] = n
	}
	for n := range node.Descendants() {
		if attr(n, "aria-invalid") != "true" {
			continue
		}
		tied := false
		for _, id := range strings.Fields(attr(n, "aria-describedby")) {
			tied = tied || byID[id] != nil && hasClass(byID[id], "fault") && text(byID[id]) != ""
		}
		if !tied {
			t.Errorf("%s: %s is in fault and not tied to its message", name, attr(n, "name"))
		}
	}
	if strings.Contains(name, " full") { // their faults name fields that no form has
		return
	}
	for n := range node.Descendants() {
		if !hasClass(n, "faults") {
			continue
		}
		for _, link := range all(n, "a") {
			id := strings.TrimPrefix(attr(link, "href"), "#")
			if strings.HasPrefix(attr(link, "href"), "#") && byID[id] == nil {
				t.Errorf("%s: the summary of faults leads to %s, which is not there", name, id)
			}
		}
	}
}

// checkTables: each header cell says what it heads (1.3.1).
func checkTables(t *testing.T, name string, node *html.Node) {
	for _, table := range all(node, "table") {
		if len(all(table, "th")) == 0 {
			t.Errorf("%s: a table without headers", name)
		}
	}
	for _, th := range all(node, "th") {
		if s := attr(th, "scope"); s != "col" && s != "row" || text(th) == "" {
			t.Errorf("%s: header %q with scope %q", name, text(th), s)
		}
	}
}

// checkForms: a form that changes something carries the token, and each form
// can be sent without a script.
func checkForms(t *testing.T, name string, node *html.Node) {
	for _, form := range all(node, "form") {
		tokens, buttons := 0, 0
		for _, input := range all(form, "input") {
			if attr(input, "name") == "csrf" && attr(input, "type") == "hidden" {
				tokens++
			}
		}
		for _, button := range all(form, "button") {
			if attr(button, "type") == "submit" {
				buttons++
			}
		}
		if attr(form, "method") == "post" && tokens != 1 {
			t.Errorf("%s: form %s carries %d tokens", name, attr(form, "action"), tokens)
		}
		if attr(form, "method") == "get" && tokens != 0 {
			t.Errorf("%s: form %s puts the token into the address", name, attr(form, "action"))
		}
		paper := hasClass(form.Parent, "papers") && buttons == 0 // nothing to choose from yet
		if buttons == 0 && !paper {
			t.Errorf("%s: form %s has no button", name, attr(form, "action"))
		}
	}
}

// checkNames: links and buttons have words (2.4.4, 4.1.2), and each button
// says whether it sends, since one without a type would.
func checkNames(t *testing.T, name string, node *html.Node) {
	for _, n := range all(node, "a", "button", "summary") {
		if text(n) == "" && !strings.Contains(name, "empty") {
			t.Errorf("%s: %s without words", name, n.Data)
		}
		if n.Data == "button" && attr(n, "type") == "" {
			t.Errorf("%s: button %q has no type", name, text(n))
		}
	}
	for _, svg := range all(node, "svg") {
		if attr(svg, "aria-hidden") != "true" {
			t.Errorf("%s: a shape speaks; its word stands beside it", name)
		}
	}
}

// checkHelp: no page without help.
func checkHelp(t *testing.T, name string, node *html.Node) {
	for _, d := range all(node, "details") {
		if hasClass(d, "help") {
			return
		}
	}
	t.Errorf("%s: no help", name)
}

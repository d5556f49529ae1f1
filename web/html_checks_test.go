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
		if n.Data == "style" || n.Data == "script" && (attrOf(n, "src") == "" || n.FirstChild != nil) {
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
	for _, h := range nodes(node, "h1", "h2", "h3", "h4", "h5", "h6") {
		level := int(h.Data[1] - '0')
		if level == 1 {
			ones++
		}
		// Some pages state a fault or a way of reading before their h1.
		if level > last+1 && last > 0 {
			t.Errorf("%s: h%d after h%d", name, level, last)
		}
		last = level
		if textOf(h) == "" {
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
	if attrOf(nodes(node, "html")[0], "lang") == "" {
		t.Errorf("%s: no lang", name)
	}
	if title := textOf(nodes(node, "title")[0]); title == "" || strings.HasPrefix(title, "·") && !strings.Contains(name, "empty") {
		t.Errorf("%s: title %q", name, title)
	}
	for _, tag := range []string{"header", "main", "footer"} {
		if n := len(nodes(node, tag)); n != 1 {
			t.Errorf("%s: %d %s", name, n, tag)
		}
	}
	labels := map[string]bool{}
	for _, nav := range nodes(node, "nav") {
		label := attrOf(nav, "aria-label")
		if label == "" || labels[label] {
			t.Errorf("%s: nav labelled %q", name, label)
		}
		labels[label] = true
	}
	if first := nodes(node, "a")[0]; attrOf(first, "href") != "#main" {
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
	for _, label := range nodes(node, "label") {
		labelled[attrOf(label, "for")] = textOf(label) != ""
	}
	for _, control := range nodes(node, "input", "select", "textarea") {
		kind := attrOf(control, "type")
		if kind == "hidden" {
			continue
		}
		if !labelled[attrOf(control, "id")] {
			t.Errorf("%s: %s %s has no label", name, control.Data, attrOf(control, "name"))
		}
		if kind == "password" && (attrOf(control, "autocomplete") == "" || attrOf(control, "value") != "") {
			t.Errorf("%s: password field %s lacks autocomplete or sends a value back", name, attrOf(control, "name"))
		}
		if kind == "radio" && len(nodes(groupAround(control, "fieldset"), "legend")) != 1 {
			t.Errorf("%s: radio %s stands in no group with a legend", name, attrOf(control, "name"))
		}
	}
}

// groupAround gives the nearest element of a kind around a node, or an empty one.
func groupAround(n *html.Node, tag string) *html.Node {
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
		byID[attrOf(n, "id")] = n
	}
	for n := range node.Descendants() {
		if attrOf(n, "aria-invalid") != "true" {
			continue
		}
		tied := false
		for _, id := range strings.Fields(attrOf(n, "aria-describedby")) {
			tied = tied || byID[id] != nil && hasClass(byID[id], "fault") && textOf(byID[id]) != ""
		}
		if !tied {
			t.Errorf("%s: %s is in fault and not tied to its message", name, attrOf(n, "name"))
		}
	}
	if strings.Contains(name, " full") { // their faults name fields that no form has
		return
	}
	for n := range node.Descendants() {
		if !hasClass(n, "faults") {
			continue
		}
		for _, link := range nodes(n, "a") {
			id := strings.TrimPrefix(attrOf(link, "href"), "#")
			if strings.HasPrefix(attrOf(link, "href"), "#") && byID[id] == nil {
				t.Errorf("%s: the summary of faults leads to %s, which is not there", name, id)
			}
		}
	}
}

// checkTables: each header cell says what it heads (1.3.1).
func checkTables(t *testing.T, name string, node *html.Node) {
	for _, table := range nodes(node, "table") {
		if len(nodes(table, "th")) == 0 {
			t.Errorf("%s: a table without headers", name)
		}
	}
	for _, th := range nodes(node, "th") {
		if s := attrOf(th, "scope"); s != "col" && s != "row" || textOf(th) == "" {
			t.Errorf("%s: header %q with scope %q", name, textOf(th), s)
		}
	}
}

// checkForms: a form that changes something carries the token, and each form
// can be sent without a script.
func checkForms(t *testing.T, name string, node *html.Node) {
	for _, form := range nodes(node, "form") {
		tokens, buttons := 0, 0
		for _, input := range nodes(form, "input") {
			if attrOf(input, "name") == "csrf" && attrOf(input, "type") == "hidden" {
				tokens++
			}
		}
		for _, button := range nodes(form, "button") {
			if attrOf(button, "type") == "submit" {
				buttons++
			}
		}
		if attrOf(form, "method") == "post" && tokens != 1 {
			t.Errorf("%s: form %s carries %d tokens", name, attrOf(form, "action"), tokens)
		}
		if attrOf(form, "method") == "get" && tokens != 0 {
			t.Errorf("%s: form %s puts the token into the address", name, attrOf(form, "action"))
		}
		paper := hasClass(form.Parent, "papers") && buttons == 0 // nothing to choose from yet
		if buttons == 0 && !paper {
			t.Errorf("%s: form %s has no button", name, attrOf(form, "action"))
		}
	}
}

// checkNames: links and buttons have words (2.4.4, 4.1.2), and each button
// says whether it sends, since one without a type would.
func checkNames(t *testing.T, name string, node *html.Node) {
	for _, n := range nodes(node, "a", "button", "summary") {
		if textOf(n) == "" && !strings.Contains(name, "empty") {
			t.Errorf("%s: %s without words", name, n.Data)
		}
		if n.Data == "button" && attrOf(n, "type") == "" {
			t.Errorf("%s: button %q has no type", name, textOf(n))
		}
	}
	for _, svg := range nodes(node, "svg") {
		if attrOf(svg, "aria-hidden") != "true" {
			t.Errorf("%s: a shape speaks; its word stands beside it", name)
		}
	}
}

// checkHelp: no page without help.
func checkHelp(t *testing.T, name string, node *html.Node) {
	for _, d := range nodes(node, "details") {
		if hasClass(d, "help") {
			return
		}
	}
	t.Errorf("%s: no help", name)
}

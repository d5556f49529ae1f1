package web

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// drawn gives every page to check: the samples, and for each declared page
// the empty struct and two full ones, with every flag set and with none.
func drawn(t *testing.T) map[string]*html.Node {
	t.Helper()
	all := samples()
	for _, page := range declaredPages {
		name := reflect.TypeOf(page).Name()
		all[name+" empty"] = page
		all[name+" full"] = filled(page, true, func(n int) string { return fmt.Sprintf("text%d", n) })
		all[name+" full, no flags"] = filled(page, false, func(n int) string { return fmt.Sprintf("text%d", n) })
	}
	return parsedAll(t, all)
}

func parsedAll(t *testing.T, all map[string]Page) map[string]*html.Node {
	t.Helper()
	_, pages := embedded()
	nodes := map[string]*html.Node{}
	for name, page := range all {
		body, err := pages.HTML(page)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, bad := range []string{"<no value>", "ZgotmplZ", "%!"} {
			if bytes.Contains(body, []byte(bad)) {
				t.Errorf("%s: contains %s", name, bad)
			}
		}
		nodes[name] = parsedHTML(t, body)
	}
	return nodes
}

func parsedHTML(t *testing.T, body []byte) *html.Node {
	t.Helper()
	node, err := html.Parse(bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	return node
}

// filled sets every field of a page: strings by number, so that ids differ;
// lists with two elements each.
func filled(page Page, flag bool, text func(int) string) Page {
	v := reflect.New(reflect.TypeOf(page)).Elem()
	n := 0
	fillValue(v, flag, text, &n)
	return v.Interface().(Page)
}

func fillValue(v reflect.Value, flag bool, text func(int) string, n *int) {
	*n++
	switch v.Kind() {
	case reflect.String:
		v.SetString(text(*n))
	case reflect.Int:
		v.SetInt(int64(*n))
	case reflect.Bool:
		v.SetBool(flag)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fillValue(v.Index(0), flag, text, n)
		fillValue(v.Index(1), flag, text, n)
	case reflect.Struct:
		for i := range v.NumField() {
			fillValue(v.Field(i), flag, text, n)
		}
	}
}

// What people type is shown as text and never as markup or address.
func TestHostileTextStaysText(t *testing.T) {
	_, pages := embedded()
	for _, evil := range []string{`"><script>alert(1)</script>`, `' onfocus='alert(1)`, `javascript:alert(1)`, "</textarea></title><style>*{}</style>"} {
		for _, page := range declaredPages {
			body, err := pages.HTML(filled(page, true, func(int) string { return evil }))
			if err != nil {
				t.Errorf("%T: %v", page, err)
				continue
			}
			name := fmt.Sprintf("%T with %s", page, evil)
			checkNothingInline(t, name, parsedHTML(t, body))
		}
	}
}

// TestHTML holds what a page must be for keyboard, screen reader and policy.
// WCAG 2.2 success criteria are named where one asks for it.
func TestHTML(t *testing.T) {
	checks := []func(*testing.T, string, *html.Node){
		checkNothingInline, checkHeadings, checkLandmarks, checkIDs, checkLabels, checkFaults, checkTables, checkForms, checkNames, checkHelp,
	}
	for name, node := range drawn(t) {
		for _, check := range checks {
			check(t, name, node)
		}
	}
}

// The shapes of the samples are all drawn: no page names one that is not there.
func TestShapesExist(t *testing.T) {
	for name, node := range parsedAll(t, samples()) {
		symbols := idsOf(node)
		for _, use := range nodes(node, "use") {
			if id := strings.TrimPrefix(attrOf(use, "href"), "#"); symbols[id] != 1 {
				t.Errorf("%s: no shape %q", name, id)
			}
		}
	}
}

func nodes(node *html.Node, tags ...string) []*html.Node {
	var found []*html.Node
	for n := range node.Descendants() {
		for _, tag := range tags {
			if n.Type == html.ElementNode && n.Data == tag {
				found = append(found, n)
			}
		}
	}
	return found
}

func attrOf(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func textOf(node *html.Node) string {
	var b strings.Builder
	for n := range node.Descendants() {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
	}
	return strings.TrimSpace(b.String())
}

func hasClass(n *html.Node, class string) bool {
	for _, c := range strings.Fields(attrOf(n, "class")) {
		if c == class {
			return true
		}
	}
	return false
}

func idsOf(node *html.Node) map[string]int {
	ids := map[string]int{}
	for n := range node.Descendants() {
		if id := attrOf(n, "id"); id != "" {
			ids[id]++
		}
	}
	return ids
}

package integration

import (
	"go/ast"
	"go/token"
	"io/fs"
	"regexp"
	"strconv"
	"testing"

	"wellshown/assessment/wording"
)

// Everything that is said by name in code or in a template has a translation into
// every language that families read. A sentence is a literal, so that it can be found
// here.
func TestHouseSaysEverythingInEveryLanguage(t *testing.T) {
	said := map[string]string{} // where each is said
	for _, f := range sources(t) {
		ast.Inspect(f.syntax, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				if format, ok := saidBy(call); ok {
					said[format] = f.name
				}
			}
			return true
		})
	}
	for name, text := range templates(t) {
		for _, m := range saidInTemplate.FindAllStringSubmatch(text, -1) {
			quoted := m[1] + m[2] // one of them
			format, err := strconv.Unquote(quoted)
			if err != nil {
				t.Fatalf("%s: %s: %v", name, quoted, err)
			}
			said[format] = name
		}
	}
	for format, where := range said {
		for _, l := range wording.Languages[1:] {
			if _, _, ok := wording.Known(l, format); !ok {
				t.Errorf("%s: %q is not known in %s", where, format, l.Own())
			}
		}
	}
}

// saidInTemplate finds what a template says: {{say "…"}}, and {{sayn 3 "one" "many"}}, where
// the form for many is the name of the sentence.
var saidInTemplate = regexp.MustCompile(`\bsay ("(?:[^"\\]|\\.)*")|\bsayn [^"{}]*"(?:[^"\\]|\\.)*" ("(?:[^"\\]|\\.)*")`)

// saidBy is the English text of a sentence that a call says: phrase.Of("…"),
// phrase.Count(n, "one", "many"), and Say and Count of wording.Words.
func saidBy(call *ast.CallExpr) (string, bool) {
	fun, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	at := -1
	pkg, named := fun.X.(*ast.Ident)
	ofPhrase := named && pkg.Name == "phrase"
	switch {
	case ofPhrase && fun.Sel.Name == "Of", fun.Sel.Name == "Say":
		at = 0
	case fun.Sel.Name == "Count" && len(call.Args) >= 3:
		at = 2
	}
	if at < 0 || len(call.Args) <= at {
		return "", false
	}
	lit, ok := call.Args[at].(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	format, err := strconv.Unquote(lit.Value)
	return format, err == nil
}

// templates reads the templates of all pages, by name.
func templates(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{}
	house := houseFS(t)
	err := fs.WalkDir(house, "web/templates", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(house, name)
		all[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

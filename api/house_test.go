package api

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The two tests below read this package's own source: what they hold cannot be seen
// from outside.

// TestHandlersCallTheOfficeOnce: a handler that calls two office methods in a row is
// a use case that has not been written yet, and the table must not lie about which
// one it calls.
func TestHandlersCallTheOfficeOnce(t *testing.T) {
	files := ownFiles(t)
	handlers := map[string]*ast.FuncDecl{}
	for _, file := range files {
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil {
				handlers[f.Name.Name] = f
			}
		}
	}
	lines := routeLines(files["routes.go"])
	if len(lines) != len(Table()) {
		t.Fatalf("routes.go has %d lines, and the table %d", len(lines), len(Table()))
	}
	for handler, calls := range lines {
		var want []string
		if calls != "" {
			want = []string{calls}
		}
		if got := officeCalls(handlers[handler]); !slices.Equal(got, want) {
			t.Errorf("the handler %s calls %q, and its line says %q", handler, got, want)
		}
	}
}

// routeLines are the handlers of a table by what their line says that they call.
func routeLines(file *ast.File) map[string]string {
	lines := map[string]string{}
	ast.Inspect(file, func(n ast.Node) bool {
		c, ok := n.(*ast.CompositeLit)
		if !ok || len(c.Elts) != 6 {
			return true
		}
		calls, isText := c.Elts[4].(*ast.BasicLit)
		add, isCall := c.Elts[5].(*ast.CallExpr)
		if !isText || !isCall {
			return true
		}
		handler := add.Args[len(add.Args)-1].(*ast.SelectorExpr).Sel.Name
		lines[handler], _ = strconv.Unquote(calls.Value)
		return true
	})
	return lines
}

// officeCalls are the methods of the office, or of the papers, that a function calls.
func officeCalls(f *ast.FuncDecl) []string {
	var calls []string
	if f == nil {
		return []string{"nothing: there is no such function"}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		method, ok := call.Fun.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if on, ok := method.X.(*ast.SelectorExpr); ok && (on.Sel.Name == "office" || on.Sel.Name == "papers") {
			calls = append(calls, method.Sel.Name)
		}
		return true
	})
	return calls
}

// TestJSONTagsStandInWireFiles: the shapes that strangers rely on are found in one
// place.
func TestJSONTagsStandInWireFiles(t *testing.T) {
	for name, file := range ownFiles(t) {
		if strings.HasPrefix(name, "wire_") {
			continue
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if f, ok := n.(*ast.Field); ok && f.Tag != nil && strings.Contains(f.Tag.Value, "json:") {
				t.Errorf("%s has a json tag: %s", name, f.Tag.Value)
			}
			return true
		})
	}
}

func ownFiles(t *testing.T) map[string]*ast.File {
	t.Helper()
	names, err := fs.Glob(os.DirFS("."), "*.go")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]*ast.File{}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		if files[name], err = parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

// TestEveryRouteIsPutInWords, and nothing else is.
func TestEveryRouteIsPutInWords(t *testing.T) {
	named := map[string]bool{}
	for _, r := range Table() {
		if named[r.Operation] {
			t.Errorf("two routes are named %s", r.Operation)
		}
		named[r.Operation] = true
		if words[r.Operation].summary == "" {
			t.Errorf("nothing is said of %s", r.Operation)
		}
	}
	for name := range words {
		if !named[name] {
			t.Errorf("words for %s, which is no route", name)
		}
	}
}

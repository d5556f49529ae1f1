package integration

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"regexp"
	"strings"
	"testing"
)

var testName = regexp.MustCompile("`((?:Test|Fuzz)[A-Z0-9][A-Za-z0-9]*)`")

// The list of security checks says of each one which tests show it: they are in the tree,
// and a line that names none says openly what is not done.
func TestSecurityChecksNameRealTests(t *testing.T) {
	list, err := fs.ReadFile(houseFS(t), "integration/security_checks.md")
	if err != nil {
		t.Fatal(err)
	}
	tests, checks := testsOfTheHouse(t), 0
	for line := range strings.SplitSeq(string(list), "\n") {
		names := testName.FindAllStringSubmatch(line, -1)
		for _, name := range names {
			if !tests[name[1]] {
				t.Errorf("there is no test %s: %.80s", name[1], line)
			}
		}
		if !strings.HasPrefix(line, "- ") && !strings.HasPrefix(line, "| 11.") {
			continue
		}
		checks++
		if len(names) == 0 && !strings.Contains(line, "not done") {
			t.Errorf("neither a test nor \"not done\": %.80s", line)
		}
	}
	if checks < 50 {
		t.Errorf("only %d checks were read", checks)
	}
	if claim := regexp.MustCompile(`(?i)\b(compliant|compliance|complies|comply|certified)\b`).FindString(string(list)); claim != "" {
		t.Errorf("the list claims something: %q", claim)
	}
}

// testsOfTheHouse are the names of all tests and fuzz targets that go test would find.
func testsOfTheHouse(t *testing.T) map[string]bool {
	t.Helper()
	names, set, house := map[string]bool{}, token.NewFileSet(), houseFS(t)
	err := fs.WalkDir(house, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (name == "node_modules" || name == "out" || name != "." && strings.HasPrefix(d.Name(), ".")):
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(name, "_test.go"):
			return nil
		}
		source, err := fs.ReadFile(house, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(set, name, source, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil {
				names[f.Name.Name] = true
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

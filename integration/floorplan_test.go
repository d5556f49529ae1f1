package integration

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// floor says what the packages below a folder may import: packages of ours, and
// packages from outside the standard library. A folder that is not listed is not
// part of the house.
type floor struct {
	ours    []string
	outside []string
	noClock bool // time.Now is forbidden
	pure    bool // no I/O and no context at all
}

const module = "wellshown"

// floorplan is the house. Arrows run down: cmd to web and api, these to reports,
// that to office, postgres and the core.
var floorplan = map[string]floor{
	"cmd/wellshown": {ours: []string{"api", "web", "reports", "assessment", "assessment/handover", "assessment/ledger", "assessment/mailing", "assessment/sealed", "assessment/office", "assessment/postgres", "assessment/catalog",
		"assessment/written", "assessment/phrase", "assessment/wording", "assessment/civil", "assessment/fault", "migrations", "cmd/wellshown/demo"}, outside: []string{"github.com/gin-gonic/gin", "golang.org/x/time"}},
	"cmd/wellshown/demo": {ours: []string{"assessment", "assessment/intake", "assessment/knowledge", "assessment/ledger", "assessment/office", "assessment/postgres", "assessment/catalog", "assessment/written", "assessment/civil", "assessment/fault"}},
	"cmd/localpg":        {ours: []string{"integration/cluster", "migrations"}, outside: []string{"golang.org/x/sys"}},
	"api": {ours: []string{"assessment", "assessment/handover", "assessment/intake", "assessment/ledger", "assessment/office", "assessment/postgres", "assessment/written", "assessment/phrase", "assessment/wording", "assessment/knowledge", "assessment/lesson", "assessment/civil", "assessment/fault"}, noClock: true,
		outside: []string{"github.com/gin-gonic/gin", "github.com/danielgtaylor/huma/v2"}},
	"web": {ours: []string{"assessment", "assessment/handover", "assessment/intake", "assessment/ledger", "assessment/office", "assessment/postgres", "assessment/drawing", "assessment/lesson", "assessment/reading", "assessment/phrase", "assessment/wording", "assessment/knowledge", "assessment/civil", "assessment/fault"}, noClock: true,
		outside: []string{"github.com/gin-gonic/gin", "rsc.io/qr"}},
	"reports": {ours: []string{"reports/subset", "assessment", "assessment/calendar", "assessment/intake", "assessment/workbook", "assessment/office", "assessment/postgres", "assessment/drawing", "assessment/lesson", "assessment/reading", "assessment/phrase", "assessment/wording", "assessment/knowledge", "assessment/civil", "assessment/fault"}, noClock: true,
		outside: []string{"github.com/jung-kurt/gofpdf", "github.com/go-fonts/dejavu", "rsc.io/qr", "golang.org/x/image", "golang.org/x/text"}},
	"reports/subset": {outside: []string{"golang.org/x/image"}, noClock: true, pure: true},
	"assessment/office": {ours: []string{"assessment", "assessment/calendar", "assessment/handover", "assessment/ledger", "assessment/mailing", "assessment/passkey", "assessment/scan", "assessment/intake", "assessment/sealed", "assessment/postgres", "assessment/catalog", "assessment/written", "assessment/drawing", "assessment/lesson", "assessment/reading", "assessment/phrase", "assessment/wording", "assessment/knowledge", "assessment/civil", "assessment/fault"},
		outside: []string{"golang.org/x/crypto", "github.com/pquerna/otp"}},
	"assessment/calendar":  {ours: []string{"assessment/civil"}, outside: []string{"github.com/arran4/golang-ical"}, noClock: true},
	"assessment/mailing":   {ours: []string{"assessment"}, outside: []string{"github.com/wneessen/go-mail", "golang.org/x/text"}, noClock: true},
	"assessment/phrase":    {ours: []string{"assessment/civil"}, noClock: true, pure: true},
	"assessment/wording":   {ours: []string{"assessment/civil", "assessment/phrase"}, outside: []string{"golang.org/x/text", "go.yaml.in/yaml/v3"}, noClock: true},
	"assessment/reading":   {noClock: true, pure: true},
	"assessment/drawing":   {ours: []string{"assessment/fault"}, noClock: true, pure: true},
	"assessment/lesson":    {ours: []string{"assessment/fault", "assessment/reading"}, outside: []string{"github.com/yuin/goldmark"}, noClock: true, pure: true},
	"assessment/knowledge": {ours: []string{"assessment", "assessment/civil", "assessment/fault"}, outside: []string{"go.yaml.in/yaml/v3"}, noClock: true, pure: true},
	"assessment/passkey":   {outside: []string{"github.com/go-webauthn/webauthn"}, noClock: true},
	"assessment/scan":      {ours: []string{"assessment/fault"}, noClock: true, pure: true},
	"assessment/sealed":    {noClock: true, pure: true},
	"assessment/intake": {ours: []string{"assessment/workbook", "assessment/civil", "assessment/fault"}, outside: []string{"github.com/arran4/golang-ical", "golang.org/x/text"},
		noClock: true, pure: true},
	"assessment/workbook": {ours: []string{"assessment/civil", "assessment/fault"}, outside: []string{"github.com/xuri/excelize/v2"}, noClock: true, pure: true},
	"assessment/postgres": {ours: []string{"assessment", "assessment/ledger", "assessment/knowledge", "assessment/civil", "assessment/fault"}, outside: []string{"github.com/jackc/pgx/v5", "github.com/riverqueue/river"}, noClock: true},
	"assessment/catalog":  {ours: []string{"assessment", "assessment/drawing", "assessment/knowledge", "assessment/lesson", "assessment/wording", "assessment/written", "assessment/fault"}, outside: []string{"go.yaml.in/yaml/v3"}, noClock: true},
	"assessment/written":  {ours: []string{"assessment", "assessment/civil", "assessment/fault"}, outside: []string{"go.yaml.in/yaml/v3"}, noClock: true},
	"assessment":          {ours: []string{"assessment/civil", "assessment/fault", "assessment/phrase"}, noClock: true, pure: true},
	"assessment/handover": {ours: []string{"assessment/ledger", "assessment/phrase"}, noClock: true, pure: true},
	"assessment/ledger":   {outside: []string{"github.com/gowebpki/jcs", "github.com/transparency-dev/merkle", "golang.org/x/mod"}, noClock: true, pure: true},
	"assessment/civil":    {noClock: true},
	"assessment/fault":    {ours: []string{"assessment/phrase"}, noClock: true, pure: true},
	"migrations":          {outside: []string{"github.com/pressly/goose/v3", "github.com/jackc/pgx/v5", "github.com/riverqueue/river", "golang.org/x/crypto", "golang.org/x/text"}},
	"integration":         {},
	"integration/browser": {},
	"integration/crowd":   {ours: []string{"integration/ward", "assessment", "assessment/office", "assessment/catalog", "assessment/civil"}, outside: []string{"github.com/jackc/pgx/v5"}},
	"integration/cluster": {outside: []string{"github.com/jackc/pgx/v5"}},
	"integration/mailbox": {},
	"integration/testdb": {ours: []string{"integration/cluster", "migrations"},
		outside: []string{"github.com/testcontainers/testcontainers-go", "github.com/jackc/pgx/v5"}},
	"integration/ward": {ours: []string{"integration/testdb", "assessment", "assessment/ledger", "assessment/office", "assessment/postgres", "assessment/catalog", "assessment/civil", "assessment/fault"}},
}

// impure is what the core may not know.
var impure = []string{"os", "net", "net/http", "database/sql", "context", "log", "log/slog", "io/fs", "embed", "math/rand", "math/rand/v2", "crypto/rand"}

// doors are packages from outside that one file alone may import.
var doors = map[string]string{"github.com/jung-kurt/gofpdf": "reports/paper.go", "github.com/pquerna/otp/hotp": "assessment/office/one_time.go"}

func TestFloorPlan(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range sources(t) {
		room := path.Dir(f.name)
		plan, known := floorplan[room]
		if !known {
			t.Errorf("%s: the folder %s is not part of the house: give it a floor or find it another home", f.name, room)
			continue
		}
		seen[room] = true
		checkImports(t, f, plan)
		if plan.noClock && usesClock(f.syntax) {
			t.Errorf("%s reads the clock: the time is handed in from above", f.name)
		}
	}
	for room := range floorplan {
		if !seen[room] && room != "integration" {
			t.Errorf("the plan has a room %s that is not there", room)
		}
	}
}

func TestTopLevelFolders(t *testing.T) {
	allowed := []string{"cmd", "api", "assessment", "reports", "migrations", "web", "integration", ".ci", ".git", ".data", "out", "node_modules"}
	entries, err := fs.ReadDir(houseFS(t), ".")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.IsDir() && !slices.Contains(allowed, e.Name()) {
			t.Errorf("there is a top-level folder %s: every room has a home in one of %v", e.Name(), allowed)
		}
	}
}

type source struct {
	name   string
	syntax *ast.File
}

func checkImports(t *testing.T, f source, plan floor) {
	t.Helper()
	for _, spec := range f.syntax.Imports {
		name := strings.Trim(spec.Path.Value, `"`)
		own, isOurs := strings.CutPrefix(name, module+"/")
		switch {
		case isOurs && !slices.Contains(plan.ours, own):
			t.Errorf("%s imports %s, which lies on no floor below it", f.name, own)
		case !isOurs && strings.Contains(name, ".") && !slices.ContainsFunc(plan.outside, func(p string) bool { return name == p || strings.HasPrefix(name, p+"/") }):
			t.Errorf("%s imports %s: it has another door", f.name, name)
		case plan.pure && slices.Contains(impure, name):
			t.Errorf("%s imports %s: this room is pure", f.name, name)
		}
		if door, only := doors[name]; only && f.name != door {
			t.Errorf("%s imports %s, which only %s may", f.name, name, door)
		}
	}
}

func usesClock(file *ast.File) bool {
	found := false
	ast.Inspect(file, func(n ast.Node) bool {
		call, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		pkg, ok := call.X.(*ast.Ident)
		if ok && pkg.Name == "time" && slices.Contains([]string{"Now", "Since", "Until", "After", "Tick"}, call.Sel.Name) {
			found = true
		}
		return true
	})
	return found
}

// sources parses every Go file of the house that is no test.
func sources(t *testing.T) []source {
	t.Helper()
	var files []source
	set := token.NewFileSet()
	err := fs.WalkDir(houseFS(t), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (name == "node_modules" || name == "out" || name != "." && strings.HasPrefix(d.Name(), ".")) {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		syntax, err := parser.ParseFile(set, filepath.Join("..", name), nil, parser.SkipObjectResolution)
		files = append(files, source{name, syntax})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

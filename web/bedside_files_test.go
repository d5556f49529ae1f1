package web

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"net/http/httptest"
	"path"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"wellshown/assessment/office"
)

// asked is what the bedside answers to a request for one of its files.
func asked(t *testing.T, name, encoding, tag string) *httptest.ResponseRecorder {
	t.Helper()
	file, there := NewBedside().files[name]
	if !there {
		t.Fatalf("the bedside has no %s", name)
	}
	r := httptest.NewRequest("GET", BedsidePrefix+name, nil)
	r.Header.Set("Accept-Encoding", encoding)
	r.Header.Set("If-None-Match", tag)
	w := httptest.NewRecorder()
	file.ServeHTTP(w, r)
	return w
}

// A browser asks again each time and is told that nothing changed (RFC 9111 section
// 5.2.2.4, RFC 9110 sections 8.8.3 and 13.1.2), and reads gzip where it says so (RFC
// 9110 section 12.5.3).
func TestBedsideFilesAreAskedForAgain(t *testing.T) {
	plain, packed := asked(t, "main.js", "", ""), asked(t, "main.js", "br;q=1, gzip;q=0.8", "")
	for _, w := range []*httptest.ResponseRecorder{plain, packed} {
		h := w.Header()
		if w.Code != 200 || h.Get("Cache-Control") != "no-cache" || h.Get("Content-Type") != "text/javascript; charset=utf-8" || h.Get("Vary") != "Accept-Encoding" || h.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%d %v", w.Code, h)
		}
		if again := asked(t, "main.js", "gzip", h.Get("ETag")); h.Get("Content-Encoding") == "gzip" && again.Code != 304 {
			t.Errorf("asked again: %d", again.Code)
		}
	}
	r, err := gzip.NewReader(packed.Body)
	if err != nil {
		t.Fatal(err)
	}
	read, err := io.ReadAll(r)
	if err != nil || !bytes.Equal(read, plain.Body.Bytes()) || plain.Header().Get("ETag") == packed.Header().Get("ETag") {
		t.Errorf("packed and plain differ, or have one mark: %v", err)
	}
	if refused := asked(t, "main.js", "gzip;q=0, br", ""); refused.Header().Get("Content-Encoding") != "" {
		t.Error("gzip is sent to whoever refuses it")
	}
}

// The first load is under 100 kB transferred. Heads of answers are not counted
// here, and are about 300 bytes each; BenchmarkBedside counts all.
func TestTheFirstLoadOfTheBedsideIsSmall(t *testing.T) {
	sum := 0
	for name := range NewBedside().files {
		sum += asked(t, name, "gzip", "").Body.Len()
	}
	t.Logf("%d bytes for all %d files", sum, len(NewBedside().files))
	if sum > 78_000 {
		t.Errorf("the bedside is %d bytes", sum)
	}
}

// No script is changed by leaving its comments out: none has a text of several lines, in
// which what looks like a comment is none (ECMA-262, section 12.9.6: templates may be).
func TestNoTextOfTheBedsideLooksLikeAComment(t *testing.T) {
	for name, file := range NewBedside().files {
		if path.Ext(name) != ".js" {
			continue
		}
		for line := range strings.Lines(string(file.body)) {
			if strings.HasPrefix(strings.TrimSpace(line), "//") {
				t.Errorf("%s is sent with the comment %q", name, line)
			}
			if strings.Count(line, "`")%2 != 0 {
				t.Errorf("%s has a text of several lines: %q", name, line)
			}
		}
	}
	if got := string(withoutComments([]byte("// a\n  // b\nconst c = \"// d\"; // e\n\nf()"))); got != "const c = \"// d\"; // e\n\nf()" {
		t.Errorf("left is %q", got)
	}
}

// What is allowed beyond every page's policy is asking this very site (W3C CSP3,
// sections 6.1.2, 6.1.8 and 6.1.14).
func TestTheBedsideAllowsNoMoreThanItNeeds(t *testing.T) {
	more, found := strings.CutPrefix(BedsidePolicy, ContentSecurityPolicy)
	if !found || more != "; manifest-src 'self'; worker-src 'self'" {
		t.Errorf("the policy is %q", BedsidePolicy)
	}
	for name := range NewBedside().files {
		ext := path.Ext(name)
		part := (ext == ".js" || ext == ".css") && name != "sw.js"
		if got := asked(t, name, "", "").Header().Get("Content-Security-Policy"); got != BedsidePolicy && !part {
			t.Errorf("%s has the policy %q", name, got)
		}
	}
	shell := asked(t, bedsideShell, "", "").Body.String()
	for _, inline := range []string{"<style", " style=", " onclick", "http:", "https:"} {
		if strings.Contains(shell, inline) {
			t.Errorf("the shell contains %q", inline)
		}
	}
}

// The worker keeps every file, knows each by its content, and is another one when any
// of them changes.
func TestTheWorkerKnowsEveryFile(t *testing.T) {
	var shell struct {
		Version string
		Files   map[string]string
	}
	first, _, _ := strings.Cut(asked(t, bedsideWorker, "", "").Body.String(), ";\n")
	if err := json.Unmarshal([]byte(strings.TrimPrefix(first, "self.shell = ")), &shell); err != nil {
		t.Fatal(err)
	}
	for name, file := range NewBedside().files {
		if name != bedsideWorker && shell.Files[name] != file.tag {
			t.Errorf("the worker knows %s as %q, and it is %q", name, shell.Files[name], file.tag)
		}
	}
	if len(shell.Files) != len(NewBedside().files)-1 {
		t.Errorf("the worker knows %d files", len(shell.Files))
	}
	worker := func(body string) string {
		b, err := readBedside(fstest.MapFS{"b/sw.js": {Data: []byte("x")}, "b/a.js": {Data: []byte(body)}}, "b")
		if err != nil {
			t.Fatal(err)
		}
		return string(b.files[bedsideWorker].body)
	}
	if worker("1") == worker("2") || worker("1") != worker("1") {
		t.Error("the worker does not follow what it keeps")
	}
}

// A module that asks for a file or a name which is not there would break the page only
// where somebody needs it.
func TestBedsideModulesFindEachOther(t *testing.T) {
	files := NewBedside().files
	imports := regexp.MustCompile(`import (?:\{([^}]*)\}|\* as \w+) from "\./([^"]+)"`)
	for name, file := range files {
		for _, m := range imports.FindAllStringSubmatch(string(file.body), -1) {
			from, there := files[m[2]]
			if !there {
				t.Errorf("%s asks for %s, which is not there", name, m[2])
				continue
			}
			for _, word := range strings.Split(m[1], ",") {
				word, _, _ = strings.Cut(strings.TrimSpace(word), " as ")
				if word != "" && !regexp.MustCompile(`export (async )?(const|let|function|class) `+word+`\b`).Match(from.body) {
					t.Errorf("%s asks %s for %s, which it does not give", name, m[2], word)
				}
			}
		}
	}
	for _, m := range regexp.MustCompile(`(?:href|src)="([a-z0-9.-]+)"`).FindAllSubmatch(files[bedsideShell].body, -1) {
		if _, there := files[string(m[1])]; !there {
			t.Errorf("the shell asks for %s", m[1])
		}
	}
}

// What somebody signs at the bedside is what the office keeps that they signed.
func TestTheBedsideSaysWhatASignatureMeans(t *testing.T) {
	words := string(NewBedside().files["words.js"].body)
	for part, meaning := range map[string]string{"learner": office.MeaningLearner, "observer": office.MeaningObserver} {
		if !strings.Contains(words, part+`: "`+meaning+`"`) {
			t.Errorf("the %s does not sign that %s", part, meaning)
		}
	}
}

// The bedside is drawn in the colours of every page: their contrast is held there.
func TestTheBedsideHasTheTokensOfEveryPage(t *testing.T) {
	token := regexp.MustCompile(`--[a-z-]+: (?:#[0-9A-F]{6}|ui-serif[^;]*|system-ui[^;]*);`)
	blocks := regexp.MustCompile(`(?s):root \{.*?\}`)
	ours := blocks.FindAllString(string(NewBedside().files["bedside.css"].body), 2)
	for i, theirs := range blocks.FindAllString(stylesheet(t), 2) {
		if a, b := token.FindAllString(ours[i], -1), token.FindAllString(theirs, -1); strings.Join(a, "") != strings.Join(b, "") || len(a) < 10 {
			t.Errorf("scheme %d has %v, and every page %v", i, a, b)
		}
	}
}

// Left and right follow the direction of the text (CSS Logical Properties, W3C), in every
// style sheet, and the shell asks for each of them.
func TestTheBedsideFollowsTheDirectionOfText(t *testing.T) {
	shell := string(NewBedside().files[bedsideShell].body)
	sheets := 0
	for name, file := range NewBedside().files {
		if path.Ext(name) != ".css" {
			continue
		}
		sheets++
		if !strings.Contains(shell, `<link rel="stylesheet" href="`+name+`">`) {
			t.Errorf("the shell does not ask for %s", name)
		}
		for _, m := range regexp.MustCompile(`(?m)[{;\s](?:(?:margin|padding|border)-(?:left|right)[a-z-]*|left|right|text-align: (?:left|right)|float: (?:left|right))\s*[:;]`).FindAllString(string(file.body), -1) {
			t.Errorf("%s says %q", name, strings.TrimSpace(m))
		}
	}
	if sheets < 2 {
		t.Errorf("there are %d style sheets", sheets)
	}
}

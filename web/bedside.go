package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"net/http"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/gin-gonic/gin"
)

// BedsidePrefix is where the page for the bedside lies, which works with the network
// off. It is the scope of its service worker too.
const BedsidePrefix = "/bedside/"

// BedsidePolicy is what the files of the bedside are written for: like every page, and
// they ask this site for data, have a manifest and a service worker of this site.
const BedsidePolicy = ContentSecurityPolicy + "; manifest-src 'self'; worker-src 'self'"

// The shell of the bedside and its service worker, by their names in the folder.
const (
	bedsideShell  = "index.html"
	bedsideWorker = "sw.js"
)

// Bedside are the files of the bedside's page. They hold no data and are the same for
// everybody. Their names do not change, so that a page that is open finds them while
// a new version waits.
type Bedside struct{ files map[string]bedsideFile }

type bedsideFile struct {
	body, packed []byte // as it is, and by gzip (RFC 1952)
	tag          string // of this content
	kind         string // media type
	part         bool   // a script or a style sheet of the page, no document and no worker
}

// embeddedBedside reads and packs them once in a process: nothing of them changes.
var embeddedBedside = sync.OnceValue(NewBedside)

// NewBedside reads the embedded files. It panics when they cannot be read.
func NewBedside() *Bedside {
	b, err := readBedside(staticFiles, "static/bedside")
	if err != nil {
		panic(err)
	}
	return b
}

func readBedside(files fs.FS, folder string) (*Bedside, error) {
	names, err := fs.Glob(files, folder+"/*")
	if err != nil {
		return nil, fmt.Errorf("list the files of the bedside: %w", err)
	}
	bodies := map[string][]byte{}
	for _, name := range names {
		if bodies[path.Base(name)], err = fs.ReadFile(files, name); err != nil {
			return nil, fmt.Errorf("read a file of the bedside: %w", err)
		}
		if path.Ext(name) == ".js" {
			bodies[path.Base(name)] = withoutComments(bodies[path.Base(name)])
		}
	}
	if bodies[bedsideWorker], err = told(bodies); err != nil {
		return nil, err
	}
	b := &Bedside{files: map[string]bedsideFile{}}
	for name, body := range bodies {
		if b.files[name], err = newBedsideFile(name, body); err != nil {
			return nil, fmt.Errorf("pack %s: %w", name, err)
		}
	}
	return b, nil
}

// withoutComments leaves out the lines of a script that are comments alone, which are a
// sixth of a first load. What stands beside or between other things stays.
func withoutComments(script []byte) []byte {
	var kept []byte
	for line := range bytes.Lines(script) {
		if !bytes.HasPrefix(bytes.TrimSpace(line), []byte("//")) {
			kept = append(kept, line...)
		}
	}
	return kept
}

// told is the service worker with the version of all files and a mark of each one's
// content before it: another content of any file makes another worker, which is how a
// browser learns of a new version.
func told(bodies map[string][]byte) ([]byte, error) {
	shell := struct {
		Version string            `json:"version"`
		Files   map[string]string `json:"files"`
	}{Files: map[string]string{}}
	all := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(bodies)) {
		all.Write([]byte(name + " " + tagOf(bodies[name])))
		if name != bedsideWorker {
			shell.Files[name] = tagOf(bodies[name])
		}
	}
	shell.Version = hex.EncodeToString(all.Sum(nil))[:hashDigits]
	list, err := json.Marshal(shell)
	if err != nil {
		return nil, fmt.Errorf("list the files of the bedside: %w", err)
	}
	return slices.Concat([]byte("self.shell = "), list, []byte(";\n"), bodies[bedsideWorker]), nil
}

func tagOf(body []byte) string {
	sum := sha256.Sum256(body)
	return hex.EncodeToString(sum[:])[:hashDigits]
}

func newBedsideFile(name string, body []byte) (bedsideFile, error) {
	ext := path.Ext(name)
	f := bedsideFile{body: body, tag: tagOf(body), kind: contentType(name), part: (ext == ".js" || ext == ".css") && name != bedsideWorker}
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return f, err
	}
	if _, err := w.Write(body); err != nil {
		return f, err
	}
	if err := w.Close(); err != nil {
		return f, err
	}
	if packed.Len() < len(body) {
		f.packed = packed.Bytes()
	}
	return f, nil
}

// serve sends a file by its plain name; the shell for no name.
func (b *Bedside) serve(s *Site) gin.HandlerFunc {
	return func(c *gin.Context) {
		name := c.Param("file")
		if name == "" {
			name = bedsideShell
		}
		file, ok := b.files[name]
		if !ok {
			s.NotFound(c)
			return
		}
		file.ServeHTTP(c.Writer, c.Request)
	}
}

// ofDocuments are what every answer says for documents and workers alone. Scripts and
// style sheets are neither, and there are many of them: without these a first load is
// a fifth smaller.
var ofDocuments = []string{"Content-Security-Policy", "Permissions-Policy", "X-Frame-Options", "Referrer-Policy", "Cross-Origin-Opener-Policy"}

// ServeHTTP sends the file, packed to whoever reads that. A browser asks each time
// whether it has changed; the service worker answers where nobody does.
func (f bedsideFile) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", BedsidePolicy)
	if f.part {
		for _, name := range ofDocuments {
			h.Del(name)
		}
	}
	h.Set("Cache-Control", "no-cache")
	h.Set("Content-Type", f.kind)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Vary", "Accept-Encoding")
	body, tag := f.body, f.tag
	if f.packed != nil && readsGzip(r) {
		h.Set("Content-Encoding", "gzip")
		body, tag = f.packed, f.tag+"-gzip"
	}
	h.Set("ETag", `"`+tag+`"`)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(body))
}

// readsGzip reports whether who asks says that they read gzip (RFC 9110 section 12.5.3).
func readsGzip(r *http.Request) bool {
	for coding := range strings.SplitSeq(r.Header.Get("Accept-Encoding"), ",") {
		name, weight, _ := strings.Cut(strings.ReplaceAll(coding, " ", ""), ";q=")
		if strings.EqualFold(name, "gzip") {
			return weight == "" || strings.Trim(weight, "0.") != ""
		}
	}
	return false
}

package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
	"time"
)

//go:embed static
var staticFiles embed.FS

// AssetPrefix is where static files are served, each under a name that holds
// the hash of its content.
const AssetPrefix = "/static/"

// ContentSecurityPolicy is what every page is written for: nothing inline,
// nothing from or to another host, no frame around it.
const ContentSecurityPolicy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; " +
	"form-action 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'"

// hashDigits is how much of the SHA-256 stands in a file's name: 64 bits, far
// more than a handful of files needs to differ.
const hashDigits = 16

// Assets are the embedded static files under their hashed names.
type Assets struct {
	urls  map[string]string // app.css → /static/app.0123456789abcdef.css
	files map[string]asset  // by URL
}

type asset struct {
	name string
	body []byte
}

// NewAssets reads the embedded files. It panics when they cannot be read.
func NewAssets() *Assets {
	assets, err := readAssets(staticFiles)
	if err != nil {
		panic(err)
	}
	return assets
}

func readAssets(files fs.FS) (*Assets, error) {
	a := &Assets{urls: map[string]string{}, files: map[string]asset{}}
	names, err := fs.Glob(files, "static/*")
	if err != nil {
		return nil, fmt.Errorf("list static files: %w", err)
	}
	for _, name := range names {
		// A folder's files go by their plain names elsewhere.
		if info, err := fs.Stat(files, name); err != nil {
			return nil, fmt.Errorf("look at a static file: %w", err)
		} else if info.IsDir() {
			continue
		}
		body, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, fmt.Errorf("read static file: %w", err)
		}
		a.add(path.Base(name), body)
	}
	return a, nil
}

func (a *Assets) add(name string, body []byte) {
	sum := sha256.Sum256(body)
	ext := path.Ext(name)
	url := AssetPrefix + strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:])[:hashDigits] + ext
	a.urls[name] = url
	a.files[url] = asset{name: name, body: body}
}

// URL gives the address of a static file by its plain name. A name that does
// not exist is an error, so that a page with a broken link is never drawn.
func (a *Assets) URL(name string) (string, error) {
	url, ok := a.urls[name]
	if !ok {
		return "", fmt.Errorf("no static file %q", name)
	}
	return url, nil
}

// ServeHTTP sends a static file. Its name changes with its content, so a
// browser may keep it for a year.
func (a *Assets) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	file, ok := a.files[r.URL.Path]
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	w.Header().Set("Content-Type", contentType(file.name))
	w.Header().Set("X-Content-Type-Options", "nosniff")
	http.ServeContent(w, r, file.name, time.Time{}, bytes.NewReader(file.body))
}

// contentType does not ask the machine's own table, which differs between
// machines and may not know a script from text.
func contentType(name string) string {
	switch path.Ext(name) {
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".svg":
		return "image/svg+xml"
	case ".html":
		return "text/html; charset=utf-8"
	case ".webmanifest":
		return "application/manifest+json"
	}
	return mime.TypeByExtension(path.Ext(name))
}

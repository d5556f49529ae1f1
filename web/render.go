package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"reflect"
	"strings"
	"sync"

	"wellshown/assessment/wording"
)

//go:embed templates
var templateFiles embed.FS

// A Page is what one screen shows: a struct that embeds Frame and a template
// of the same name (CoordinatorTodayPage is coordinator-today.html).
type Page interface{ frame() Frame }

// Pages holds the parsed template of every declared page, in each language.
type Pages struct {
	spoken map[wording.Language]map[string]*template.Template
}

// embedded reads the assets and parses the pages that the program holds, once in a process: each page has a copy of all
// parts in each language, which are many megabytes, and nothing of them changes.
var embedded = sync.OnceValues(func() (*Assets, *Pages) {
	assets := NewAssets()
	return assets, NewPages(assets)
})

// NewPages parses every template once. It panics when a page has no template,
// when a template has no page, or when a template does not parse: such a
// program must not start.
func NewPages(assets *Assets) *Pages {
	pages, err := parsePages(templateFiles, assets, declaredPages)
	if err != nil {
		panic(err)
	}
	return pages
}

func parsePages(files fs.FS, assets *Assets, declared []Page) (*Pages, error) {
	pages := &Pages{spoken: map[wording.Language]map[string]*template.Template{}}
	for _, l := range wording.Languages {
		base, err := template.New("base").
			Funcs(functions(assets, wording.In(l))).
			Option("missingkey=error").
			ParseFS(files, "templates/layout.html", "templates/parts/*.html")
		if err != nil {
			return nil, fmt.Errorf("parse layout and parts in %s: %w", l, err)
		}
		pages.spoken[l] = map[string]*template.Template{}
		for _, page := range declared {
			if err := pages.parse(files, base, l, templateName(page)); err != nil {
				return nil, err
			}
		}
	}
	return pages, pages.refuseStrays(files)
}

func (p *Pages) parse(files fs.FS, base *template.Template, l wording.Language, name string) error {
	set, err := base.Clone()
	if err != nil {
		return fmt.Errorf("copy the layout for page %s: %w", name, err)
	}
	set, err = set.ParseFS(files, "templates/pages/"+name)
	if err != nil {
		return fmt.Errorf("parse page %s: %w", name, err)
	}
	p.spoken[l][name] = set
	return nil
}

// template is that of a page in the language of its reader.
func (p *Pages) template(page Page) *template.Template {
	return p.spoken[page.frame().Words().Language()][templateName(page)]
}

// refuseStrays reports a template file that no page declares: it would be
// text that nobody can ever see, or a page that somebody forgot to declare.
func (p *Pages) refuseStrays(files fs.FS) error {
	found, err := fs.Glob(files, "templates/pages/*")
	if err != nil {
		return fmt.Errorf("list page templates: %w", err)
	}
	for _, file := range found {
		if p.spoken[wording.English][path.Base(file)] == nil {
			return fmt.Errorf("template %s belongs to no declared page", file)
		}
	}
	return nil
}

// templateName turns the type name of a page into its file name:
// SignInPage becomes sign-in.html.
func templateName(page Page) string {
	name := strings.TrimSuffix(reflect.TypeOf(page).Name(), "Page")
	var b strings.Builder
	for i, r := range name {
		if i > 0 && r >= 'A' && r <= 'Z' {
			b.WriteByte('-')
		}
		b.WriteRune(r)
	}
	return strings.ToLower(b.String()) + ".html"
}

// HTML draws a page into a buffer, so that a fault in a template can never
// leave half a page in somebody's browser.
func (p *Pages) HTML(page Page) ([]byte, error) {
	name := templateName(page)
	set := p.template(page)
	if set == nil {
		return nil, fmt.Errorf("draw page %s: not declared", name)
	}
	var b bytes.Buffer
	err := set.ExecuteTemplate(&b, "layout.html", page)
	if err != nil {
		return nil, fmt.Errorf("draw page %s: %w", name, err)
	}
	return b.Bytes(), nil
}

// Write draws a page and sends it with a status. Nothing is sent when drawing
// fails. Pages hold personal data, so no cache may keep them. They come in the language
// of whoever is signed in, which a cookie tells, or in that of the browser (RFC 9110,
// sections 8.5 and 12.5.5).
func (p *Pages) Write(w http.ResponseWriter, status int, page Page) error {
	body, err := p.HTML(page)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Language", string(page.frame().Words().Language()))
	w.Header().Add("Vary", "Accept-Language, Cookie")
	w.WriteHeader(status)
	_, err = w.Write(body)
	if err != nil {
		return fmt.Errorf("send page %s: %w", templateName(page), err)
	}
	return nil
}

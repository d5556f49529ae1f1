package api

import (
	"context"
	"fmt"
	"net/http"
	"strings"

	"github.com/danielgtaylor/huma/v2"
)

// file is an answer that is no JSON.
type file struct {
	Type        string `header:"Content-Type"`
	Disposition string `header:"Content-Disposition"`
	ETag        string `header:"ETag"` // empty: made of the body, as for all else
	Body        []byte
}

// drawn is a paper as a file to be kept under its name.
func drawn(kind string, body []byte, name string, err error) (*file, error) {
	if err != nil {
		return nil, err
	}
	return &file{Type: kind, Disposition: disposition(name), Body: body}, nil
}

// disposition names a file (RFC 6266): a plain name for all, the exact one for
// those who read it.
func disposition(name string) string {
	plain := strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' || strings.ContainsRune(`"\/%`, r) {
			return '_'
		}
		return r
	}, name)
	return fmt.Sprintf(`attachment; filename="%s"; filename*=UTF-8''%s`, plain, escaped(name))
}

// escaped keeps what RFC 8187, section 3.2.1, lets stand and writes the rest in percent.
func escaped(name string) string {
	var b strings.Builder
	for _, c := range []byte(name) {
		if c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || strings.IndexByte("!#$&+-.^_`|~", c) >= 0 {
			b.WriteByte(c)
			continue
		}
		fmt.Fprintf(&b, "%%%02X", c)
	}
	return b.String()
}

// as makes a handler answer with files of a kind, and tells the document so.
func as[I any](kind string, handle func(context.Context, caller, *I) (*file, error)) func(huma.API, huma.Operation) {
	add := on(handle)
	return func(door huma.API, op huma.Operation) {
		schema := &huma.Schema{Type: huma.TypeString}
		switch kind {
		case pdf, xlsx, zipped:
			schema.Format = "binary"
		case openAPIJSON, jsonText:
			schema.Type = huma.TypeObject
		}
		op.Responses["200"] = &huma.Response{Description: http.StatusText(http.StatusOK), Content: map[string]*huma.MediaType{kind: {Schema: schema}}}
		add(door, op)
	}
}

// The kinds of file.
const (
	pdf         = "application/pdf"
	csv         = "text/csv; charset=utf-8"
	xlsx        = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	zipped      = "application/zip"
	ical        = "text/calendar; charset=utf-8"
	yamlText    = "application/yaml"
	jsonText    = "application/json"
	openAPIJSON = "application/openapi+json"
	openAPIYAML = "application/openapi+yaml"
)

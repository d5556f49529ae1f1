package api

import (
	"context"
	"encoding/json"
	"fmt"
	"reflect"
	"sync"

	"github.com/danielgtaylor/huma/v2"

	"wellshown/assessment/office"
)

// config is how the framework is used: JSON only, no pages of its own, nothing
// added to answers.
func config() huma.Config {
	format := huma.Format{Marshal: huma.DefaultJSONFormat.Marshal, Unmarshal: readJSON}
	c := huma.DefaultConfig("Wellshown", "1.0.0")
	c.OpenAPIPath, c.DocsPath, c.SchemasPath = "", "", "" // the page of documents would load a script from elsewhere
	c.CreateHooks = nil                                   // they would put links into every answer
	c.Formats = map[string]huma.Format{"application/json": format, "json": format}
	c.Info.Description = about
	c.Info.License = nil
	c.Servers = []*huma.Server{{URL: Base}}
	c.Components.Responses = sharedResponses(c.Components.Schemas)
	c.Components.SecuritySchemes = map[string]*huma.SecurityScheme{
		"session": {Type: "http", Scheme: "bearer", Description: "The token that POST /sessions gives."},
		"program": {Type: "http", Scheme: "bearer", BearerFormat: office.TokenPrefix + "…", Description: "The token that an administrator has made for a program, as far as it allows the act. It counts before any cookie."},
	}
	return c
}

// sharedResponses are the answers that many routes have in common: each kind of
// problem, and that nothing has changed.
func sharedResponses(schemas huma.Registry) map[string]*huma.Response {
	problem := schemas.Schema(reflect.TypeFor[Problem](), true, "Problem")
	all := map[string]*huma.Response{"not-modified": {
		Description: "The entity tag sent as If-None-Match still stands.",
		Headers:     map[string]*huma.Param{"ETag": {Schema: &huma.Schema{Type: huma.TypeString}}},
	}}
	for _, k := range kinds {
		says := k.Title
		if k.Kind == "invalid" {
			says += ", or a rule says no" // both are 422
		}
		all[k.Kind] = &huma.Response{Description: says + ".", Content: map[string]*huma.MediaType{problemJSON: {Schema: problem}}}
	}
	return all
}

const about = `Proof that each person who looks after a child at home on a ventilator has been seen to do each skill well, lately enough, by someone entitled to say so.

It supports and never replaces the child's orders, the maker's instructions, local codes and licensed practice. In an emergency call the local emergency number.

Days are YYYY-MM-DD and mean days where the agency is. Instants are RFC 3339, in UTC. Ids are UUIDs in lower case. What belongs to another agency looks the same as what never was. Every refusal is a problem (RFC 9457); its errors name the fields that it is about. Its detail is in English, or in Spanish where Accept-Language prefers that and it is a sentence that families meet. Every answer to a GET has an entity tag.`

// tellIDs tells the document which parameters are ids. Requests are not held to
// it: what is no id is answered like one that never was.
func tellIDs(doc *huma.OpenAPI) {
	for _, item := range doc.Paths {
		for _, op := range []*huma.Operation{item.Get, item.Put, item.Post, item.Delete} {
			if op == nil {
				continue
			}
			for _, p := range op.Parameters {
				if p.In == "path" && (p.Name == "id" || p.Name == "stretch") {
					p.Schema = &huma.Schema{Type: huma.TypeString, Format: "uuid"}
				}
			}
		}
	}
}

// document is the OpenAPI document as it is sent, made when it is first asked for.
type document struct {
	of   *huma.OpenAPI
	once sync.Once
	json []byte
	yaml []byte
	err  error
}

func (d *document) make() error {
	d.once.Do(func() {
		if d.json, d.err = json.MarshalIndent(d.of, "", "  "); d.err == nil {
			d.yaml, d.err = d.of.YAML()
		}
		if d.err != nil {
			d.err = fmt.Errorf("write the OpenAPI document: %w", d.err)
		}
	})
	return d.err
}

func (e *edge) documentJSON(context.Context, caller, *struct{}) (*file, error) {
	if err := e.document.make(); err != nil {
		return nil, err
	}
	return &file{Type: openAPIJSON, Body: e.document.json}, nil
}

func (e *edge) documentYAML(context.Context, caller, *struct{}) (*file, error) {
	if err := e.document.make(); err != nil {
		return nil, err
	}
	return &file{Type: openAPIYAML, Body: e.document.yaml}, nil
}

package api

import (
	"context"
	"net/http"
	"path"
	"strconv"

	"github.com/danielgtaylor/huma/v2"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// AtPage is a request about one photo or scan of a paper.
type AtPage struct {
	ByID
	Number string `path:"number" doc:"The number of the photo or scan, from 1 to 10." example:"1"`
}

// read is the demonstration and the page that are meant. What is no number was never
// a page.
func (p AtPage) read() (assessment.DemonstrationID, int, error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](p.ID)
	if err != nil {
		return "", 0, err
	}
	number, err := strconv.Atoi(p.Number)
	if err != nil || number < 1 || number > office.MostPages {
		return "", 0, fault.Of(fault.NotFound, "A paper has photos or scans from 1 to %d.", office.MostPages)
	}
	return id, number, nil
}

type pageBody struct {
	AtPage
	RawBody []byte `contentType:"application/octet-stream"`
}

func (e *edge) attachPage(ctx context.Context, by caller, in *pageBody) (*answer[Sheet], error) {
	id, number, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.AttachPage(ctx, by.Actor, id, number, in.RawBody)
	if err != nil {
		return nil, err
	}
	return shown(sheet(v)), nil
}

func (e *edge) dropPage(ctx context.Context, by caller, in *AtPage) (*answer[Sheet], error) {
	id, number, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.DropPage(ctx, by.Actor, id, number)
	if err != nil {
		return nil, err
	}
	return shown(sheet(v)), nil
}

// pageFile is a photo or scan: to be kept, and shown by nothing that could run it.
type pageFile struct {
	Type        string `header:"Content-Type"`
	Disposition string `header:"Content-Disposition"`
	Policy      string `header:"Content-Security-Policy"`
	Body        []byte
}

// pageTypes are the types of pages by the ending of their names.
var pageTypes = map[string]string{".jpg": "image/jpeg", ".png": "image/png", ".pdf": pdf}

func (e *edge) paperPage(ctx context.Context, by caller, in *AtPage) (*pageFile, error) {
	id, number, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Page(ctx, by.Actor, id, number)
	if err != nil {
		return nil, err
	}
	return &pageFile{Type: pageTypes[path.Ext(name)], Disposition: disposition(name), Policy: "default-src 'none'; sandbox", Body: body}, nil
}

// asPage makes a handler answer with a page, and tells the document of which kinds.
func asPage(handle func(context.Context, caller, *AtPage) (*pageFile, error)) func(huma.API, huma.Operation) {
	add := on(handle)
	return func(door huma.API, op huma.Operation) {
		kinds := map[string]*huma.MediaType{}
		for _, kind := range pageTypes {
			kinds[kind] = &huma.MediaType{Schema: &huma.Schema{Type: huma.TypeString, Format: "binary"}}
		}
		op.Responses["200"] = &huma.Response{Description: http.StatusText(http.StatusOK), Content: kinds}
		add(door, op)
	}
}

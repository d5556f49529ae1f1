package api

import (
	"context"
	"mime"
	"net/http"
	"slices"

	"wellshown/assessment"
)

// Source is a checklist as it is written by hand. RFC 9512 names the media type;
// the others were in use before it.
type Source struct {
	ContentType string `header:"Content-Type" hidden:"true"`
	RawBody     []byte `contentType:"application/yaml"`
}

// text is the checklist, where it was sent as one.
func (s Source) text(request string) (string, error) {
	kind, _, err := mime.ParseMediaType(s.ContentType)
	if err != nil || !slices.Contains([]string{yamlText, "application/x-yaml", "text/yaml"}, kind) {
		return "", newProblem(kindOf(http.StatusUnsupportedMediaType), request, "Send the checklist as YAML, as application/yaml.")
	}
	return string(s.RawBody), nil
}

type sourceBody struct {
	ByID
	Source
}

type newSource struct{ Source }

func (e *edge) addChecklist(ctx context.Context, by caller, in *newSource) (*made[Revision], error) {
	text, err := in.text(by.request)
	if err != nil {
		return nil, err
	}
	v, err := e.office.AddChecklist(ctx, by.Actor, "checklist", text)
	if err != nil {
		return nil, err
	}
	return added(revision(v), "revisions", string(v.ID)), nil
}

func (e *edge) draftSource(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	text, err := e.office.DraftSource(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return &file{Type: yamlText, Body: []byte(text)}, nil
}

func (e *edge) saveDraft(ctx context.Context, by caller, in *sourceBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	text, err := in.text(by.request)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SaveDraft(ctx, by.Actor, id, text)
}

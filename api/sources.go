package api

import (
	"context"
	"mime"
	"net/http"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
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
	IfMatch string `header:"If-Match" doc:"The entity tag of the text that yours was made from, as GET gives it. Needed: else you might undo what somebody else has saved."`
	Source
}

// version is that of the text that was read; empty where it is not said. Tags are
// compared strongly (RFC 9110, section 13.1.1), so a weak one is like no other, and
// "*" would not tell what was read.
func (s sourceBody) version() string {
	tag, ok := strings.CutPrefix(strings.TrimSpace(s.IfMatch), `"`)
	if !ok {
		return ""
	}
	tag, _ = strings.CutSuffix(tag, `"`)
	return tag
}

// unkept is a conflict in the words of preconditions (RFC 9110, section 15.5.13,
// and RFC 6585, section 3).
func (s sourceBody) unkept(request string, err error) error {
	f, ok := fault.As(err)
	switch {
	case !ok || f.Kind != fault.Conflict:
		return err
	case s.version() == "":
		return newProblem(kindOf(http.StatusPreconditionRequired), request, "Send the entity tag of the text that yours was made from, as If-Match.")
	}
	return newProblem(kindOf(http.StatusPreconditionFailed), request, f.Message)
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
	v, err := e.office.DraftSource(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return &file{Type: yamlText, Body: []byte(v.Source), ETag: `"` + v.Version + `"`}, nil
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
	_, err = e.office.SaveDraft(ctx, by.Actor, office.DraftForm{Revision: id, Version: in.version(), Source: text})
	return nil, in.unkept(by.request, err)
}

package api

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humagin"
	"github.com/danielgtaylor/huma/v2/validation"

	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

// The framework keeps its manners in variables of its package, so they are set
// here once: problems are ours, names of fields are exact, and its messages are
// sentences.
func init() {
	huma.NewError = func(status int, says string, errs ...error) huma.StatusError {
		return mended(newRequestID(), status, says, errs)
	}
	huma.NewErrorWithContext = func(ctx huma.Context, status int, says string, errs ...error) huma.StatusError {
		p := mended(requestID(humagin.Unwrap(ctx).Writer), status, says, errs)
		if op := ctx.Operation(); p.Status == http.StatusRequestEntityTooLarge && op != nil && op.MaxBodyBytes > mostPage {
			p.Detail = office.PageTooLarge().Error()
		} else if p.Status == http.StatusRequestEntityTooLarge && op != nil && op.OperationID == "send-list" {
			p.Detail = intake.TooLarge().Error()
		}
		return p
	}
	huma.ValidateStrictCasing = true
	huma.DefaultArrayNullable = false
	validation.MsgUnexpectedProperty = "There is no such field here."
	validation.MsgExpectedRFC3339Date = "Write the day as YYYY-MM-DD, such as 2027-01-15."
	validation.MsgExpectedRFC3339DateTime = "Write the instant as RFC 3339 has it, such as 2027-01-15T19:30:00Z."
	validation.MsgExpectedBoolean = "This is true or false."
	validation.MsgExpectedInteger = "This is a whole number."
	validation.MsgExpectedNumber = "This is a number."
	validation.MsgExpectedString = "This is text."
	validation.MsgExpectedArray = "This is a list."
	validation.MsgExpectedObject = "This is an object."
	validation.MsgExpectedOneOf = "This is one of: %s."
	validation.MsgExpectedMinimumNumber = "This is at least %v."
	validation.MsgExpectedMaximumNumber = "This is at most %v."
	validation.MsgExpectedMaxLength = "This has at most %d characters."
	validation.MsgExpectedMaxItems = "This has at most %d entries."
	validation.MsgExpectedMaxProperties = "This has at most %d entries."
	validation.MsgExpectedRequiredProperty = missingMark + "%s"
}

// missingMark comes before the name of a field that is missing, which the
// framework tells at the place of the object around it.
const missingMark = "missing "

// mended turns what the framework found into a problem of ours. The value that was
// sent is never told back: it may be about somebody's health, and problems end up
// in logs.
func mended(request string, status int, says string, errs []error) *Problem {
	var faults []FieldFault
	for _, err := range errs {
		var tooLarge *http.MaxBytesError
		if errors.As(err, &tooLarge) { // whoever serves us has a limit of their own
			status, errs = http.StatusRequestEntityTooLarge, nil
			break
		}
		faults = append(faults, mendedFault(err))
	}
	if status == http.StatusUnprocessableEntity && !slices.ContainsFunc(faults, inBody) {
		// Nothing is wrong with the content, which is what 422 speaks of (RFC 9110, section 15.5.21).
		status = http.StatusBadRequest
	}
	p := newProblem(kindOf(status), request, detailOf(status, says, faults))
	if status == http.StatusUnprocessableEntity || len(faults) > 0 && !inBody(faults[0]) {
		p.Errors = faults
	}
	p.sort()
	return p
}

func mendedFault(err error) FieldFault {
	d, ok := err.(huma.ErrorDetailer)
	if !ok {
		return FieldFault{Detail: "This cannot be read."}
	}
	f := FieldFault{Location: d.ErrorDetail().Location, Detail: d.ErrorDetail().Message}
	if f.Location == "body" {
		f.Location = ""
	}
	f.Location = strings.TrimPrefix(f.Location, "body.")
	if name, missing := strings.CutPrefix(f.Detail, missingMark); missing {
		f.Location = strings.TrimPrefix(f.Location+"."+name, ".")
		f.Detail = "This must be given."
	}
	if strings.HasPrefix(f.Detail, "required ") {
		f.Detail = "This must be given."
	}
	if f.Detail == "unknown query parameter" {
		f.Detail = "There is no such parameter here."
	}
	return f
}

func inBody(f FieldFault) bool {
	for _, elsewhere := range []string{"query.", "path.", "header."} {
		if strings.HasPrefix(f.Location, elsewhere) {
			return false
		}
	}
	return true
}

func detailOf(status int, says string, faults []FieldFault) string {
	switch {
	case status == http.StatusRequestEntityTooLarge:
		return "This is too large: a body has at most 1 MiB."
	case status == http.StatusRequestTimeout:
		return "The body came too slowly."
	case status == http.StatusUnsupportedMediaType:
		return "Send JSON, as application/json."
	case status == http.StatusBadRequest && len(faults) > 0 && inBody(faults[0]):
		return faults[0].Detail
	case status == http.StatusBadRequest && len(faults) == 0:
		return "There is nothing in the body. Send JSON, as application/json."
	case len(faults) == 1:
		return "One thing needs mending."
	case len(faults) > 1:
		return fmt.Sprintf("%d things need mending.", len(faults))
	case status >= http.StatusInternalServerError:
		return "Something went wrong on our side."
	}
	return says
}

package api

import (
	"context"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// AtStep is a request about one step of a sheet.
type AtStep struct {
	ByID
	Step string `path:"step" doc:"The number of the step." example:"4"`
}

// read is the sheet and the step that are meant. What is no number was never a step.
func (s AtStep) read() (assessment.DemonstrationID, int, error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](s.ID)
	if err != nil {
		return "", 0, err
	}
	no, err := strconv.Atoi(s.Step)
	if err != nil || no < 1 || s.Step != strconv.Itoa(no) {
		return "", 0, fault.Of(fault.NotFound, "There is no such record.")
	}
	return id, no, nil
}

type markBody struct {
	AtStep
	Body MarkForm
}

func (e *edge) mark(ctx context.Context, by caller, in *markBody) (*answer[Sheet], error) {
	id, step, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Mark(ctx, by.Actor, id, in.Body.form(step))
	if err != nil {
		return nil, renamed(err, readingPlace)
	}
	return shown(sheet(v)), nil
}

// unmark takes back what stands at a step: the office reads an empty form so.
func (e *edge) unmark(ctx context.Context, by caller, in *AtStep) (*answer[Sheet], error) {
	id, step, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Mark(ctx, by.Actor, id, MarkForm{}.form(step))
	if err != nil {
		return nil, err
	}
	return shown(sheet(v)), nil
}

type marksBody struct {
	ByID
	Body StepMarks
}

func (e *edge) markAll(ctx context.Context, by caller, in *marksBody) (*answer[Sheet], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	var forms []office.MarkForm
	for _, m := range in.Body.Marks {
		forms = append(forms, m.form(m.Step))
	}
	v, err := e.office.MarkAll(ctx, by.Actor, id, forms)
	if err != nil {
		return nil, renamed(err, in.Body.place(err))
	}
	return shown(sheet(v)), nil
}

// readingPlace is where in a mark a value stands that the office found at fault.
func readingPlace(field string) string {
	if name, isReading := strings.CutPrefix(field, "value_"); isReading {
		return "readings." + name + ".value"
	}
	return field
}

var atStep = regexp.MustCompile(`mark step ([0-9]+):`)

// place says where in the list the step stands that the office refused.
func (s StepMarks) place(err error) func(string) string {
	at := "marks"
	if found := atStep.FindStringSubmatch(err.Error()); found != nil {
		for i, m := range s.Marks {
			if strconv.Itoa(m.Step) == found[1] {
				at = fmt.Sprintf("marks[%d]", i)
			}
		}
	}
	return func(field string) string { return at + "." + readingPlace(field) }
}

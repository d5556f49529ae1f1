package web

import (
	"errors"
	"maps"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// marking shows one step large: the one in the address, else the first that is open.
func (s *Site) marking(v *visit) error {
	sheet, err := s.sheet(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	step, err := stepOf(v, sheet)
	if err != nil {
		return err
	}
	return v.show(markingPage(v, sheet, step))
}

func (s *Site) sheet(v *visit) (office.SheetView, error) {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return office.SheetView{}, err
	}
	return s.office.Sheet(v.ctx(), v.by(), id)
}

// unlessRecorded leads whoever goes on with a sheet that has become a record to
// that record.
func (v *visit) unlessRecorded(err error) error {
	if errors.Is(err, office.ErrRecorded) {
		return v.to("/demonstrations/"+v.c.Param("id"), recordedAlready)
	}
	return err
}

// stepOf is the number of the step in the address; without one the first open
// step, or 0 where none is.
func stepOf(v *visit, sheet office.SheetView) (int, error) {
	text := v.c.Param("step")
	if text == "" {
		if len(sheet.Open) == 0 {
			return 0, nil
		}
		return sheet.Open[0].Step, nil
	}
	n, err := strconv.Atoi(text)
	if _, known := sheet.Checklist.Step(n); err != nil || !known {
		return 0, errNoPage
	}
	return n, nil
}

// mark keeps what was seen at a step and goes on to the next one that is open.
func (s *Site) mark(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	step, err := strconv.Atoi(v.c.Param("step"))
	if err != nil {
		return errNoPage
	}
	form := sentMark(v, step)
	sheet, err := s.office.Mark(v.ctx(), v.by(), id, form)
	if err == nil {
		return v.afterMark(sheet, step)
	}
	if errors.Is(err, office.ErrRecorded) {
		return v.unlessRecorded(err)
	}
	return s.markAgain(v, step, form, err)
}

// sentMark reads the form of a step. Without a mark of its own a button keeps the
// one that stands; "none" takes it back.
func sentMark(v *visit, step int) office.MarkForm {
	form := office.MarkForm{Step: step, Mark: v.form("mark"), Note: v.form("note"), Readings: sentReadings(v), Seen: v.form("version")}
	switch form.Mark {
	case "":
		form.Mark = v.form("was")
	case "none":
		form.Mark = ""
	}
	if form.Mark == notApplicable {
		form.Mark, form.NotApplicable, form.Reason = "", true, v.form("reason")
	}
	return form
}

const notApplicable = "not applicable"

func sentReadings(v *visit) map[string]postgres.Reading {
	read := map[string]postgres.Reading{}
	for field, values := range v.c.Request.PostForm {
		name, isValue := strings.CutPrefix(field, "value-")
		if isValue && len(values) > 0 {
			read[name] = postgres.Reading{Value: strings.TrimSpace(values[0]), Unit: v.form("unit-" + name)}
		}
	}
	return read
}

// afterMark says where to go on. Whoever gave a mark that still needs its value
// stays; a value out of range is said once more on the next step.
func (v *visit) afterMark(sheet office.SheetView, step int) error {
	at := demonstrationAt(sheet.ID)
	here := at + "/marks/" + strconv.Itoa(step)
	m := sheet.Marks[step]
	switch v.form("mark") {
	case "":
		return v.to(here, "Kept.")
	case "none":
		return v.to(here, "The mark is taken back.")
	}
	if why := openAt(sheet, step); why != "" {
		return v.to(here, "Marked "+string(m.Mark)+". It still "+why+".")
	}
	said := ""
	if out := outside(sheet, step); len(out) > 0 {
		said = "Step " + strconv.Itoa(step) + " counts as not met: out of range is " + strings.Join(out, ", ") + "."
	}
	if next := nextOpen(sheet, step); next > 0 {
		return v.to(at+"/marks/"+strconv.Itoa(next), said)
	}
	return v.to(at+"/review", said)
}

// nextOpen is the first open step after one, else the first of all; 0 for none.
func nextOpen(sheet office.SheetView, step int) int {
	for _, o := range sheet.Open {
		if o.Step > step {
			return o.Step
		}
	}
	if len(sheet.Open) > 0 {
		return sheet.Open[0].Step
	}
	return 0
}

// markAgain draws the step again with everything that was typed.
func (s *Site) markAgain(v *visit, step int, form office.MarkForm, err error) error {
	var labels []FieldFault
	for _, name := range slices.Sorted(maps.Keys(form.Readings)) {
		labels = append(labels, label("value_"+name, capital(name)))
	}
	faults, unknown := v.wrong(err, "Step "+strconv.Itoa(step)+" was not kept.", append(labels, label("mark", "Mark"), label("reason", "Why it does not apply"), label("note", "What you saw"))...)
	if unknown != nil {
		return unknown
	}
	for i, f := range faults.Fields {
		if name, isValue := strings.CutPrefix(f.Field, "value_"); isValue {
			faults.Fields[i].Field = Measure{Name: name}.FieldID()
		}
	}
	sheet, gone := s.sheet(v)
	if gone != nil {
		return v.unlessRecorded(gone)
	}
	page := markingPage(v, sheet, step)
	page.Faults = faults
	if fault.KindOf(err) != fault.Conflict { // else what stands there now must be seen
		page.Now.typed(v, form)
	}
	return v.again(page)
}

// typed puts what was sent in place of what is kept.
func (c *CurrentStep) typed(v *visit, form office.MarkForm) {
	c.Remark, c.Reason = v.form("note"), v.form("reason")
	for i, m := range c.Measures {
		read, sent := form.Readings[m.Name]
		if !sent {
			continue
		}
		c.Measures[i].Value, c.Measures[i].Outside = strings.TrimSpace(v.c.PostForm(m.FieldName())), false
		if read.Unit != "" {
			c.Measures[i].Unit = read.Unit
		}
	}
}

package web

import (
	"fmt"
	"io"
	"net/http"
	"path"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

// importsPath takes lists, which may be larger than any form.
const importsPath = "/imports"

// listWords are what lists of a kind are called, and where what they hold is looked at.
var listWords = map[intake.Kind]struct{ title, short, after, more string }{
	intake.People:    {"People", "people", "/people", "They get no password by it: invite each one on their page. What is known of somebody who is here is not changed."},
	intake.Clients:   {"Children", "children", "/clients", "By code and first name only. A code that is here is that child."},
	intake.Shifts:    {"Shifts", "shifts", "/coverage", "Times are on the agency’s clocks. A calendar file (iCalendar) is taken too: the event’s title begins with the child’s code, and who attends is on the shift; events that repeat or take whole days are refused. Coverage then tells which shifts break."},
	intake.CarriedIn: {"Competencies carried in", "competencies carried in", importsPath, "By old papers, from before. They make nobody current, and count as nothing that was observed here; they stand beside the standing, for planning. Attach the papers on each person’s page."},
}

func (s *Site) imports(v *visit) error {
	page, err := s.importsPage(v)
	if err != nil {
		return err
	}
	page.Kind = v.query("kind")
	return v.show(page)
}

func (s *Site) importsPage(v *visit) (ImportsPage, error) {
	d, err := s.office.Imports(v.ctx(), v.by())
	page := ImportsPage{Frame: v.frame("people")}
	for _, k := range intake.Kinds {
		w := listWords[k]
		page.Kinds = append(page.Kinds, Option{Value: string(k), Text: w.title})
		at := importsPath + "/templates/" + string(k)
		page.Lists = append(page.Lists, ListShape{Title: w.title, Columns: listColumns(k), CSV: at + ".csv", XLSX: at + ".xlsx", More: w.more})
	}
	for _, n := range d.Drafts {
		page.Waiting = append(page.Waiting, ImportLine{Name: n.FileName, Href: importAt(n.ID), Says: listWords[n.Kind].title + ", sent " + instant(n.At, d.Zone)})
	}
	return page, err
}

func listColumns(k intake.Kind) []ListColumn {
	var all []ListColumn
	for _, c := range intake.Columns(k) {
		all = append(all, ListColumn{c.Name, c.Says, c.Needed})
	}
	return all
}

func importAt(id assessment.RecordID) string { return importsPath + "/" + string(id) }

// importOf is where a list of a kind is sent; empty: not for who looks.
func (v *visit) importOf(k intake.Kind) string {
	if !v.may(assessment.BringIn) {
		return ""
	}
	return importsPath + "?kind=" + string(k)
}

// sendList keeps a file for its preview, or says why it cannot be read.
func (s *Site) sendList(v *visit) error {
	kind := v.form("kind")
	name, content, err := v.sentList()
	var id assessment.RecordID
	if err == nil {
		if !slices.Contains(intake.Kinds, intake.Kind(kind)) {
			err = &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"kind": "Choose what the list is of."}}
		} else {
			id, err = s.office.SendList(v.ctx(), v.by(), intake.Kind(kind), name, content)
		}
	}
	if err == nil {
		return v.to(importAt(id), "")
	}
	faults, unknown := v.wrong(err, "The file was not taken. Nothing was brought in.", label("kind", "The list is of"))
	if unknown != nil {
		return unknown
	}
	page, err := s.importsPage(v)
	if err != nil {
		return err
	}
	page.Kind, page.Faults = kind, faults
	return v.again(page)
}

// sentList is the file that was sent, with its name.
func (v *visit) sentList() (string, []byte, error) {
	if v.tooLarge {
		return "", nil, intake.TooLarge()
	}
	header, err := v.c.FormFile("list")
	if err != nil {
		return "", nil, fault.Of(fault.Invalid, "Nothing was sent. Choose a file: a table as CSV or XLSX.")
	}
	file, err := header.Open()
	if err != nil {
		return "", nil, fmt.Errorf("open the list that was sent: %w", err)
	}
	defer file.Close()
	content, err := io.ReadAll(file)
	if err != nil {
		return "", nil, fmt.Errorf("read the list that was sent: %w", err)
	}
	return header.Filename, content, nil
}

// listTemplate hands out an empty list with our columns and examples.
func (s *Site) listTemplate(v *visit) error {
	ending := path.Ext(v.c.Param("name"))
	body, name, err := s.opt.Papers.ListTemplate(v.ctx(), v.by(), intake.Kind(strings.TrimSuffix(v.c.Param("name"), ending)), strings.TrimPrefix(ending, "."))
	if err != nil {
		return err
	}
	kind := "text/csv; charset=utf-8"
	if ending == ".xlsx" {
		kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	}
	v.c.Header("Content-Disposition", `attachment; filename="`+name+`"`)
	v.c.Data(http.StatusOK, kind, body)
	return nil
}

func (s *Site) importPreview(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	preview, err := s.office.Import(v.ctx(), v.by(), id, nil)
	if err != nil {
		return err
	}
	return v.show(v.importPage(preview))
}

// carryOutImport brings a list in, or shows its preview again with the answers as they were given.
func (s *Site) carryOutImport(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	f := office.ImportForm{ID: id, Version: v.form("version"), Answers: map[int]string{}, LettersRight: v.ticked("letters")}
	for name, values := range v.c.Request.PostForm {
		if row, err := strconv.Atoi(strings.TrimPrefix(name, "row-")); err == nil && strings.HasPrefix(name, "row-") && len(values) > 0 {
			f.Answers[row] = values[0]
		}
	}
	done, preview, err := s.office.CarryOutImport(v.ctx(), v.by(), f)
	if err == nil {
		w := listWords[done.Kind]
		said := count(done.New, "row is", "rows are") + " brought in: " + w.short + "."
		if done.There > 0 {
			said += " " + count(done.There, "row was", "rows were") + " here already."
		}
		return v.to(w.after, said)
	}
	if preview.ID == "" {
		return err
	}
	page := v.importPage(preview)
	page.Letters = v.form("letters")
	if err := v.take(&page.Faults, err, "Nothing was brought in.", label("letters", "The letters")); err != nil {
		return err
	}
	for _, q := range page.Asks {
		if q.Answer == "" {
			page.Faults.Fields = append(page.Faults.Fields, FieldFault{q.Name, q.Label, "Choose one."})
		}
	}
	return v.again(page)
}

func (s *Site) dropList(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.DropList(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(importsPath, "The file is thrown away. Nothing of it was brought in.")
}

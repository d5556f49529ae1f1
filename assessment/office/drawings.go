package office

import (
	"context"
	"fmt"
	"regexp"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/drawing"
	"wellshown/assessment/fault"
	"wellshown/assessment/lesson"
	"wellshown/assessment/postgres"
)

// Drawings are line drawings by their names.
type Drawings map[string]drawing.Drawing

// drawingsFor finds what a lesson shows: the agency's drawings, and those that come with
// the program. One that is not there is left out.
func drawingsFor(ctx context.Context, tx *postgres.Tx, l lesson.Lesson) (Drawings, error) {
	all := Drawings{}
	names := l.Drawings()
	if len(names) == 0 {
		return all, nil
	}
	kept, err := tx.Lessons.Drawings(ctx, names...)
	if err != nil {
		return nil, err
	}
	for _, k := range kept {
		if all[k.Name], err = drawing.Read([]byte(k.SVG)); err != nil {
			return nil, fmt.Errorf("read the drawing %s: %w", k.Name, err)
		}
	}
	for _, name := range names {
		if _, have := all[name]; have {
			continue
		}
		d, err := catalog.Drawing(name)
		switch {
		case err == nil:
			all[name] = d
		case fault.KindOf(err) != fault.NotFound:
			return nil, err
		}
	}
	return all, nil
}

// lacking names the drawings that a lesson shows and nobody has.
func (d Drawings) lacking(l lesson.Lesson) []string {
	var none []string
	for _, name := range l.Drawings() {
		if _, have := d[name]; !have {
			none = append(none, name+".svg")
		}
	}
	return none
}

// DrawingForm is a line drawing that somebody sends.
type DrawingForm struct {
	Name string // such as suction-5 or suction-5.svg
	SVG  []byte
}

var drawingNames = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func (f DrawingForm) read() (postgres.Drawing, error) {
	var faults form
	n := postgres.Drawing{Name: strings.TrimSuffix(strings.ToLower(strings.TrimSpace(f.Name)), ".svg")}
	switch _, err := catalog.DrawingSource(n.Name); {
	case !drawingNames.MatchString(n.Name) || len(n.Name) > 60:
		faults.Add("name", "Name it with small letters, digits and hyphens, such as suction-5.")
	case err == nil:
		faults.Add("name", "A starter drawing has this name. Choose another one, such as %s-ours.", n.Name)
	}
	if len(f.SVG) == 0 {
		faults.Add("file", "Choose a file with a drawing (SVG).")
	} else if d, err := drawing.Read(f.SVG); err != nil {
		faults.Take("file", err)
	} else {
		n.SVG = d.SVG()
	}
	return n, faults.Err()
}

// AddDrawing keeps a drawing of the agency: never what was sent, but what was read of it,
// written anew. It is never changed after that, for lessons show it.
func (o *Office) AddDrawing(ctx context.Context, by assessment.Actor, f DrawingForm) (string, error) {
	if err := by.May(assessment.EditLessons); err != nil {
		return "", err
	}
	n, err := f.read()
	if err != nil {
		return "", err
	}
	err = o.as(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		kept, err := tx.Lessons.Drawings(ctx, n.Name)
		if err != nil {
			return err
		}
		if len(kept) > 0 {
			return faultAt("name", "There is a drawing of this name already, and what lessons show never changes. Choose another name.")
		}
		n.AddedAt = now.At
		if err := tx.Lessons.AddDrawing(ctx, n, by.Person); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditLessons, "drawing: "+n.Name, "")
	})
	return n.Name, err
}

// keepDrawings keeps with the agency's own the starter drawings that a lesson shows, so
// that what is in force looks the same with every later version of the program.
func keepDrawings(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, l lesson.Lesson, all Drawings) error {
	for _, name := range l.Drawings() {
		if err := tx.Lessons.KeepDrawing(ctx, postgres.Drawing{Name: name, SVG: all[name].SVG(), AddedAt: now.At}, by.Person); err != nil {
			return err
		}
	}
	return nil
}

package catalog

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"wellshown/assessment/drawing"
	"wellshown/assessment/fault"
	"wellshown/assessment/lesson"
	"wellshown/assessment/wording"
)

//go:embed lessons drawings
var teaching embed.FS

// LessonSource is the Markdown of the starter lesson of a skill in a language; what is
// not there is a fault of the kind NotFound. A starter lesson is a draft: a licensed
// clinician reviews it, and a qualified translator what is translated.
func LessonSource(code string, in wording.Language) ([]byte, error) {
	for _, known := range codes {
		if code != known {
			continue
		}
		src, err := teaching.ReadFile(path.Join("lessons", string(in), code+".md"))
		if err != nil {
			return nil, fault.Of(fault.NotFound, "There is no starter lesson %q in %s.", code, in.Own())
		}
		return src, nil
	}
	return nil, fault.Of(fault.NotFound, "There is no starter lesson %q.", code)
}

// Lesson reads the starter lesson of a skill in a language.
func Lesson(code string, in wording.Language) (lesson.Lesson, error) {
	src, err := LessonSource(code, in)
	if err != nil {
		return lesson.Lesson{}, err
	}
	l, err := lesson.Read(src)
	if err != nil {
		return l, fmt.Errorf("read starter lesson %s in %s: %w", code, in, err)
	}
	return l, nil
}

// DrawingSource is the SVG of a starter drawing by its name, such as "suction-1".
func DrawingSource(name string) ([]byte, error) {
	if strings.ContainsAny(name, "/\\.") {
		return nil, fault.Of(fault.NotFound, "There is no such drawing.")
	}
	src, err := teaching.ReadFile(path.Join("drawings", name+".svg"))
	if err != nil {
		return nil, fault.Of(fault.NotFound, "There is no such drawing.")
	}
	return src, nil
}

// Drawing reads a starter drawing by its name.
func Drawing(name string) (drawing.Drawing, error) {
	src, err := DrawingSource(name)
	if err != nil {
		return drawing.Drawing{}, err
	}
	d, err := drawing.Read(src)
	if err != nil {
		return d, fmt.Errorf("read starter drawing %s: %w", name, err)
	}
	return d, nil
}

// Drawings names all starter drawings.
func Drawings() ([]string, error) {
	files, err := fs.Glob(teaching, "drawings/*.svg")
	if err != nil {
		return nil, fmt.Errorf("list the starter drawings: %w", err)
	}
	var names []string
	for _, f := range files {
		names = append(names, strings.TrimSuffix(path.Base(f), ".svg"))
	}
	return names, nil
}

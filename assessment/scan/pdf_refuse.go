package scan

import (
	"maps"
	"slices"

	"wellshown/assessment/fault"
)

// active are names that make a PDF do something, or carry something, besides being
// read (ISO 32000-1, sections 12.6, 12.7, 13 and 7.11.4).
var active = map[pdfName]bool{"JavaScript": true, "JS": true, "Launch": true, "AA": true, "EmbeddedFile": true, "EmbeddedFiles": true, "RichMedia": true, "XFA": true,
	"SubmitForm": true, "ImportData": true, "Movie": true, "Rendition": true, "GoToE": true, "GoToR": true, "Filespec": true}

// harmless refuses a PDF that is locked or that would do something, whether or not
// the part that does is reached from its pages.
func (f *pdfFile) harmless() error {
	for _, t := range f.trailers {
		if t["Encrypt"] != nil {
			return fault.Of(fault.Invalid, "This PDF is locked, so nobody can look into it. Save it without a password, or take a photo of the page.")
		}
	}
	for _, v := range f.every {
		if name := f.acts(v); name != "" {
			return fault.Of(fault.Invalid, "This PDF does more than show pages (it has /%s), so it was not taken. Scan the page as a plain PDF, or take a photo of it.", name)
		}
	}
	return nil
}

// acts is the first such name in a value; empty for none.
func (f *pdfFile) acts(v any) pdfName {
	switch v := v.(type) {
	case pdfName:
		if active[v] {
			return v
		}
	case pdfStream:
		return f.acts(v.dict)
	case pdfList:
		for _, one := range v {
			if name := f.acts(one); name != "" {
				return name
			}
		}
	case pdfDict:
		// To open at a place of the document is no act; it goes with all else that draws nothing.
		if opens, is := v["OpenAction"]; is {
			if _, place := f.resolved(opens).(pdfList); !place {
				return "OpenAction"
			}
		}
		if v["Subtype"] == pdfName("PS") { // a program for printers
			return "PS"
		}
		for _, key := range slices.Sorted(maps.Keys(v)) {
			if active[key] && !(key == "EmbeddedFiles" && f.empty(v[key])) {
				return key
			}
			if name := f.acts(v[key]); name != "" {
				return name
			}
		}
	}
	return ""
}

// empty reports whether a tree of names holds none, as some programs write it.
func (f *pdfFile) empty(v any) bool {
	tree, is := f.resolved(v).(pdfDict)
	names, list := f.resolved(tree["Names"]).(pdfList)
	return is && tree["Kids"] == nil && (tree["Names"] == nil || list && len(names) == 0)
}

// resolved follows references to what they stand for.
func (f *pdfFile) resolved(v any) any {
	for range 8 {
		ref, is := v.(pdfRef)
		if !is {
			return v
		}
		v = f.objects[ref.number]
	}
	return nil
}

package scan

import (
	"maps"
	"slices"
	"strconv"

	"wellshown/assessment/fault"
)

// document writes the pages of a PDF anew: the boxes of each page, what is drawn on
// it and with what. Nothing else of the file is copied, so that its words about
// itself, its links, its older states and whatever stands before, between and
// behind its objects are gone.
func document(sent []byte) (Page, error) {
	f, err := readPDF(sent)
	if err != nil {
		return Page{}, noLook()
	}
	if err := f.harmless(); err != nil {
		return Page{}, err
	}
	pages, err := f.pages()
	switch {
	case err != nil || len(pages) == 0:
		return Page{}, noLook()
	case len(pages) > MostSheets:
		return Page{}, fault.Of(fault.Invalid, "This PDF has %d pages; at most %d are taken in one file. Send it in parts.", len(pages), MostSheets)
	}
	if slices.ContainsFunc(pages, f.overlaid) {
		return Page{}, fault.Of(fault.Invalid, "Something is laid over the pages of this PDF (ink, notes or fields), which would be lost. Print it into a new PDF, or take a photo of the page.")
	}
	c := &pdfCopy{from: f, numbers: map[int]int{}, out: []any{nil, nil}}
	kids := pdfList{}
	for _, p := range pages {
		page, err := c.page(p)
		if err != nil {
			return Page{}, noLook()
		}
		c.out = append(c.out, page)
		kids = append(kids, pdfRef{number: len(c.out)})
	}
	if err := c.rest(); err != nil {
		return Page{}, noLook()
	}
	c.out[0] = pdfDict{"Type": pdfName("Catalog"), "Pages": pdfRef{number: 2}}
	c.out[1] = pdfDict{"Type": pdfName("Pages"), "Kids": kids, "Count": pdfNumber(strconv.Itoa(len(kids)))}
	return Page{Type: PDF, Content: writePDF(c.out), Sheets: len(pages)}, nil
}

func noLook() error {
	return fault.Of(fault.Invalid, "This PDF cannot be looked into, so it was not taken. Scan the page as a plain PDF, or take a photo of it.")
}

// inherited are what pages have from those above them (ISO 32000-1, table 30).
var inherited = []pdfName{"Resources", "MediaBox", "CropBox", "Rotate"}

// pages lists the pages in their order, each with all that it inherits.
func (f *pdfFile) pages() ([]pdfDict, error) {
	var root pdfDict
	for _, t := range f.trailers {
		if catalog, is := f.resolved(t["Root"]).(pdfDict); is {
			root = catalog
		}
	}
	top, is := f.resolved(root["Pages"]).(pdfDict)
	if !is {
		return nil, errPDF
	}
	var all []pdfDict
	return all, f.below(top, 0, &all)
}

func (f *pdfFile) below(node pdfDict, deep int, all *[]pdfDict) error {
	if f.values++; f.values > mostValues { // a tree that leads back into itself
		return errPDF
	}
	kids, branch := f.resolved(node["Kids"]).(pdfList)
	if !branch {
		*all = append(*all, node)
		return nil
	}
	for _, k := range kids {
		kid, is := f.resolved(k).(pdfDict)
		if !is || deep > mostDeep {
			return errPDF
		}
		own := pdfDict{}
		for key, v := range kid {
			own[key] = v
		}
		for _, key := range inherited {
			if own[key] == nil && node[key] != nil {
				own[key] = node[key]
			}
		}
		if err := f.below(own, deep+1, all); err != nil {
			return err
		}
	}
	return nil
}

// overlaid reports whether a page has notes of any kind but links, which draw nothing.
func (f *pdfFile) overlaid(page pdfDict) bool {
	notes, _ := f.resolved(page["Annots"]).(pdfList)
	return slices.ContainsFunc(notes, func(v any) bool {
		note, is := f.resolved(v).(pdfDict)
		return is && note["Subtype"] != pdfName("Link")
	})
}

// pdfCopy is a PDF being written anew from another.
type pdfCopy struct {
	from    *pdfFile
	numbers map[int]int // new ones by old ones
	waiting []int       // old ones whose objects are still to be copied
	out     []any       // objects from number 1 on
	values  int
}

// drawn are the parts of a page that make it look as it does.
var drawn = []pdfName{"Resources", "MediaBox", "CropBox", "Rotate", "Contents", "Group", "UserUnit"}

func (c *pdfCopy) page(p pdfDict) (pdfDict, error) {
	page := pdfDict{"Type": pdfName("Page"), "Parent": pdfRef{number: 2}}
	for _, key := range drawn {
		if p[key] == nil {
			continue
		}
		v, err := c.value(p[key], 0)
		if err != nil {
			return nil, err
		}
		page[key] = v
	}
	return page, nil
}

// rest copies what was referred to, until nothing new is.
func (c *pdfCopy) rest() error {
	for len(c.waiting) > 0 {
		old := c.waiting[0]
		c.waiting = c.waiting[1:]
		v, err := c.value(c.from.objects[old], 0)
		if err != nil {
			return err
		}
		c.out[c.numbers[old]-1] = v
	}
	return nil
}

// beside are words about a thing that is drawn, and ways back from it to what is not.
var beside = map[pdfName]bool{"Metadata": true, "PieceInfo": true, "Annots": true, "Parent": true, "StructParent": true, "StructParents": true,
	"AF": true, "LastModified": true, "OPI": true, "Ref": true, "Thumb": true}

func (c *pdfCopy) value(v any, deep int) (any, error) {
	if c.values++; deep > mostDeep || c.values > 2*mostValues {
		return nil, errPDF
	}
	switch v := v.(type) {
	case nil:
		return pdfKeyword("null"), nil
	case pdfRef:
		return pdfRef{number: c.number(v.number)}, nil
	case pdfList:
		list := pdfList{}
		for _, one := range v {
			copied, err := c.value(one, deep+1)
			if err != nil {
				return nil, err
			}
			list = append(list, copied)
		}
		return list, nil
	case pdfDict:
		return c.dict(v, deep)
	case pdfStream:
		return c.stream(v)
	}
	return v, nil
}

func (c *pdfCopy) dict(from pdfDict, deep int) (pdfDict, error) {
	to := pdfDict{}
	for _, key := range slices.Sorted(maps.Keys(from)) { // in one order, so that numbers are the same each time
		if beside[key] {
			continue
		}
		copied, err := c.value(from[key], deep+1)
		if err != nil {
			return nil, err
		}
		to[key] = copied
	}
	return to, nil
}

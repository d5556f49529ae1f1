package scan

// The values of a PDF (ISO 32000-1, section 7.3). Numbers are kept as they are
// written; null, true and false are keywords.
type (
	pdfName    string // without its stroke, escapes resolved
	pdfNumber  string
	pdfKeyword string
	pdfText    []byte
	pdfList    []any
	pdfDict    map[pdfName]any
	pdfRef     struct{ number, generation int }
	pdfStream  struct {
		dict pdfDict
		data []byte // as it lies in the file, before any filter
	}
)

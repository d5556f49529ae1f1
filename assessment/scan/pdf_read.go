package scan

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strconv"
)

// mostUnfolded is how many bytes all that is unfolded of one PDF may have.
const mostUnfolded = 64 << 20

// mostObjects is how many objects a PDF may have.
const mostObjects = 50_000

// pdfFile is what a PDF holds, by the numbers of its objects: of several under one
// number the last, as a file is changed by adding to its end (ISO 32000-1, section 7.5.6).
type pdfFile struct {
	objects  map[int]any
	every    []any // also those that others have replaced
	trailers []pdfDict
	values   int
	unfolded int64
}

var opening = regexp.MustCompile(`(?:^|[^0-9])([0-9]{1,9})[\x00\t\n\f\r ]+[0-9]{1,5}[\x00\t\n\f\r ]+obj|trailer`)

// found is an object as it stands in the file.
type found struct {
	number int
	value  any
	from   int // where the data of a stream begins
}

// readPDF reads all objects from the first byte to the last, whatever the tables of
// the file say about where they stand: what a table leaves out is looked at too.
func readPDF(all []byte) (*pdfFile, error) {
	f := &pdfFile{objects: map[int]any{}}
	there, err := f.listed(all)
	if err != nil {
		return nil, err
	}
	for _, o := range there { // so that lengths that stand behind their streams are known
		f.objects[o.number] = o.value
	}
	for i, o := range there {
		if s, is := o.value.(pdfStream); is {
			if n := whole(f.resolved(s.dict["Length"])); endsAt(all[o.from:], n) {
				there[i].value = pdfStream{s.dict, all[o.from : o.from+n]}
			}
		}
	}
	f.objects = map[int]any{}
	for _, o := range there {
		if err := f.add(o.number, o.value); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// listed are the objects in their order, and the trailers besides.
func (f *pdfFile) listed(all []byte) ([]found, error) {
	var there []found
	for at := 0; ; {
		m := opening.FindSubmatchIndex(all[at:])
		if m == nil {
			return there, nil
		}
		l := &lexer{all: all, at: at + m[1], values: &f.values}
		v, err := l.value(0)
		if err != nil || len(there) >= mostObjects {
			return nil, errPDF
		}
		dict, _ := v.(pdfDict)
		if m[2] < 0 {
			f.trailers, at = append(f.trailers, dict), l.at
			continue
		}
		o := found{value: v}
		if dict != nil {
			if from, data, is := l.stream(dict); is {
				o.value, o.from = pdfStream{dict, data}, from
			}
		}
		o.number, _ = strconv.Atoi(string(all[at+m[2] : at+m[3]]))
		there, at = append(there, o), l.at
	}
}

// endsAt reports whether a stream that begins here ends after so many bytes.
func endsAt(rest []byte, n int) bool {
	return n >= 0 && n <= len(rest) && bytes.HasPrefix(bytes.TrimLeft(rest[n:min(n+20, len(rest))], "\r\n "), []byte("endstream"))
}

// add takes an object in, and what is packed in it.
func (f *pdfFile) add(number int, v any) error {
	if len(f.every) >= mostObjects {
		return errPDF
	}
	f.every = append(f.every, v)
	f.objects[number] = v
	s, is := v.(pdfStream)
	switch {
	case !is:
		return nil
	case s.dict["Type"] == pdfName("XRef"):
		f.trailers = append(f.trailers, s.dict)
	case s.dict["Type"] == pdfName("ObjStm"):
		return f.unpack(s)
	}
	return nil
}

// stream is the data behind a dictionary, up to its "endstream", and where it begins.
func (l *lexer) stream(dict pdfDict) (from int, data []byte, is bool) {
	before := l.at
	l.blank()
	if !l.starts("stream") {
		l.at = before
		return 0, nil, false
	}
	l.at += len("stream")
	if l.starts("\r") {
		l.at++
	}
	if l.starts("\n") {
		l.at++
	}
	from = l.at
	rest := l.all[from:]
	if n := whole(dict["Length"]); endsAt(rest, n) {
		l.at += n
		return from, rest[:n], true
	}
	end := bytes.Index(rest, []byte("endstream"))
	if end < 0 {
		end = len(rest)
	}
	l.at += end
	return from, bytes.TrimSuffix(bytes.TrimSuffix(rest[:end], []byte("\n")), []byte("\r")), true
}

// unpack reads the objects within an object stream (ISO 32000-1, section 7.5.7).
func (f *pdfFile) unpack(s pdfStream) error {
	data, err := f.unfold(s)
	if err != nil {
		return err
	}
	n, first := whole(s.dict["N"]), whole(s.dict["First"])
	if n < 0 || n > mostObjects || first < 0 || first > len(data) {
		return errPDF
	}
	index := &lexer{all: data[:first], values: &f.values}
	for range n {
		number, err := index.integer()
		if err != nil {
			return err
		}
		offset, err := index.integer()
		if err != nil || offset > len(data)-first {
			return errPDF
		}
		l := &lexer{all: data, at: first + offset, values: &f.values}
		v, err := l.value(0)
		if err != nil || len(f.every) >= mostObjects {
			return errPDF
		}
		f.every = append(f.every, v)
		f.objects[number] = v
	}
	return nil
}

func (l *lexer) integer() (int, error) {
	l.blank()
	n, err := strconv.Atoi(l.word())
	if err != nil || n < 0 {
		return 0, errPDF
	}
	return n, nil
}

func whole(v any) int {
	number, _ := v.(pdfNumber)
	n, err := strconv.Atoi(string(number))
	if err != nil {
		return -1
	}
	return n
}

// unfold is a stream as it was before it was packed, once and by the usual filter;
// what is packed otherwise cannot be looked into.
func (f *pdfFile) unfold(s pdfStream) ([]byte, error) {
	filters, ok := filtersOf(s.dict)
	switch {
	case !ok || len(filters) > 1 || s.dict["DecodeParms"] != nil || s.dict["DP"] != nil:
		return nil, errPDF
	case len(filters) == 0:
		return s.data, nil
	case filters[0] != "FlateDecode":
		return nil, errPDF
	}
	return f.inflate(s.data)
}

func (f *pdfFile) inflate(packed []byte) ([]byte, error) {
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, errPDF
	}
	room := mostUnfolded - f.unfolded
	data, err := io.ReadAll(io.LimitReader(z, room+1))
	f.unfolded += int64(len(data))
	if err != nil || int64(len(data)) > room {
		return nil, errPDF
	}
	return data, nil
}

// filtersOf names the filters of a stream, the first to be undone first.
func filtersOf(dict pdfDict) ([]pdfName, bool) {
	switch v := dict["Filter"].(type) {
	case nil:
		return nil, dict["F"] == nil && dict["FFilter"] == nil
	case pdfName:
		return []pdfName{v}, dict["F"] == nil
	case pdfList:
		var all []pdfName
		for _, one := range v {
			name, is := one.(pdfName)
			if !is {
				return nil, false
			}
			all = append(all, name)
		}
		return all, dict["F"] == nil
	}
	return nil, false
}

package scan

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// writePDF writes objects as a file, the first of them its catalogue. The same
// objects give the same bytes.
func writePDF(objects []any) []byte {
	var out bytes.Buffer
	out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	places := make([]int, len(objects))
	for i, v := range objects {
		places[i] = out.Len()
		fmt.Fprintf(&out, "%d 0 obj\n", i+1)
		writeValue(&out, v)
		out.WriteString("\nendobj\n")
	}
	table := out.Len()
	fmt.Fprintf(&out, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, at := range places {
		fmt.Fprintf(&out, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&out, "trailer\n<</Root 1 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, table)
	return out.Bytes()
}

func writeValue(out *bytes.Buffer, v any) {
	switch v := v.(type) {
	case pdfName:
		writeName(out, v)
	case pdfNumber:
		out.WriteString(string(v))
	case pdfKeyword:
		out.WriteString(string(v))
	case pdfText:
		fmt.Fprintf(out, "<%x>", []byte(v))
	case pdfRef:
		fmt.Fprintf(out, "%d 0 R", v.number)
	case pdfList:
		out.WriteByte('[')
		for _, one := range v {
			writeValue(out, one)
			out.WriteByte(' ')
		}
		out.WriteByte(']')
	case pdfDict:
		out.WriteString("<<")
		for _, key := range slices.Sorted(maps.Keys(v)) {
			writeName(out, key)
			out.WriteByte(' ')
			writeValue(out, v[key])
		}
		out.WriteString(">>")
	case pdfStream:
		v.dict["Length"] = pdfNumber(strconv.Itoa(len(v.data)))
		writeValue(out, v.dict)
		out.WriteString("\nstream\n")
		out.Write(v.data)
		out.WriteString("\nendstream")
	default:
		out.WriteString("null")
	}
}

func writeName(out *bytes.Buffer, name pdfName) {
	out.WriteByte('/')
	for _, c := range []byte(name) {
		if c <= ' ' || c > '~' || c == '#' || isDelimiter(c) || strings.IndexByte("()", c) >= 0 {
			fmt.Fprintf(out, "#%02x", c)
			continue
		}
		out.WriteByte(c)
	}
}

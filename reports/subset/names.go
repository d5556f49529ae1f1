package subset

// Name records that stay: copyright, family, style, full name, PostScript name
// and the address of the licence (OpenType 1.9, "name", name identifiers). The
// licence text itself, most of the table, would travel in every document.
var keptNames = map[uint16]bool{0: true, 1: true, 2: true, 4: true, 6: true, 14: true}

const (
	nameHeader = 6
	nameRecord = 12
	windows    = 3
	usEnglish  = 0x0409
	unicodeBMP = 1
)

// names rewrites the name table with the Windows, US English records that stay.
// Records that point outside the table are left out rather than followed.
func names(t []byte) []byte {
	count, text := int(be.Uint16(t[2:])), int(be.Uint16(t[4:]))
	var records, strings []byte
	for i := range count {
		at := nameHeader + nameRecord*i
		if at+nameRecord > len(t) {
			break
		}
		r := t[at : at+nameRecord]
		from, size := text+int(be.Uint16(r[10:])), int(be.Uint16(r[8:]))
		if !staying(r) || from+size > len(t) {
			continue
		}
		records = append(records, r[:10]...)
		records = be.AppendUint16(records, uint16(len(strings)))
		strings = append(strings, t[from:from+size]...)
	}
	n := len(records) / nameRecord
	return append(append(numbers(nil, 0, n, nameHeader+len(records)), records...), strings...)
}

func staying(record []byte) bool {
	return be.Uint16(record) == windows && be.Uint16(record[2:]) == unicodeBMP &&
		be.Uint16(record[4:]) == usEnglish && keptNames[be.Uint16(record[6:])]
}

package scan

import (
	"bytes"
	"encoding/binary"
	"errors"
)

var errSegments = errors.New("the markers of a JPEG do not follow each other")

// segment is one marker of a JPEG with what belongs to it (ITU-T T.81, annex B).
type segment struct {
	marker byte
	whole  []byte // marker, length, parameters and, behind a start of scan, its data
	params []byte
}

// segments lists the markers of a JPEG from its start to its end; what stands behind
// the end is no part of it.
func segments(all []byte) ([]segment, error) {
	if !bytes.HasPrefix(all, []byte{0xff, 0xd8}) {
		return nil, errSegments
	}
	var found []segment
	for at := 2; at+2 <= len(all); {
		if all[at] != 0xff {
			return nil, errSegments
		}
		marker := all[at+1]
		switch {
		case marker == 0xff: // fill byte
			at++
			continue
		case marker == 0xd9:
			return append(found, segment{marker: marker, whole: all[at : at+2]}), nil
		case marker < 0xc0 || marker >= 0xd0 && marker <= 0xd8 || at+4 > len(all):
			return nil, errSegments
		}
		end := at + 2 + int(binary.BigEndian.Uint16(all[at+2:]))
		if end < at+4 || end > len(all) {
			return nil, errSegments
		}
		s := segment{marker: marker, params: all[at+4 : end]}
		if marker == 0xda {
			end = endOfScan(all, end)
		}
		s.whole = all[at:end]
		found, at = append(found, s), end
	}
	return nil, errSegments
}

// endOfScan is where the next marker stands that is neither stuffing nor a restart.
func endOfScan(all []byte, at int) int {
	for at+1 < len(all) {
		i := bytes.IndexByte(all[at:len(all)-1], 0xff)
		if i < 0 {
			return len(all)
		}
		at += i
		if next := all[at+1]; next != 0 && next != 0xff && (next < 0xd0 || next > 0xd7) {
			return at
		}
		at++
		if all[at] == 0 {
			at++
		}
	}
	return len(all)
}

// progressive reports whether a JPEG comes in several passes.
func progressive(all []byte) bool {
	found, err := segments(all)
	if err != nil {
		return true // the worst is taken of what is not understood
	}
	for _, s := range found {
		if s.marker == 0xc2 {
			return true
		}
	}
	return false
}

// bare is a JPEG without what programs write beside the picture: of all application
// segments only the one that tells how the colours are meant stays (Adobe, APP14).
func bare(all []byte) ([]byte, error) {
	found, err := segments(all)
	if err != nil {
		return nil, err
	}
	out := []byte{0xff, 0xd8}
	for _, s := range found {
		application := s.marker >= 0xe0 && s.marker <= 0xef
		if s.marker == 0xfe || application && !(s.marker == 0xee && len(s.params) == 12 && bytes.HasPrefix(s.params, []byte("Adobe"))) {
			continue
		}
		out = append(out, s.whole...)
	}
	return out, nil
}

package scan

import (
	"bytes"
	"encoding/binary"
)

const orientationTag = 0x0112

// orientation is how a picture is to be turned, 1 for not at all or where nothing
// says so (Exif 2.3, section 4.6.4; PNG third edition, chunk eXIf).
func orientation(sent []byte, kind string) int {
	if kind == PNG {
		return orientationOf(chunk(sent, "eXIf"))
	}
	found, err := segments(sent)
	if err != nil {
		return 1
	}
	for _, s := range found {
		if block, is := bytes.CutPrefix(s.params, []byte("Exif\x00\x00")); s.marker == 0xe1 && is {
			return orientationOf(block)
		}
	}
	return 1
}

// orientationOf reads it from the first directory of a TIFF (TIFF 6.0, section 2).
func orientationOf(tiff []byte) int {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(tiff, []byte("II*\x00")):
		order = binary.LittleEndian
	case bytes.HasPrefix(tiff, []byte("MM\x00*")):
		order = binary.BigEndian
	default:
		return 1
	}
	if len(tiff) < 8 {
		return 1
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			return 1
		}
		if order.Uint16(entries) == orientationTag && order.Uint16(entries[2:]) == 3 {
			return int(order.Uint16(entries[8:]))
		}
		entries = entries[12:]
	}
	return 1
}

// chunk is what the first chunk of a kind holds in a PNG.
func chunk(png []byte, kind string) []byte {
	for rest := png[8:]; len(rest) >= 12; {
		length := int64(binary.BigEndian.Uint32(rest))
		if length+12 > int64(len(rest)) {
			return nil
		}
		if string(rest[4:8]) == kind {
			return rest[8 : 8+length]
		}
		rest = rest[length+12:]
	}
	return nil
}

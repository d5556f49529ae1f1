package web

import (
	"fmt"
	"strings"

	"rsc.io/qr"
)

// quietZone is how many modules stay white around a QR code (ISO/IEC 18004, from
// memory: four).
const quietZone = 4

// newSquare makes a QR code of a text.
func newSquare(text string) (*Square, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil, fmt.Errorf("make a QR code: %w", err)
	}
	var path strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", from+quietZone, y+quietZone, x-from, x-from)
			}
		}
	}
	return &Square{code.Size + 2*quietZone, path.String()}, nil
}

// inGroups puts spaces into what is to be typed.
func inGroups(text string, of int) string {
	var groups []string
	for len(text) > of {
		groups, text = append(groups, text[:of]), text[of:]
	}
	return strings.Join(append(groups, text), " ")
}

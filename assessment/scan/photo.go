package scan

import (
	"bytes"
	"image/color"
	"image/jpeg"
	"image/png"

	"wellshown/assessment/fault"
)

// quality of the JPEG that is kept: writing by pen stays sharp.
const quality = 85

// mostMemory is what the pixels of one picture may take while it is decoded.
const mostMemory = 4 * MostPixels

// photo decodes a picture and encodes it anew, the right way up: what stood beside
// the pixels (who, where, when, with what) and behind them is gone.
func photo(sent []byte, kind string) (Page, error) {
	decode, look := png.Decode, png.DecodeConfig
	if kind == JPEG {
		decode, look = jpeg.Decode, jpeg.DecodeConfig
	}
	size, err := look(bytes.NewReader(sent))
	if err != nil {
		return Page{}, unreadable()
	}
	pixels := int64(size.Width) * int64(size.Height)
	if size.Width < 1 || size.Height < 1 || pixels > MostPixels || pixels*depth(sent, kind, size.ColorModel) > mostMemory {
		return Page{}, fault.Of(fault.Invalid, "This picture has too many pixels: at most %d million are taken. Take the photo with fewer.", MostPixels/1_000_000)
	}
	seen, err := decode(bytes.NewReader(sent))
	if err != nil {
		return Page{}, unreadable()
	}
	seen = upright(seen, orientation(sent, kind))
	var kept bytes.Buffer
	if kind == JPEG {
		err = jpeg.Encode(&kept, seen, &jpeg.Options{Quality: quality})
	} else {
		err = png.Encode(&kept, seen)
	}
	if err != nil {
		return Page{}, unreadable()
	}
	return Page{Type: kind, Content: kept.Bytes(), Sheets: 1}, nil
}

func unreadable() error {
	return fault.Of(fault.Invalid, "This picture cannot be read to its end. Take it again, or save it as JPEG once more.")
}

// depth is how many bytes a pixel takes while a picture is decoded.
func depth(sent []byte, kind string, model color.Model) int64 {
	switch {
	case kind == JPEG && progressive(sent):
		return 12 // all its coefficients are held at once
	case model == color.NRGBA64Model || model == color.RGBA64Model:
		return 8
	}
	return 4
}

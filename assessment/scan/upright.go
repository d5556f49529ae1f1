package scan

import (
	"image"
	"image/draw"
)

// upright turns a picture the way its orientation says (Exif 2.3, tag 0112). What
// cameras make is turned plane by plane, so that a large one is never held in a larger
// form than it has.
func upright(seen image.Image, turned int) image.Image {
	if turned < 2 || turned > 8 {
		return seen
	}
	switch m := seen.(type) {
	case *image.Gray:
		pix, w, h := plane(m.Pix, m.Stride, m.Rect.Dx(), m.Rect.Dy(), turned)
		return &image.Gray{Pix: pix, Stride: w, Rect: image.Rect(0, 0, w, h)}
	case *image.YCbCr:
		if ratio, is := turnedRatio(m.SubsampleRatio, turned); is {
			return colours(m, ratio, turned)
		}
	}
	b := seen.Bounds()
	across, down := b.Dx(), b.Dy()
	if turned > 4 {
		across, down = down, across
	}
	to := image.NewRGBA(image.Rect(0, 0, across, down))
	draw.Draw(to, to.Bounds(), image.White, image.Point{}, draw.Src)
	for y := range down {
		for x := range across {
			fx, fy := source(turned, x, y, b.Dx(), b.Dy())
			draw.Draw(to, image.Rect(x, y, x+1, y+1), seen, b.Min.Add(image.Pt(fx, fy)), draw.Over)
		}
	}
	return to
}

// turnedRatio is how colours are sampled once rows have become columns; not every
// ratio has a counterpart.
func turnedRatio(ratio image.YCbCrSubsampleRatio, turned int) (image.YCbCrSubsampleRatio, bool) {
	switch {
	case turned <= 4, ratio == image.YCbCrSubsampleRatio444, ratio == image.YCbCrSubsampleRatio420:
		return ratio, true
	case ratio == image.YCbCrSubsampleRatio422:
		return image.YCbCrSubsampleRatio440, true
	case ratio == image.YCbCrSubsampleRatio440:
		return image.YCbCrSubsampleRatio422, true
	}
	return ratio, false
}

func colours(m *image.YCbCr, ratio image.YCbCrSubsampleRatio, turned int) *image.YCbCr {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	cw := (m.COffset(m.Rect.Max.X-1, m.Rect.Min.Y) - m.COffset(m.Rect.Min.X, m.Rect.Min.Y)) + 1
	ch := (m.COffset(m.Rect.Min.X, m.Rect.Max.Y-1)-m.COffset(m.Rect.Min.X, m.Rect.Min.Y))/m.CStride + 1
	to := &image.YCbCr{SubsampleRatio: ratio}
	var across, down int
	to.Y, across, down = plane(m.Y, m.YStride, w, h, turned)
	to.Cb, to.CStride, _ = plane(m.Cb, m.CStride, cw, ch, turned)
	to.Cr, _, _ = plane(m.Cr, m.CStride, cw, ch, turned)
	to.YStride, to.Rect = across, image.Rect(0, 0, across, down)
	return to
}

// plane turns w by h bytes.
func plane(pix []byte, stride, w, h, turned int) (to []byte, across, down int) {
	across, down = w, h
	if turned > 4 {
		across, down = h, w
	}
	to = make([]byte, across*down)
	for y := range down {
		for x := range across {
			fx, fy := source(turned, x, y, w, h)
			to[y*across+x] = pix[fy*stride+fx]
		}
	}
	return to, across, down
}

// source is where a pixel of the upright picture stands in one that is w by h.
func source(turned, x, y, w, h int) (int, int) {
	switch turned {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return y, h - 1 - x
	case 7:
		return w - 1 - y, h - 1 - x
	}
	return w - 1 - y, x
}

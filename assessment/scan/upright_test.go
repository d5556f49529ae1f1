package scan

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"testing"
)

// However colours are sampled (ITU-T T.871, section 6.1 and figure 3: 4:4:4 to 4:1:1), also
// with odd sizes: what stood at a place stands where Exif's table says, brightness to
// the pixel and colour to the patch.
func TestColoursAreTurnedWithTheirPixels(t *testing.T) {
	ratios := []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420, image.YCbCrSubsampleRatio440,
		image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410}
	for _, ratio := range ratios {
		for _, size := range []image.Point{{48, 32}, {47, 33}} {
			m := image.NewYCbCr(image.Rect(0, 0, size.X, size.Y), ratio)
			for y := range size.Y {
				for x := range size.X {
					m.Y[m.YOffset(x, y)] = byte(60 + (7*x+13*y)%130)
					m.Cb[m.COffset(x, y)], m.Cr[m.COffset(x, y)] = 128, 128
					if x < size.X/2 {
						m.Cb[m.COffset(x, y)] = 160
					}
					if y < size.Y/2 {
						m.Cr[m.COffset(x, y)] = 100
					}
				}
			}
			for turned := 2; turned <= 8; turned++ {
				sameSeen(t, m, upright(m, turned), turned)
			}
		}
	}
}

func sameSeen(t *testing.T, from *image.YCbCr, to image.Image, turned int) {
	t.Helper()
	w, h := from.Rect.Dx(), from.Rect.Dy()
	for y := range to.Bounds().Dy() {
		for x := range to.Bounds().Dx() {
			fx, fy := source(turned, x, y, w, h)
			if abs(fx-w/2) < 8 || abs(fy-h/2) < 8 { // where patches of colour meet
				continue
			}
			ar, ag, ab, _ := from.At(fx, fy).RGBA()
			br, bg, bb, _ := to.At(x, y).RGBA()
			if abs(int(ar>>8)-int(br>>8)) > 1 || abs(int(ag>>8)-int(bg>>8)) > 1 || abs(int(ab>>8)-int(bb>>8)) > 1 {
				t.Fatalf("%v %v turned %d: at %d, %d it is %v, not %v", from.SubsampleRatio, from.Rect, turned, x, y, to.At(x, y), from.At(fx, fy))
			}
		}
	}
}

func abs(n int) int { return max(n, -n) }

// A grey picture, and one whose orientation stands in a chunk of PNG (third edition, eXIf).
func TestOtherPicturesAreTurnedToo(t *testing.T) {
	grey := image.NewGray(image.Rect(0, 0, 5, 3))
	grey.SetGray(4, 0, color.Gray{Y: 200})
	if got := upright(grey, 6); got.Bounds().Dx() != 3 || got.At(2, 4) != (color.Gray{Y: 200}) { // the first row becomes the right side
		t.Errorf("%v: %v", got.Bounds(), got)
	}
	m := image.NewNRGBA(image.Rect(0, 0, 5, 3))
	m.SetNRGBA(0, 0, color.NRGBA{R: 250, A: 255})
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	tiff := append([]byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x08\x00\x00\x00"), 0, 0, 0, 0)
	chunk := append(binary.BigEndian.AppendUint32(nil, uint32(len(tiff))), "eXIf"...)
	chunk = binary.BigEndian.AppendUint32(append(chunk, tiff...), crc32.ChecksumIEEE(append([]byte("eXIf"), tiff...)))
	sent := append(append(append([]byte{}, b.Bytes()[:33]...), chunk...), b.Bytes()[33:]...)
	page, err := Clean(sent)
	if err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(bytes.NewReader(page.Content))
	if err != nil {
		t.Fatal(err)
	}
	if r, _, _, _ := got.At(0, 4).RGBA(); got.Bounds().Dx() != 3 || r>>8 != 250 { // the first column becomes the bottom
		t.Errorf("%v: %v", got.Bounds(), got.At(0, 4))
	}
	if r, g, _, a := got.At(1, 1).RGBA(); r>>8 != 255 || g>>8 != 255 || a>>8 != 255 {
		t.Errorf("what nobody painted is %v", got.At(1, 1))
	}
}

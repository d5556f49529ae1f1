package scan_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/scan"
)

// marked is a picture of which every corner has a colour of its own.
func marked(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{255, 255, 255, 255}
			switch {
			case x < w/3 && y < h/3:
				c = color.RGBA{220, 0, 0, 255}
			case x >= 2*w/3 && y < h/3:
				c = color.RGBA{0, 200, 0, 255}
			case x < w/3 && y >= 2*h/3:
				c = color.RGBA{0, 0, 220, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func asJPEG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// exifBlock is an Exif block by TIFF 6.0 section 2 and Exif 2.3 sections 4.6.4 to 4.6.6:
// the maker, the orientation and a GPS directory with a latitude of 39° 44′ 21″ north.
func exifBlock(turned uint16) []byte {
	b := []byte("MM\x00*\x00\x00\x00\x08")
	entry := func(tag, kind uint16, count, value uint32) {
		b = binary.BigEndian.AppendUint16(b, tag)
		b = binary.BigEndian.AppendUint16(b, kind)
		b = binary.BigEndian.AppendUint32(b, count)
		b = binary.BigEndian.AppendUint32(b, value)
	}
	b = binary.BigEndian.AppendUint16(b, 3)
	entry(0x010f, 2, 12, 8+2+3*12+4) // Make
	entry(0x0112, 3, 1, uint32(turned)<<16)
	entry(0x8825, 4, 1, 8+2+3*12+4+12) // where the GPS directory stands
	b = binary.BigEndian.AppendUint32(b, 0)
	b = append(b, "Cam of Mira\x00"...)
	gps := uint32(len(b))
	b = binary.BigEndian.AppendUint16(b, 2)
	entry(1, 2, 2, uint32('N')<<24)
	entry(2, 5, 3, gps+2+2*12+4)
	b = binary.BigEndian.AppendUint32(b, 0)
	for _, n := range []uint32{39, 1, 44, 1, 21, 1} {
		b = binary.BigEndian.AppendUint32(b, n)
	}
	return append([]byte("Exif\x00\x00"), b...)
}

// withSegment puts an application segment behind the start of a JPEG (ITU-T T.81, B.2.4.6).
func withSegment(photo []byte, marker byte, block []byte) []byte {
	out := append([]byte{0xff, 0xd8, 0xff, marker}, byte((len(block)+2)>>8), byte(len(block)+2))
	return append(append(out, block...), photo[2:]...)
}

func cleaned(t *testing.T, sent []byte) scan.Page {
	t.Helper()
	page, err := scan.Clean(sent)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

func refused(t *testing.T, sent []byte, says string) {
	t.Helper()
	page, err := scan.Clean(sent)
	if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), says) || page.Content != nil {
		t.Errorf("it says %v, not %q, and gives %d bytes", err, says, len(page.Content))
	}
}

// Where a photo was taken is gone, and with what, and by whom; a reader of another
// make finds nothing either, where there is one.
func TestWhereAPhotoWasTakenIsGone(t *testing.T) {
	sent := withSegment(withSegment(asJPEG(t, marked(60, 40)), 0xe1, exifBlock(1)), 0xed, []byte("Photoshop 3.0\x00city of Mira"))
	sent = withSegment(sent, 0xfe, []byte("comment about Mira"))
	if !bytes.Contains(sent, []byte("Cam of Mira")) {
		t.Fatal("the photo to be cleaned has nothing in it")
	}
	page := cleaned(t, sent)
	for _, trace := range []string{"Exif", "Mira", "Photoshop", "GPS", "\x00\x00\x00\x27\x00\x00\x00\x01\x00\x00\x00\x2c"} {
		if bytes.Contains(page.Content, []byte(trace)) {
			t.Errorf("%q is still in it", trace)
		}
	}
	if page.Type != "image/jpeg" || page.Sheets != 1 {
		t.Errorf("it is %s with %d sheets", page.Type, page.Sheets)
	}
	reader, err := exec.LookPath("exiftool")
	if err != nil {
		return // the bytes were searched above
	}
	for name, photo := range map[string][]byte{"before": sent, "after": page.Content} {
		path := filepath.Join(t.TempDir(), name+".jpg")
		if err := os.WriteFile(path, photo, 0o600); err != nil {
			t.Fatal(err)
		}
		said, err := exec.Command(reader, "-gps:all", "-make", path).CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, said)
		}
		if found := bytes.Contains(said, []byte("GPS Latitude")); found != (name == "before") {
			t.Errorf("%s: the reader says %s", name, said)
		}
	}
}

// Exif 2.3, table of tag 0112: which sides of what is seen the first row and the first
// column of what is kept are.
func TestAPhotoIsTurnedUpright(t *testing.T) {
	const w, h = 60, 48
	seen := marked(w, h)
	kept := map[uint16]func(x, y int) (int, int){ // from a place in what is kept to one in what is seen
		1: func(x, y int) (int, int) { return x, y },
		2: func(x, y int) (int, int) { return w - 1 - x, y },
		3: func(x, y int) (int, int) { return w - 1 - x, h - 1 - y },
		4: func(x, y int) (int, int) { return x, h - 1 - y },
		5: func(x, y int) (int, int) { return y, x },         // rows run down the left side
		6: func(x, y int) (int, int) { return w - 1 - y, x }, // the first row is the right side, the first column the top
		7: func(x, y int) (int, int) { return w - 1 - y, h - 1 - x },
		8: func(x, y int) (int, int) { return y, h - 1 - x }, // the first row is the left side, the first column the bottom
	}
	for turned, at := range kept {
		kw, kh := w, h
		if turned > 4 {
			kw, kh = h, w
		}
		stored := image.NewRGBA(image.Rect(0, 0, kw, kh))
		for y := range kh {
			for x := range kw {
				sx, sy := at(x, y)
				stored.Set(x, y, seen.At(sx, sy))
			}
		}
		got, err := jpeg.Decode(bytes.NewReader(cleaned(t, withSegment(asJPEG(t, stored), 0xe1, exifBlock(turned))).Content))
		if err != nil {
			t.Fatal(err)
		}
		if got.Bounds() != seen.Bounds() {
			t.Errorf("orientation %d: it is %v", turned, got.Bounds())
			continue
		}
		for _, p := range []image.Point{{5, 5}, {w - 5, 5}, {5, h - 5}, {w - 5, h - 5}} {
			if !alike(got.At(p.X, p.Y), seen.At(p.X, p.Y)) {
				t.Errorf("orientation %d: at %v it is %v, not %v", turned, p, got.At(p.X, p.Y), seen.At(p.X, p.Y))
			}
		}
	}
}

func alike(a, b color.Color) bool {
	ar, ag, ab, _ := a.RGBA()
	br, bg, bb, _ := b.RGBA()
	far := func(x, y uint32) bool { return max(x, y)-min(x, y) > 0x3000 }
	return !far(ar, br) && !far(ag, bg) && !far(ab, bb)
}

// What is only read, and never seen, is not kept: a page for a browser behind a photo,
// a note within a picture (PNG third edition, tEXt), a second file behind its end.
func TestOnlyWhatIsSeenIsKept(t *testing.T) {
	html := []byte("<html><script>alert(1)</script></html>")
	note := append(binary.BigEndian.AppendUint32(nil, uint32(8+len(html))), "tEXtComment\x00"...)
	note = append(note, html...)
	note = binary.BigEndian.AppendUint32(note, crc32.ChecksumIEEE(note[4:]))
	picture := asPNG(t, marked(30, 20))
	noted := append(append(append([]byte{}, picture[:33]...), note...), picture[33:]...) // behind IHDR
	if _, err := png.Decode(bytes.NewReader(noted)); err != nil {
		t.Fatal("the picture with a note is no PNG: ", err)
	}
	for name, sent := range map[string][]byte{
		"behind a photo": append(asJPEG(t, marked(30, 20)), html...), "in a comment": withSegment(asJPEG(t, marked(30, 20)), 0xfe, html),
		"behind a picture": append(append([]byte{}, picture...), html...), "in a note": noted,
	} {
		if page := cleaned(t, sent); bytes.Contains(page.Content, []byte("script")) || bytes.Contains(page.Content, []byte("html")) {
			t.Errorf("%s: it is still there", name)
		}
	}
}

// A picture is told by its content; what is none of the three is refused, under
// whatever name it comes.
func TestOtherKindsAreRefused(t *testing.T) {
	var moving bytes.Buffer
	if err := gif.Encode(&moving, marked(10, 10), nil); err != nil {
		t.Fatal(err)
	}
	for _, sent := range [][]byte{moving.Bytes(), []byte(`<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`), []byte("<!doctype html><p>hello"),
		[]byte("BM\x00\x00"), []byte("II*\x00"), []byte("\x00\x00\x00\x18ftypheic"), []byte("PK\x03\x04"), []byte("\n%PDF-1.4 after a line"), []byte("x\xff\xd8\xff")} {
		refused(t, sent, "This is no JPEG, PNG or PDF")
	}
	refused(t, nil, "Nothing was sent")
	refused(t, make([]byte, scan.MostBytes+1), "too large: a page has at most 8 MB")
	for _, sent := range [][]byte{[]byte("\xff\xd8\xff<html>"), []byte("\x89PNG\r\n\x1a\n<html>"), asJPEG(t, marked(400, 400))[:2000], asPNG(t, marked(40, 40))[:60]} {
		refused(t, sent, "cannot be read to its end")
	}
}

// sized is the head of a PNG that says it is so large (PNG third edition, IHDR).
func sized(w, h uint32, depth, kind byte) []byte {
	head := append([]byte("IHDR"), binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)...)
	head = append(head, depth, kind, 0, 0, 0)
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// A few bytes that say they are a huge picture are refused before anything is decoded.
func TestHugePicturesAreRefusedUnseen(t *testing.T) {
	allocated := testing.AllocsPerRun(1, func() {
		refused(t, sized(65_000, 65_000, 8, 2), "too many pixels")
		refused(t, sized(2_000_000_000, 2_000_000_000, 8, 2), "")
		refused(t, sized(40_000_001, 1, 8, 0), "too many pixels")
		refused(t, sized(5_000, 5_000, 16, 6), "too many pixels") // eight bytes a pixel
	})
	if allocated > 10_000 {
		t.Errorf("%v allocations", allocated)
	}
	// Height and width of a start of frame (ITU-T T.81, B.2.2), also one in several passes.
	photo := asJPEG(t, marked(16, 16))
	at := bytes.Index(photo, []byte{0xff, 0xc0})
	copy(photo[at+5:], []byte{0xff, 0xff, 0xff, 0xff})
	refused(t, photo, "too many pixels")
	copy(photo[at+5:], []byte{4000 >> 8, 4000 & 0xff, 4000 >> 8, 4000 & 0xff})
	photo[at+1] = 0xc2
	refused(t, photo, "too many pixels")
}

package scan_test

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"wellshown/assessment/scan"
)

// pdfOf is a PDF of these objects, numbered from 1, the first its catalogue, written
// by hand as ISO 32000-1 section 7.5 has it.
func pdfOf(objects ...string) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.5\n")
	var places []int
	for i, o := range objects {
		places = append(places, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	table := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, at := range places {
		fmt.Fprintf(&b, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, table)
	return b.Bytes()
}

func streamOf(dict string, data []byte) string {
	return fmt.Sprintf("<< %s /Length %d >>\nstream\n%s\nendstream", dict, len(data), data)
}

func flate(data []byte) []byte {
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	z.Write(data)
	z.Close()
	return b.Bytes()
}

// scanned are the objects of a PDF of one page with a line of text and a photo that
// says where it was taken; more are added at the end, and catalogue and page take what is given.
func scanned(t testing.TB, catalogue, page string, more ...string) []byte {
	photo := withSegment(asJPEG(t, marked(40, 30)), 0xe1, exifBlock(1))
	return pdfOf(append([]string{
		"<< /Type /Catalog /Pages 2 0 R " + catalogue + " >>",
		"<< /Type /Pages /Kids [3 0 R] /Count 1 /MediaBox [0 0 200 100] >>",
		"<< /Type /Page /Parent 2 0 R /Resources << /Font << /A 4 0 R >> /XObject << /Photo 5 0 R >> >> /Contents 6 0 R " + page + " >>",
		"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
		streamOf("/Type /XObject /Subtype /Image /Width 40 /Height 30 /ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /DCTDecode", photo),
		streamOf("/Filter /FlateDecode", flate([]byte("BT /A 12 Tf 10 80 Td (Marked \\(by pen\\)) Tj ET q 40 0 0 30 10 10 cm /Photo Do Q"))),
	}, more...)...)
}

// tool runs a program that knows PDF better than we do. Where it is missing the test is
// skipped on a desk and fails in CI.
func tool(t testing.TB, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed: apt-get install poppler-utils qpdf", name)
		}
		t.Skipf("%s is not installed", name)
	}
	said, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, said)
	}
	return string(said)
}

func filed(t testing.TB, pdf []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func fileAt(t testing.TB, path string) []byte {
	t.Helper()
	all, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// A scan keeps what it shows, by the word of two other programs, and loses what else
// it holds: words about itself, links, older states, what stands around its objects.
func TestAScanKeepsItsPages(t *testing.T) {
	sent := scanned(t, "/Names << /EmbeddedFiles << /Names [] >> >> /Metadata 7 0 R /Outlines 8 0 R /OpenAction [3 0 R /Fit]", "/Annots [<< /Subtype /Link /Rect [0 0 9 9] /Act << /S /URI /URI (http://example.org/Mira) >> >>]",
		streamOf("/Type /Metadata /Subtype /XML", []byte("<x:xmpmeta>Mira was here</x:xmpmeta>")), "<< /Title (Outline of Mira) >>")
	sent = bytes.Replace(sent, []byte("/Root 1 0 R"), []byte("/Root 1 0 R /Info << /Author (Mira) >>"), 1)
	sent = append(sent, "<html><script>alert('Mira')</script></html>"...)
	for name, as := range map[string][]byte{"as written": sent, "packed": packed(t, sent, "--object-streams=generate"), "for the web": packed(t, sent, "--linearize")} {
		page := cleaned(t, as)
		if page.Type != scan.PDF || page.Sheets != 1 {
			t.Errorf("%s: %s with %d sheets", name, page.Type, page.Sheets)
		}
		for _, trace := range []string{"Mira", "Exif", "script", "Annots", "Outlines", "xmpmeta", "OpenAction", "Info"} {
			if bytes.Contains(page.Content, []byte(trace)) {
				t.Errorf("%s: %q is still in it", name, trace)
			}
		}
		path := filed(t, page.Content)
		if said := tool(t, "qpdf", "--check", path); strings.Contains(strings.ToUpper(said), "WARNING") {
			t.Errorf("%s: %s", name, said)
		}
		if said := tool(t, "pdftotext", path, "-"); !strings.Contains(said, "Marked (by pen)") {
			t.Errorf("%s: it says %q", name, said)
		}
		if said := tool(t, "pdfimages", "-list", path); !strings.Contains(said, "jpeg") {
			t.Errorf("%s: its pictures are %s", name, said)
		}
		if again := cleaned(t, page.Content); !bytes.Equal(again.Content, page.Content) {
			t.Errorf("%s: cleaned twice it is another", name)
		}
	}
}

// A length that stands behind its stream, with no line between data and end, is kept to
// the byte: that one byte may be a line feed of the data (ISO 32000-1, section 7.3.8.2).
func TestALengthBehindItsStream(t *testing.T) {
	drawn := []byte("BT /A 12 Tf 10 80 Td (Marked) Tj ET\n")
	sent := pdfOf("<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /MediaBox [0 0 200 100] >>",
		"<< /Type /Page /Parent 2 0 R /Contents 4 0 R >>", "<< /Length 5 0 R >>\nstream\n"+string(drawn)+"endstream", fmt.Sprint(len(drawn)))
	page := cleaned(t, sent)
	if want := fmt.Sprintf("/Length %d>>\nstream\n%s\nendstream", len(drawn), drawn); !bytes.Contains(page.Content, []byte(want)) {
		t.Errorf("it became %s", page.Content)
	}
}

// packed is a PDF as another program writes it.
func packed(t testing.TB, pdf []byte, how ...string) []byte {
	t.Helper()
	to := filepath.Join(t.TempDir(), "packed.pdf")
	tool(t, "qpdf", append(how, "--warning-exit-0", filed(t, pdf), to)...)
	return fileAt(t, to)
}

// ISO 32000-1 sections 12.6, 12.7, 13 and 7.11.4: what makes a PDF act, or carries
// files; spelt with escapes (7.3.5), packed in an object stream, in a state that was
// replaced, or never referred to.
func TestAPDFThatActsIsRefused(t *testing.T) {
	for name, sent := range map[string][]byte{
		"JavaScript":          scanned(t, "/Names << /JavaScript << /Names [(x) 7 0 R] >> >>", "", "<< /S /JavaScript /JS (app.alert\\(1\\)) >>"),
		"when opened":         scanned(t, "/OpenAction << /S /URI /URI (http://example.org) >>", ""),
		"when opened, by ref": scanned(t, "/OpenAction 7 0 R", "", "<< /S /Named /N /Print >>"),
		"when a page is":      scanned(t, "", "/AA << /O << /S /Named /N /Print >> >>"),
		"launch":              scanned(t, "", "/Annots [<< /Subtype /Link /A << /S /Launch /F (x.exe) >> >>]"),
		"a file within":       scanned(t, "/Names << /EmbeddedFiles << /Names [(a) 7 0 R] >> >>", "", "<< >>"),
		"a file unreferred":   scanned(t, "", "", streamOf("/Type /EmbeddedFile", []byte("MZ"))),
		"rich media":          scanned(t, "", "/Annots [<< /Subtype /RichMedia >>]"),
		"a form by XML":       scanned(t, "/AcroForm << /XFA 7 0 R >>", "", streamOf("", []byte("<xdp/>"))),
		"for printers":        scanned(t, "", "", streamOf("/Type /XObject /Subtype /PS", []byte("showpage"))),
		"spelt otherwise":     scanned(t, "/Names << /J#61vaScript 7 0 R >>", "", "<< /S /#4aavaScript /#4A#53 (x) >>"),
		"replaced since":      append(scanned(t, "/OpenAction << /S /JavaScript /JS (x) >>", ""), "1 0 obj << /Type /Catalog /Pages 2 0 R >> endobj\ntrailer << /Root 1 0 R >>"...),
	} {
		refused(t, sent, "does more than show pages")
		if t.Failed() {
			t.Fatalf("that was %s", name)
		}
	}
	acting := scanned(t, "/Names << /JavaScript << /Names [(x) 7 0 R] >> >>", "", "<< /S /JavaScript /JS (app.alert\\(1\\)) >>")
	inside := packed(t, acting, "--object-streams=generate")
	if bytes.Contains(inside, []byte("JavaScript")) {
		t.Fatal("the object stream is not packed")
	}
	refused(t, inside, "does more than show pages")
	refused(t, packed(t, scanned(t, "", ""), "--encrypt", "a", "b", "256", "--"), "is locked")
}

// What cannot be looked into is refused, and what lies over the pages is not lost
// without a word.
func TestAPDFThatCannotBeLookedInto(t *testing.T) {
	bomb := flate(make([]byte, 300<<20))
	deep := strings.Repeat("[", 200) + strings.Repeat("]", 200)
	for name, sent := range map[string][]byte{
		"no pages":          pdfOf("<< /Type /Catalog >>"),
		"nothing":           []byte("%PDF-1.7\n"),
		"unfolds":           scanned(t, "", "", streamOf("/Type /ObjStm /N 1 /First 4 /Filter /FlateDecode", bomb)),
		"packed twice":      scanned(t, "", "", streamOf("/Type /ObjStm /N 1 /First 4 /Filter [/FlateDecode /FlateDecode]", flate(flate([]byte("9 0 null"))))),
		"packed otherwise":  scanned(t, "", "", streamOf("/Type /ObjStm /N 1 /First 4 /Filter /LZWDecode", []byte("x"))),
		"deep":              scanned(t, "", "", deep),
		"in itself":         pdfOf("<< /Type /Catalog /Pages 2 0 R >>", "<< /Kids [2 0 R 2 0 R] >>"),
		"a key twice":       scanned(t, "", "", "<< /A 1 /A 2 >>"),
		"another file":      scanned(t, "", "/Group 7 0 R", streamOf("/F (other)", nil)),
		"another picture":   scanned(t, "", "/Group 7 0 R", streamOf("/Subtype /Image /Filter /JPXDecode", []byte("x"))),
		"no such picture":   scanned(t, "", "/Group 7 0 R", streamOf("/Subtype /Image /Filter /DCTDecode", []byte("x"))),
		"an endless string": []byte("%PDF-1.4 1 0 obj (((("),
	} {
		refused(t, sent, "cannot be looked into")
		if t.Failed() {
			t.Fatalf("that was %s", name)
		}
	}
	refused(t, scanned(t, "", "/Annots [<< /Subtype /Ink /InkList [[1 1 9 9]] >>]"), "laid over the pages")
	many := []string{"<< /Type /Catalog /Pages 2 0 R >>", "<< /Kids [" + strings.Repeat("3 0 R ", scan.MostSheets+1) + "] >>", "<< /Type /Page /MediaBox [0 0 9 9] >>"}
	refused(t, pdfOf(many...), "has 21 pages; at most 20")
}

// Whatever is sent, it is refused or made into something that is made into itself.
func FuzzClean(f *testing.F) {
	f.Add(scanned(f, "/Metadata 7 0 R", "/AA 8 0 R", streamOf("/Filter /FlateDecode", flate([]byte("x"))), "<< /S (a\\051\\n) /T <00ff> >>"))
	f.Add(scanned(f, "", ""))
	f.Add(pdfOf("<< /Type /Catalog /Pages 2 0 R >>", "<< /Kids [3 0 R] >>", "<< /MediaBox [0 0 9 9] >>", streamOf("/Type /ObjStm /N 1 /First 4", []byte("5 0 <</A[1 0 R]>>"))))
	f.Add(withSegment(asJPEG(f, marked(8, 8)), 0xe1, exifBlock(6)))
	f.Add(asPNG(f, marked(8, 8)))
	f.Fuzz(func(t *testing.T, sent []byte) {
		page, err := scan.Clean(sent)
		if err != nil {
			return
		}
		again, err := scan.Clean(page.Content)
		if err != nil || again.Type != page.Type || again.Sheets != page.Sheets {
			t.Fatalf("cleaned twice: %v, %s, %d sheets", err, again.Type, again.Sheets)
		}
		if page.Type == scan.PDF && !bytes.Equal(again.Content, page.Content) {
			t.Fatal("a cleaned PDF is not clean")
		}
	})
}

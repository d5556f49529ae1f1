package reports

import (
	"path/filepath"
	"strings"
	"testing"
)

// The code is read by zbarimg from the page as poppler renders it, at the
// resolution of a poor scan.
func TestTheCodeIsRead(t *testing.T) {
	for _, address := range []string{checkAddress, "http://127.0.0.1:8080/check/A", "https://wellshown.example/check/" + strings.Repeat("7", 180)} {
		p := blankPaper(t)
		p.letterhead("Certificate of competency")
		p.check(check{Code: "4H7K-9QXM-2TBT", Address: address})
		path := filed(t, finished(t, p))
		image := strings.TrimSuffix(path, ".pdf")
		tool(t, "pdftoppm", "-r", "150", "-gray", "-png", "-singlefile", path, image)
		if got := strings.TrimSpace(tool(t, "zbarimg", "--nodbus", "-q", "--raw", image+".png")); got != address {
			t.Errorf("the code in %s says %q, want %q", filepath.Base(path), got, address)
		}
		if source := tool(t, "qpdf", "--qdf", "--object-streams=disable", path, "-"); !strings.Contains(source, "/URI ("+address+")") {
			t.Errorf("no link to %s", address)
		}
	}
}

// ISO/IEC 18004 asks for four modules of white on every side.
func TestTheCodeHasItsQuietZone(t *testing.T) {
	c, err := qrCode(checkAddress)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range c.rects {
		if r.x < 4*c.module-0.01 || r.y < 4*c.module-0.01 || r.x+r.w > qrSide-4*c.module+0.01 || r.y+r.h > qrSide-4*c.module+0.03 {
			t.Fatalf("dark at %+v, module %.2f", r, c.module)
		}
	}
}

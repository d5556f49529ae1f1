package web

import "testing"

// What is pasted is the head as it was signed, whatever mail, browsers and hands add
// around its lines; within a line nothing is touched.
func TestAPastedHeadIsAsItWasSigned(t *testing.T) {
	const head = "wellshown.ledger/a\n7\nAAAA=\nsealed 2026-02-01T09:30:00Z\n\n— old RSgq\n"
	for name, pasted := range map[string]string{
		"as it is": head, "from a browser": "wellshown.ledger/a\r\n7\r\nAAAA=\r\nsealed 2026-02-01T09:30:00Z\r\n\r\n— old RSgq",
		"blank lines around": "\n\n " + head + " \n\n", "spaces at the ends": "  wellshown.ledger/a \n7\t\nAAAA= \nsealed 2026-02-01T09:30:00Z\n \n— old RSgq  ",
	} {
		if got := pastedHead(pasted); got != head {
			t.Errorf("%s: %q", name, got)
		}
	}
	for _, nothing := range []string{"", " \r\n \n"} {
		if got := pastedHead(nothing); got != "" {
			t.Errorf("%q is %q", nothing, got)
		}
	}
	if got := pastedHead("a b\nc"); got != "a b\nc\n" {
		t.Errorf("a line broken while copying is mended: %q", got)
	}
}

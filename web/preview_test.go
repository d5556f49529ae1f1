package web

import (
	"os"
	"path/filepath"
	"testing"
)

// TestPreview writes every sample page and the static files into the folder
// named by WELLSHOWN_PREVIEW, to be looked at in a browser.
func TestPreview(t *testing.T) {
	dir := os.Getenv("WELLSHOWN_PREVIEW")
	if dir == "" {
		t.Skip("WELLSHOWN_PREVIEW names no folder")
	}
	assets, pages := embedded()
	for name, page := range samples() {
		body, err := pages.HTML(page)
		if err != nil {
			t.Error(err)
			continue
		}
		writeFile(t, filepath.Join(dir, name+".html"), body)
	}
	for url, file := range assets.files {
		writeFile(t, filepath.Join(dir, filepath.FromSlash(url)), file.body)
	}
}

func writeFile(t *testing.T, name string, body []byte) {
	t.Helper()
	err := os.MkdirAll(filepath.Dir(name), 0o755)
	if err != nil {
		t.Fatal(err)
	}
	err = os.WriteFile(name, body, 0o644)
	if err != nil {
		t.Fatal(err)
	}
}

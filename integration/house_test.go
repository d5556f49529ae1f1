package integration

import (
	"io/fs"
	"os"
	"testing"
)

// houseFS is the whole project as it lies on disk.
func houseFS(t *testing.T) fs.FS {
	t.Helper()
	if _, err := os.Stat("../go.mod"); err != nil {
		t.Fatal("these tests run in the folder integration of the project: ", err)
	}
	return os.DirFS("..")
}

package cluster

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
)

// ErrNoBinaries says that no PostgreSQL server programs were found.
var ErrNoBinaries = errors.New("no PostgreSQL server programs (initdb, postgres) found: " +
	"install them (on Debian: apt-get install postgresql), or name their folder in PG_BIN, or name a running server in DATABASE_URL")

// binaries are the two programs needed, and the major version of both.
type binaries struct {
	initdb, postgres string
	major            int
}

// Available is nil where this machine has PostgreSQL server programs that Start could use, and ErrNoBinaries where it has
// none. A PG_BIN that leads to none is another error: whoever set it means those programs and no others.
func Available() error {
	_, err := findBinaries()
	return err
}

// findBinaries looks in PG_BIN, then behind an initdb on the PATH, then where Debian puts each version.
func findBinaries() (binaries, error) {
	if dir := os.Getenv("PG_BIN"); dir != "" {
		b, err := inFolder(dir)
		if err != nil {
			return b, fmt.Errorf("PG_BIN: %w", err)
		}
		return b, nil
	}
	if path, err := exec.LookPath("initdb"); err == nil {
		if real, err := filepath.EvalSymlinks(path); err == nil {
			if b, err := inFolder(filepath.Dir(real)); err == nil {
				return b, nil
			}
		}
	}
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin")
	var best binaries
	for _, dir := range found {
		if b, err := inFolder(dir); err == nil && b.major > best.major {
			best = b
		}
	}
	if best.major == 0 {
		return best, ErrNoBinaries
	}
	return best, nil
}

// inFolder asks the programs in a folder for their version; a folder without both is an error.
func inFolder(dir string) (binaries, error) {
	b := binaries{initdb: filepath.Join(dir, "initdb"), postgres: filepath.Join(dir, "postgres")}
	if _, err := exec.LookPath(b.initdb); err != nil {
		return b, err
	}
	out, err := exec.Command(b.postgres, "--version").Output()
	if err != nil {
		return b, fmt.Errorf("ask %s for its version: %w", b.postgres, err)
	}
	b.major, err = majorVersion(string(out))
	return b, err
}

var versionLine = regexp.MustCompile(`^postgres \(PostgreSQL\) (\d+)`)

// majorVersion reads "postgres (PostgreSQL) 15.18 (Debian …)" as 15.
func majorVersion(line string) (int, error) {
	m := versionLine.FindStringSubmatch(line)
	if m == nil {
		return 0, fmt.Errorf("not a PostgreSQL version: %q", line)
	}
	return strconv.Atoi(m[1])
}

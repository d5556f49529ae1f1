package cluster

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strconv"
)

// account is whom the server runs as. When the current user is not root that is the current user, and drop is false.
type account struct {
	name     string
	uid, gid int
	drop     bool
}

// serverAccount picks postgres, else nobody, for root; PostgreSQL refuses to run as root.
func serverAccount() (account, error) {
	if os.Geteuid() != 0 {
		return account{name: "of the current user", uid: os.Geteuid(), gid: os.Getegid()}, nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		u, err := user.Lookup(name)
		if err != nil {
			continue
		}
		uid, err := strconv.Atoi(u.Uid)
		if err != nil {
			continue
		}
		gid, err := strconv.Atoi(u.Gid)
		if err != nil {
			continue
		}
		return account{name: name, uid: uid, gid: gid, drop: true}, nil
	}
	return account{}, errors.New("running as root, and there is no account postgres or nobody to run PostgreSQL as")
}

// own hands a path to the account.
func (a account) own(path string) error {
	if !a.drop {
		return nil
	}
	return os.Chown(path, a.uid, a.gid)
}

// folders are where a cluster may live, best first: the folder asked for and, for root only, one outside every home.
func (a account) folders(dir string) []string {
	if !a.drop {
		return []string{dir}
	}
	name := fmt.Sprintf("wellshown-%.6x", sha256.Sum256([]byte(dir)))
	return []string{dir, filepath.Join("/var/lib", name)}
}

// prepare makes a folder and names the first one on the way to it, itself included, that the account may not enter,
// or "". The path it returns has no symbolic links.
func (a account) prepare(dir string) (real, blocked string, err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", "", err
	}
	if real, err = filepath.EvalSymlinks(dir); err != nil || !a.drop {
		return real, "", err
	}
	for d := real; ; d = filepath.Dir(d) {
		if !a.mayEnter(d) {
			blocked = d
		}
		if d == filepath.Dir(d) {
			return real, blocked, nil
		}
	}
}

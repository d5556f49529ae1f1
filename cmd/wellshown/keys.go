package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/sealed"
)

const keysUsage = `wellshown keys secrets|ledger [--add] FILE
wellshown keys public FILE

Makes a file of keys, readable by its owner only, unless it is there already: those
that secrets in the database are sealed with (name it in WELLSHOWN_SECRET_KEYS), or
those that the heads of the ledger are signed with (WELLSHOWN_LEDGER_KEYS). Keep a
copy of each in another place: without the first nobody can open those secrets, and
without the second nothing more can be sealed.

  --add   add a key to a file that is there: it is the one in use from the next
          start on, and the ones before still open what they have sealed or signed
  public  print the public halves of the keys of a ledger, for whoever checks heads
`

// keyKind is one kind of key file.
type keyKind struct {
	file func(io.Reader, string) (string, error) // a whole new file
	key  func(io.Reader, string) (string, error) // one key more
	read func(string) error
}

var keyKinds = map[string]keyKind{
	"secrets": {sealed.KeyFile, sealed.NewKey, func(file string) error { _, err := readSecretKeys(file); return err }},
	"ledger":  {ledger.KeyFile, ledger.NewKey, func(file string) error { _, err := readLedgerKeys(file); return err }},
}

func runKeys(_ context.Context, args []string, out io.Writer) error {
	if len(args) == 1 && asksHow(args[0]) {
		_, err := fmt.Fprint(out, keysUsage)
		return err
	}
	if len(args) == 2 && args[0] == "public" {
		return showPublic(args[1], out)
	}
	if len(args) > 1 {
		kind, known := keyKinds[args[0]]
		switch {
		case known && len(args) == 2 && args[1] != "--add":
			return kind.make(args[1], out)
		case known && len(args) == 3 && args[1] == "--add":
			return kind.add(args[2], out)
		}
	}
	return usageError("keys is told which keys, and which file\n\n" + keysUsage)
}

func showPublic(file string, out io.Writer) error {
	keys, err := readLedgerKeys(file)
	if err != nil {
		return err
	}
	for _, line := range keys.Public() {
		fmt.Fprintln(out, line)
	}
	return nil
}

// keyName tells a new key from others.
func keyName() (string, error) {
	id := make([]byte, 4)
	if _, err := rand.Read(id); err != nil {
		return "", fmt.Errorf("draw a name for the key: %w", err)
	}
	return fmt.Sprintf("key-%x", id), nil
}

func (k keyKind) make(file string, out io.Writer) error {
	if err := k.read(file); err == nil {
		_, err = fmt.Fprintf(out, "%s is there already, and as it should be.\n", file)
		return err
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	name, err := keyName()
	if err != nil {
		return err
	}
	whole, err := k.file(rand.Reader, name)
	if err != nil {
		return err
	}
	if err := writeWhole(file, []byte(whole), os.Link); err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s is made with one key, %s. Keep a copy of it in another place.\n", file, name)
	return err
}

// add reads first what is there: a file that is no key file is left alone.
func (k keyKind) add(file string, out io.Writer) error {
	if err := k.read(file); err != nil {
		return fmt.Errorf("no key is added: %w", err)
	}
	kept, err := os.ReadFile(file)
	if err != nil {
		return fmt.Errorf("read the key file: %w", err)
	}
	name, err := keyName()
	if err != nil {
		return err
	}
	line, err := k.key(rand.Reader, name)
	if err != nil {
		return err
	}
	if kept[len(kept)-1] != '\n' {
		kept = append(kept, '\n')
	}
	if err := writeWhole(file, append(kept, line...), os.Rename); err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%s has another key, %s, which is the one in use from the next start on. Keep a copy of it in another place.\n", file, name)
	return err
}

// writeWhole writes a file that only its owner may read, so that whoever looks sees
// all of it or none. Put says how it comes to its name: os.Link never replaces a
// file that is there, os.Rename does.
func writeWhole(file string, body []byte, put func(from, to string) error) error {
	f, err := os.CreateTemp(filepath.Dir(file), ".keys-*") // with mode 0600
	if err != nil {
		return fmt.Errorf("make the key file: %w", err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(body)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("write the key file: %w", err)
	}
	if err := put(f.Name(), file); err != nil {
		return fmt.Errorf("put the key file in its place: %w", err)
	}
	return settle(filepath.Dir(file))
}

// settle has a folder written to the disk: a file that is in no folder after a power
// cut is lost, and with it all that its key has signed.
func settle(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		return fmt.Errorf("open the folder of the key file: %w", err)
	}
	if err := errors.Join(d.Sync(), d.Close()); err != nil {
		return fmt.Errorf("write the folder of the key file: %w", err)
	}
	return nil
}

// tellLostKeys warns whoever starts the service that some secrets cannot be opened.
// All else works, so it goes on.
func tellLostKeys(ctx context.Context, o *office.Office, out io.Writer) error {
	lost, err := o.LostKeys(ctx)
	if err != nil || len(lost) == 0 {
		return err
	}
	_, err = fmt.Fprintf(out, "Some people's one-time codes are sealed with keys that are not in the file of WELLSHOWN_SECRET_KEYS: %s. Bring them back from your copy; until then those people need recovery codes or passkeys to sign in.\n", strings.Join(lost, ", "))
	return err
}

// readSecretKeys reads the file of WELLSHOWN_SECRET_KEYS; none where it is not set.
func readSecretKeys(file string) (*sealed.Keys, error) {
	return readKeys(file, "WELLSHOWN_SECRET_KEYS", "secrets", "one-time codes cannot be checked", sealed.ReadKeys)
}

// readLedgerKeys reads the file of WELLSHOWN_LEDGER_KEYS; none where it is not set.
func readLedgerKeys(file string) (*ledger.Keys, error) {
	return readKeys(file, "WELLSHOWN_LEDGER_KEYS", "ledger", "the ledger cannot be sealed", ledger.ReadKeys)
}

func readKeys[K any](file, setting, kind, without string, read func(string) (*K, error)) (*K, error) {
	if file == "" {
		return nil, nil
	}
	says := func(err error) error {
		return fmt.Errorf("%s: %w. Without these keys %s: bring back the file from your copy. Only where there never was one, make it: wellshown keys %s %s", setting, err, without, kind, file)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, says(err)
	}
	if info, err := os.Stat(file); err == nil && info.Mode().Perm()&0o077 != 0 {
		return nil, fmt.Errorf("%s: others on this machine may read %s: make it its owner's alone (chmod 600 %s)", setting, file, file)
	}
	keys, err := read(string(text))
	if err != nil {
		return nil, says(fmt.Errorf("%s: %w", file, err))
	}
	return keys, nil
}

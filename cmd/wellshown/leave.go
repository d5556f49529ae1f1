package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"wellshown/cmd/wellshown/demo"
)

// papersFolder is where papers and sign-ins are left, within the folder that the
// command is started in.
const papersFolder = "out"

// signInsFile has the demo's sign-ins.
const signInsFile = "sign-ins.txt"

// mayLeave is nil where files can be left. It tries, since rights alone do not tell:
// a container's files may be read-only.
func mayLeave() error {
	if err := os.MkdirAll(papersFolder, 0o755); err != nil {
		return fmt.Errorf("make the folder for papers: %w", err)
	}
	f, err := os.CreateTemp(papersFolder, "try-*")
	if err != nil {
		return fmt.Errorf("write to the folder for papers: %w", err)
	}
	f.Close()
	return os.Remove(f.Name())
}

// leaveSignIns keeps the sign-ins in a file, or, where none can be written, says
// them: they exist nowhere else.
func leaveSignIns(all []demo.SignIn, out io.Writer) error {
	var b strings.Builder
	for _, s := range all {
		fmt.Fprintf(&b, "%s\t%s\t%s\t%s\n", s.Role, s.Name, s.Email, s.Secret)
	}
	cause := mayLeave()
	if cause == nil {
		cause = leave(signInsFile, []byte(b.String()), 0o600)
	}
	if cause == nil {
		_, err := fmt.Fprintf(out, "Sign-ins of the demo (role, name, e-mail address, password) are in %s.\n", filepath.Join(papersFolder, signInsFile))
		return err
	}
	_, err := fmt.Fprintf(out, "No file can be written here (%v), so these are the sign-ins of the demo, and they are nowhere else: role, name, e-mail address, password.\n\n%s\n", cause, b.String())
	return err
}

// leave writes one file.
func leave(name string, body []byte, mode os.FileMode) error {
	if err := os.MkdirAll(papersFolder, 0o755); err != nil {
		return fmt.Errorf("make the folder for papers: %w", err)
	}
	if err := os.WriteFile(filepath.Join(papersFolder, name), body, mode); err != nil {
		return fmt.Errorf("write %s: %w", name, err)
	}
	return nil
}

// whereSignIns tells whoever comes back to a demo how to get in.
func whereSignIns() string {
	file := filepath.Join(papersFolder, signInsFile)
	if _, err := os.Stat(file); err == nil {
		return fmt.Sprintf("Sign-ins of the demo are in %s.", file)
	}
	return fmt.Sprintf("There is no %s: the demo's sign-ins were shown or written when it was made, and nowhere else. Without them start over in an empty database (make fresh throws the private one of make run away).", file)
}

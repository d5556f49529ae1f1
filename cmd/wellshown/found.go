package main

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"flag"
	"fmt"
	"io"
	"strings"

	"wellshown/assessment/office"
)

const foundUsage = `wellshown found --code CODE --name NAME --zone ZONE --admin NAME --email ADDRESS

Founds an agency and its first administrator, and prints a password that has to
be changed at the first sign-in. ZONE is an IANA name such as America/Denver.
`

func runFound(ctx context.Context, args []string, out io.Writer) error {
	var n office.NewAgency
	set := flag.NewFlagSet("found", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.StringVar(&n.Code, "code", "", "")
	set.StringVar(&n.Name, "name", "", "")
	set.StringVar(&n.Zone, "zone", "", "")
	set.StringVar(&n.AdminName, "admin", "", "")
	set.StringVar(&n.AdminEmail, "email", "", "")
	if err := set.Parse(args); err != nil || n.Code == "" || n.AdminEmail == "" {
		return usageError(foundUsage)
	}
	b := make([]byte, 15)
	if _, err := rand.Read(b); err != nil {
		return fmt.Errorf("draw a password: %w", err)
	}
	n.AdminPassword = strings.ToLower(base32.StdEncoding.EncodeToString(b))
	return withOffice(ctx, func(_ config, o *office.Office) error {
		if _, err := o.FoundAgency(ctx, n); err != nil {
			return fmt.Errorf("found the agency: %w", err)
		}
		fmt.Fprintf(out, "%s is founded. %s signs in as %s with the password %s and chooses another one.\n", n.Name, n.AdminName, n.AdminEmail, n.AdminPassword)
		return nil
	})
}

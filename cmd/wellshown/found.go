package main

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"wellshown/assessment/office"
)

const foundUsage = `wellshown found --code CODE --name NAME --zone ZONE --admin NAME --email ADDRESS
wellshown found --beside --code CODE --admin NAME --email ADDRESS

Founds an agency and its first administrator, and prints a password that has to
be changed at the first sign-in. ZONE is an IANA name such as America/Denver.
--beside adds a second administrator to an agency that is there. Everybody else
comes in by links, so without one nobody can vouch for those whom the first let in.
`

func runFound(ctx context.Context, args []string, out io.Writer) error {
	if len(args) == 1 && asksHow(args[0]) {
		_, err := fmt.Fprint(out, foundUsage)
		return err
	}
	n, err := readFound(args)
	if err != nil {
		return usageError(fmt.Sprintf("%v\n\n%s", err, foundUsage))
	}
	b := make([]byte, 15)
	if _, err := rand.Read(b); err != nil {
		return fmt.Errorf("draw a password: %w", err)
	}
	n.AdminPassword = strings.ToLower(base32.StdEncoding.EncodeToString(b))
	return withLedger(ctx, func(_ config, o *office.Office) error {
		if n.beside {
			second := office.SecondFounder{Code: n.Code, Name: n.AdminName, Email: n.AdminEmail, Password: n.AdminPassword}
			if _, err := o.FoundBeside(ctx, second); err != nil {
				return fmt.Errorf("let a second founder in: %w", err)
			}
			fmt.Fprintf(out, "%s is let in. They sign in as %s with the password %s and choose another one.\n", n.AdminName, n.AdminEmail, n.AdminPassword)
			return nil
		}
		if _, err := o.FoundAgency(ctx, n.NewAgency); err != nil {
			return fmt.Errorf("found the agency: %w", err)
		}
		fmt.Fprintf(out, "%s is founded. %s signs in as %s with the password %s and chooses another one.\n", n.Name, n.AdminName, n.AdminEmail, n.AdminPassword)
		return nil
	})
}

// founding is what is to be founded, or whom to let in beside.
type founding struct {
	office.NewAgency
	beside bool
}

// readFound reads what is to be founded and reports all that is missing at once.
func readFound(args []string) (founding, error) {
	var n founding
	set := flag.NewFlagSet("found", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	options := []struct {
		name, means string
		into        *string
	}{
		{"code", "a short lower-case word that commands name the agency by", &n.Code},
		{"name", "the agency's name", &n.Name},
		{"zone", "its time zone, such as America/Denver", &n.Zone},
		{"admin", "the name of its first administrator", &n.AdminName},
		{"email", "that administrator's e-mail address", &n.AdminEmail},
	}
	for _, o := range options {
		set.StringVar(o.into, o.name, "", o.means)
	}
	set.BoolVar(&n.beside, "beside", false, "add a second administrator to an agency that is there")
	if err := parseOptions(set, args); err != nil {
		return n, err
	}
	var faults []error
	for _, o := range options {
		ofAgency := o.name == "name" || o.name == "zone"
		switch {
		case n.beside && ofAgency && *o.into != "":
			faults = append(faults, fmt.Errorf("--%s belongs to an agency that is founded, not to a second founder", o.name))
		case *o.into == "" && !(n.beside && ofAgency):
			faults = append(faults, fmt.Errorf("--%s is missing: give %s", o.name, o.means))
		}
	}
	return n, errors.Join(faults...)
}

// parseOptions reads options and nothing else. A question for help among them is
// told from one that is unknown.
func parseOptions(set *flag.FlagSet, args []string) error {
	err := set.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return errors.New("-h stands alone")
	case err != nil:
		return errors.New(strings.Replace(err.Error(), "flag provided but not defined: ", "there is no option ", 1))
	case set.NArg() > 0:
		return fmt.Errorf("%q is no option", set.Arg(0))
	}
	return nil
}

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/reports"
)

const reportUsage = `wellshown report KIND --agency CODE --out FILE [more]

  overdue      [--on YYYY-MM-DD] [--within DAYS] [--by caregiver|skill] [--format pdf|csv|xlsx]
  coverage     [--from YYYY-MM-DD] [--through YYYY-MM-DD] [--child CODE] [--format pdf|csv|xlsx]
  visits       [--weeks NUMBER]
  readiness    --child CODE [--on YYYY-MM-DD] [--language en|es]
  transcript   --person NAME-OR-E-MAIL [--on YYYY-MM-DD] [--language en|es]
  certificate  --code CHECK-CODE
  packet       for a surveyor [--format pdf|json|zip], about one of:
               --person NAME --skill CODE [--child CODE] [--on YYYY-MM-DD]  an incident
               --person NAME [--on YYYY-MM-DD]  or  --child CODE [--on YYYY-MM-DD]
               --from YYYY-MM-DD --through YYYY-MM-DD  the whole agency

A day that is left out is today in the agency's zone. FILE - is standard output.
Without more, overdue looks 90 days ahead and is a PDF by caregiver; coverage looks at
14 days, and visits at 8 weeks, from today.
`

// reportFlags are what the kinds of report ask for.
type reportFlags struct {
	agency, out, by, format, child, person, code string
	skill, from, through                         string // of a packet
	language                                     string
	within, weeks                                int
	on                                           civil.Date // zero: today
}

// option is one that may be given, and what it is.
type option struct{ name, means string }

// reportKind is what one kind of report must and may be given.
type reportKind struct {
	name      string
	must, may []option
	formats   []string // that it comes in; nil: it is what it is
}

var (
	onDay      = option{"on", "a day, as YYYY-MM-DD"}
	inLanguage = option{"language", "en or es"}
	all        = []option{{"agency", "the agency's code"}, {"out", "a file, or - for standard output"}}
)

var reportKinds = []reportKind{
	{"overdue", all, []option{onDay, {"within", "a number of days"}, {"by", "caregiver or skill"}, {"format", "pdf, csv or xlsx"}}, []string{"pdf", "csv", "xlsx"}},
	{"coverage", all, []option{{"from", "a day"}, {"through", "a day"}, {"child", "the child's short code"}, {"format", "pdf, csv or xlsx"}}, []string{"pdf", "csv", "xlsx"}},
	{"visits", all, []option{{"weeks", "a number of weeks"}}, nil},
	{"readiness", slices.Concat(all, []option{{"child", "the child's short code"}}), []option{onDay, inLanguage}, nil},
	{"transcript", slices.Concat(all, []option{{"person", "the name or e-mail address"}}), []option{onDay, inLanguage}, nil},
	{"certificate", slices.Concat(all, []option{{"code", "the check code that is printed on it"}}), nil, nil},
	{"packet", all, []option{onDay, {"person", "the name or e-mail address"}, {"child", "the child's short code"}, {"skill", "the skill's code"}, {"from", "a day"}, {"through", "a day"}, {"format", "pdf, json or zip"}}, reports.PacketFormats},
}

// readReportFlags reads the options of one kind of report. One that another kind
// takes is refused, never passed over: whoever gives it expects another paper.
func readReportFlags(kind string, args []string) (reportFlags, error) {
	i := slices.IndexFunc(reportKinds, func(k reportKind) bool { return k.name == kind })
	if i < 0 {
		return reportFlags{}, fmt.Errorf("there is no report %q", kind)
	}
	k := reportKinds[i]
	set := flag.NewFlagSet("report", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	given := map[string]*string{}
	for _, o := range slices.Concat(k.must, k.may) {
		given[o.name] = set.String(o.name, "", "")
	}
	if err := parseOptions(set, args); err != nil {
		return reportFlags{}, fmt.Errorf("report %s: %w", kind, err)
	}
	var faults []error
	for _, o := range k.must {
		if *given[o.name] == "" {
			faults = append(faults, fmt.Errorf("--%s is missing: give %s", o.name, o.means))
		}
	}
	f, err := takeOptions(func(name string) string {
		if text := given[name]; text != nil {
			return *text
		}
		return ""
	}, k.formats)
	return f, errors.Join(append(faults, err)...)
}

// takeOptions gives each option its meaning. Codes of agencies are written small and
// those of children in capitals, however they are typed.
func takeOptions(text func(string) string, formats []string) (reportFlags, error) {
	f := reportFlags{agency: strings.ToLower(text("agency")), out: text("out"), child: strings.ToUpper(text("child")),
		person: text("person"), code: text("code"), skill: text("skill"), from: text("from"), through: text("through"), by: "caregiver", format: "pdf", language: "en", within: 90}
	if formats == nil {
		formats = []string{"pdf"}
	}
	var faults []error
	for name, choice := range map[string]struct {
		into *string
		of   []string
	}{"by": {&f.by, []string{"caregiver", "skill"}}, "format": {&f.format, formats}, "language": {&f.language, []string{"en", "es"}}} {
		if given := text(name); given != "" {
			*choice.into = given
		}
		if !slices.Contains(choice.of, *choice.into) {
			faults = append(faults, fmt.Errorf("--%s is %q: it is %s", name, *choice.into, strings.Join(choice.of, " or ")))
		}
	}
	var err error
	if f.within, err = readNumber("within", "days", text("within"), f.within, 3660); err != nil {
		faults = append(faults, err)
	}
	if f.weeks, err = readNumber("weeks", "weeks", text("weeks"), office.VisitWeeks, office.MostVisitWeeks); err != nil {
		faults = append(faults, err)
	}
	if given := text("on"); given != "" {
		if f.on, err = civil.Parse(given); err != nil {
			faults = append(faults, fmt.Errorf("--on: %w", err))
		}
	}
	return f, errors.Join(faults...)
}

// readNumber reads how many days or weeks; what is not given is as usual.
func readNumber(name, of, text string, usual, most int) (int, error) {
	if text == "" {
		return usual, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > most {
		return 0, fmt.Errorf("--%s is %q: it is a number of %s from 1 to %d", name, text, of, most)
	}
	return n, nil
}

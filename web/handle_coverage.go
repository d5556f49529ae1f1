package web

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

func (s *Site) coverage(v *visit) error {
	q, bad := coverageQuery(v)
	page, err := s.coveragePage(v, q)
	if err != nil && bad == nil && fault.KindOf(err) == fault.Invalid {
		bad = err
		page, err = s.coveragePage(v, office.CoverageQuery{State: "trouble"})
	}
	if err != nil {
		return err
	}
	if bad == nil {
		return v.show(page)
	}
	faults, unknown := v.wrong(bad, "This cannot be shown.", label("from", "From"), label("through", "Through"), label("client", "Child"), label("state", "State"))
	if unknown != nil {
		return unknown
	}
	page.Faults, page.From, page.Through = faults, v.query("from"), v.query("through")
	return v.again(page)
}

// coverageQuery reads the address; what is wrong in it is left out and told.
func coverageQuery(v *visit) (office.CoverageQuery, error) {
	var faults fault.Fields
	q := office.CoverageQuery{State: v.query("state")}
	var err error
	q.From, err = v.day("from")
	faults.Take("from", err)
	q.Through, err = v.day("through")
	faults.Take("through", err)
	q.Client = queryClient(v, &faults)
	switch q.State {
	case "":
		q.State = "trouble"
	case "all":
		q.State = ""
	}
	if faults.Err() != nil {
		return office.CoverageQuery{State: "trouble"}, faults.Err()
	}
	return q, nil
}

func (s *Site) coveragePage(v *visit, q office.CoverageQuery) (CoveragePage, error) {
	c, err := s.office.Coverage(v.ctx(), v.by(), q)
	if err != nil {
		return CoveragePage{}, err
	}
	state := q.State
	if state == "" {
		state = "all"
	}
	page := CoveragePage{Frame: v.frame("today"), From: isoDay(c.From), Through: isoDay(c.Through), Days: day(c.From) + " to " + day(c.Through), Client: string(q.Client), State: state,
		Clients: clientOptions("every child", c.Clients), Shifts: c.Counts.Shifts, Breaks: c.Counts.Breaks, Open: c.Counts.Open, Clashes: c.Counts.Clashes, Covered: c.Counts.Covered,
		Before: c.Through.AddDays(1).Format("Monday 2 January"), Share: v.may(assessment.EditRoster)}
	page.States = []Option{{Value: "trouble", Text: "to mend"}, {Value: "breaks", Text: "breaks"}, {Value: "open", Text: "open"}, {Value: "clash", Text: "clashes"}, {Value: "covered", Text: "covered"}, {Value: "all", Text: "every shift"}}
	ask := coverageAsk(page)
	page.PDF, page.CSV, page.XLSX = "/coverage.pdf?"+ask, "/coverage.csv?"+ask, "/coverage.xlsx?"+ask
	for i, l := range c.First {
		if i == mostFirst {
			page.FirstMore = len(c.First) - mostFirst
			break
		}
		page.First = append(page.First, coverLine(l))
	}
	shown := wholeDays(c.Lines)
	page.Groups = coverGroups(c.Lines[:shown], page.Share, c.At)
	page.ShareOut = v.shareOut(slices.DeleteFunc(slices.Clone(c.Lines[:shown]), func(l office.CoverLine) bool { return !needsSomebody(l) || !l.Ends.After(c.At) }))
	if rest := c.Lines[shown:]; len(rest) > 0 {
		next := page
		next.From = isoDay(civil.DayOf(rest[0].Starts, rest[0].Starts.Location()))
		page.Later = Link{"See the " + count(len(rest), "shift", "shifts") + " from " + rest[0].Starts.Format("Monday 2 January") + " on", "/coverage?" + coverageAsk(next)}
	}
	if page.Share {
		page.Import, page.Rest = v.importOf(intake.Shifts), RestForm{Action: "/coverage/rest"}
		if c.Rest > 0 {
			page.Rest.Hours = strconv.Itoa(int(c.Rest / time.Hour))
		}
	}
	return page, nil
}

// mostLines is how many shifts a page shows, but for those of the day on which that is
// reached; mostFirst of how many children it shows the first that breaks.
const mostLines, mostFirst = 120, 20

// wholeDays is how many of the lines, in order, a page shows: whole days of them.
func wholeDays(lines []office.CoverLine) int {
	for i, l := range lines {
		if i >= mostLines && l.Starts.YearDay() != lines[i-1].Starts.YearDay() {
			return i
		}
	}
	return len(lines)
}

func (s *Site) setRest(v *visit) error {
	hours := v.form("hours")
	refused := s.office.SetRest(v.ctx(), v.by(), hours)
	if refused == nil {
		return v.to("/coverage", "The rest between shifts is set.")
	}
	var faults Faults
	if err := v.take(&faults, refused, "The rest was not set.", label("hours", "Hours of rest")); err != nil {
		return err
	}
	page, err := s.coveragePage(v, office.CoverageQuery{State: "trouble"})
	if err != nil {
		return err
	}
	page.Rest.Faults, page.Rest.Hours = faults, hours
	return v.again(page)
}

// shareOut leads to a proposal of who takes these shifts, or as many of them as are shared out at
// once, where the reader may give them.
func (v *visit) shareOut(lines []office.CoverLine) Link {
	if len(lines) == 0 || !v.may(assessment.EditRoster) {
		return Link{}
	}
	words := "Propose who takes these "
	if len(lines) > office.MostShared {
		words, lines = "Propose who takes the first ", lines[:office.MostShared]
	}
	ask := url.Values{}
	for _, l := range lines {
		ask.Add("shift", string(l.ID))
	}
	text := "Propose who takes it"
	if n := len(lines); n > 1 {
		text = words + strconv.Itoa(n)
	}
	return Link{text, "/coverage/sharing?" + ask.Encode()}
}

// sharing proposes who takes the shifts that were ticked.
func (s *Site) sharing(v *visit) error {
	var ids []assessment.ShiftID
	for _, text := range v.c.QueryArray("shift") {
		ids = append(ids, assessment.ShiftID(text))
	}
	page, err := s.sharingPage(v, ids)
	if f, refused := fault.As(err); refused && (f.Kind == fault.Invalid || f.Kind == fault.Refused) {
		page = SharingPage{Frame: v.frame("today"), Faults: Faults{What: "Nothing can be proposed.", Why: f.Message}}
		return v.again(page)
	}
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) sharingPage(v *visit, ids []assessment.ShiftID) (SharingPage, error) {
	d, err := s.office.ShareOut(v.ctx(), v.by(), ids)
	if err != nil {
		return SharingPage{}, err
	}
	page := SharingPage{Frame: v.frame("today")}
	if v.may(assessment.EditRoster) {
		page.Action = "/coverage/sharing"
	}
	for _, t := range d.Takes {
		page.Takes = append(page.Takes, SharedLine{coverLine(t.CoverLine), strings.Join([]string{string(t.ID), t.Version, string(t.Takes.ID)}, " "), t.Takes.Name, "/people/" + string(t.Takes.ID)})
	}
	for _, l := range d.None {
		page.None = append(page.None, coverLine(l))
	}
	return page, nil
}

// giveShifts gives what was proposed, all of it or nothing.
func (s *Site) giveShifts(v *visit) error {
	var all []office.GiveForm
	var ids []assessment.ShiftID
	for _, text := range v.c.PostFormArray("take") {
		parts := strings.Fields(text)
		if len(parts) != 3 {
			return fault.Of(fault.NotFound, "There is no such record.")
		}
		person, err := assessment.ParseID[assessment.PersonID](parts[2])
		if err != nil {
			return err
		}
		all = append(all, office.GiveForm{Shift: assessment.ShiftID(parts[0]), Version: parts[1], Person: person})
		ids = append(ids, assessment.ShiftID(parts[0]))
	}
	refused := s.office.GiveShifts(v.ctx(), v.by(), all)
	if refused == nil {
		return v.to("/coverage", "The shifts are given.")
	}
	page := SharingPage{Frame: v.frame("today")}
	if err := v.take(&page.Faults, refused, "No shift was given.", label("person", "Who takes it"), label("short_rest", "Rest")); err != nil {
		return err
	}
	if again, err := s.sharingPage(v, ids); err == nil {
		again.Faults = page.Faults
		page = again
	}
	return v.again(page)
}

// coverageAsk is the query of a file that has what a page has.
func coverageAsk(page CoveragePage) string {
	return url.Values{"from": {page.From}, "through": {page.Through}, "client": {page.Client}, "state": {page.State}}.Encode()
}

package written

import (
	"fmt"
	"regexp"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// StandingCase is one question for `wellshown standing`: a policy, all that is
// known of one caregiver in one skill, and the days to answer for.
type StandingCase struct {
	Zone    *time.Location
	Terms   assessment.Terms
	History []assessment.Entry
	On      []civil.Date
}

// DecodeStandingCase reads a case and refuses what it does not understand, and a
// history that contradicts itself.
func DecodeStandingCase(data []byte) (StandingCase, error) {
	tree, err := caseTree(data)
	if err == nil {
		tree, err = withoutVector(tree)
	}
	if err != nil {
		return StandingCase{}, err
	}
	var first error
	top := openCase(tree, "", &first, "zone", "policy", "history", "on")
	c := StandingCase{Zone: readZone(top), Terms: readTerms(top)}
	for i, v := range top.list("history", maxCaseEntries) {
		c.History = append(c.History, readHistoryEntry(v, fmt.Sprintf("history[%d]", i), &first))
	}
	c.On = readDays(top)
	if first == nil {
		first = assessment.CheckHistory(c.History, c.Zone)
	}
	if first != nil {
		return StandingCase{}, first
	}
	return c, nil
}

// zoneForm is the form of the names of the IANA time zone database. What
// operating systems keep beside them (localtime, posix/…, right/…) is not it.
var zoneForm = regexp.MustCompile(`^[A-Z][A-Za-z0-9_+-]*(/[A-Za-z0-9_+-]+)*$`)

func readZone(top caseFields) *time.Location {
	name := top.text("zone")
	if !top.has("zone") {
		return time.UTC
	}
	zone, err := time.LoadLocation(name)
	if err != nil || name == "Local" || !zoneForm.MatchString(name) {
		top.refuse("zone", "%q is no time zone: write its IANA name, such as America/Denver", name)
		return time.UTC
	}
	return zone
}

func readTerms(top caseFields) assessment.Terms {
	v, ok := top.need("policy")
	if !ok {
		return assessment.Terms{}
	}
	f := openCase(v, "policy", top.first, "award", "validity")
	t := assessment.Terms{Award: readAward(f), Validity: readValidity(f)}
	if err := t.Check(); err != nil {
		f.refuse("", "%v", err)
	}
	return t
}

func readAward(policy caseFields) assessment.Award {
	v, ok := policy.need("award")
	if !ok {
		return assessment.Award{}
	}
	f := openCase(v, "policy.award", policy.first, "count", "days", "observers", "real", "span_days", "consecutive")
	return assessment.Award{
		Count: f.whole("count"), Days: f.whole("days"), Observers: f.whole("observers"), Real: f.whole("real"),
		SpanDays: f.whole("span_days"), Consecutive: f.yesOr("consecutive", true),
	}
}

func readValidity(policy caseFields) assessment.Validity {
	v, ok := policy.need("validity")
	if !ok {
		return assessment.Validity{}
	}
	f := openCase(v, "policy.validity", policy.first,
		"months", "anchor", "renewal_days", "notice_days", "lapse_months", "absence_days")
	return assessment.Validity{
		Months: f.whole("months"), Anchor: oneOf(f, "anchor", assessment.Anniversary, assessment.MonthEnd),
		RenewalDays: f.whole("renewal_days"), NoticeDays: f.whole("notice_days"),
		LapseMonths: f.limit("lapse_months"), AbsenceDays: f.whole("absence_days"),
	}
}

func readDays(top caseFields) []civil.Date {
	var days []civil.Date
	for i, v := range top.list("on", MaxCaseBytes) {
		name := fmt.Sprintf("on[%d]", i)
		days = append(days, caseFields{values: map[string]any{name: v}, first: top.first}.day(name))
	}
	return days
}

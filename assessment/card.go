package assessment

import (
	"regexp"
	"strconv"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// Card is a resuscitation card on file.
type Card struct {
	Issuer   string
	IssuedOn civil.Date // zero where only the course is known
	CourseOn civil.Date
	Through  civil.Date // as printed; zero: worked out
}

// cardMonths: valid two years through the end of the month of issue (American
// Heart Association, course card information).
const cardMonths = 24

// LastDay is the last day of the card: two years through the end of the month of
// issue, or of the course where the issue is not known, which can never give a
// later day. A printed end that is earlier stands.
func (c Card) LastDay() (civil.Date, error) {
	from := c.IssuedOn
	if from.IsZero() {
		from = c.CourseOn
	}
	if from.IsZero() {
		if c.Through.IsZero() {
			return civil.Date{}, fault.Of(fault.Invalid, "give the day of issue, the day of the course or the printed end")
		}
		return c.Through, nil
	}
	last := from.AddMonths(cardMonths).MonthEnd()
	if !c.Through.IsZero() {
		last = civil.Earlier(last, c.Through)
	}
	return last, nil
}

var cardEnd = regexp.MustCompile(`^(0[1-9]|1[0-2])/([0-9]{4})$`)

// ParseCardEnd reads MM/YYYY as cards print it: the last day of that month.
func ParseCardEnd(s string) (civil.Date, error) {
	m := cardEnd.FindStringSubmatch(s)
	if m == nil || m[2] == "0000" {
		return civil.Date{}, fault.Of(fault.Invalid, "%q is not a month and year: write it as 06/2027", s)
	}
	month, _ := strconv.Atoi(m[1])
	year, _ := strconv.Atoi(m[2])
	return civil.Of(year, time.Month(month), 1).MonthEnd(), nil
}

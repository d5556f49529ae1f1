package wording

import (
	"fmt"
	"strings"
	"time"

	"wellshown/assessment/civil"
)

// dates are the words of a calendar in one language.
type dates struct {
	day, weekday  string // of day, month, year; of weekday, day, month
	months, short [12]string
	weekdays      [7]string // from Sunday
}

// datesIn has the names and orders of the Unicode CLDR for English as written in
// Europe and for Spanish (from memory).
var datesIn = map[Language]dates{
	English: {day: "%d %s %d", weekday: "%s %d %s",
		months:   [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
		short:    [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},
		weekdays: [7]string{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"}},
	Spanish: {day: "%d de %s de %d", weekday: "%s %d de %s",
		months:   [12]string{"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"},
		short:    [12]string{"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sept", "oct", "nov", "dic"},
		weekdays: [7]string{"domingo", "lunes", "martes", "miércoles", "jueves", "viernes", "sábado"}},
}

// Day is a day with its month in full: 18 November 2026, 18 de noviembre de 2026. No
// day is no text.
func (w Words) Day(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.Civil()
	return fmt.Sprintf(w.dates.day, day, w.dates.months[m-1], y)
}

// ShortDay is a day for tables: 18 Nov 2026, 18 nov 2026.
func (w Words) ShortDay(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.Civil()
	return fmt.Sprintf("%d %s %d", day, w.dates.short[m-1], y)
}

// Weekday is a near day: Friday 4 December, viernes 4 de diciembre.
func (w Words) Weekday(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	_, m, day := d.Civil()
	return fmt.Sprintf(w.dates.weekday, w.dates.weekdays[d.Weekday()], day, w.dates.months[m-1])
}

// Instant is a moment as the clocks of zone showed it, with the zone's name or, where
// it has none, its distance from UTC: 18 Nov 2026, 15:42 MST.
func (w Words) Instant(at time.Time, zone *time.Location) string {
	return w.ShortDay(civil.DayOf(at, zone)) + ", " + w.Clock(at, zone)
}

// Clock is the time of day in a zone, with the zone's name: 14:05 MST.
func (w Words) Clock(at time.Time, zone *time.Location) string {
	local := at.In(zone)
	name := local.Format("MST")
	if strings.HasPrefix(name, "+") || strings.HasPrefix(name, "-") {
		name = "UTC" + local.Format("-07:00")
	}
	return local.Format("15:04") + " " + name
}

package office

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// A preview's version is the instant since which it tells of shifts, and a hash of what it
// tells. With the instant it can be told again later on the same day: a shift that was
// over by then is not missed.

// versioned is what a version is made of: ids and words, no names.
type versioned struct {
	Today, Through                        civil.Date
	Standings                             []versionedTurn
	BrokenShifts, MendedShifts, Otherwise []versionedShift
}

type versionedTurn struct {
	Person assessment.PersonID
	Skill  assessment.SkillID
	Client assessment.ClientID
	Turn   assessment.Turn
}

type versionedShift struct {
	Shift        assessment.ShiftID
	Person       assessment.PersonID
	Client       assessment.ClientID
	Starts, Ends time.Time
	Lacks        []string
}

func (p Preview) version(since time.Time) (string, error) {
	told := versioned{Today: p.Today, Through: p.ShiftsThrough, BrokenShifts: versionedShifts(p.Broken), MendedShifts: versionedShifts(p.Mended), Otherwise: versionedShifts(p.Otherwise)}
	for _, c := range p.Standings {
		told.Standings = append(told.Standings, versionedTurn{c.Person.ID, c.Skill.ID, c.Client.ID, c.Turn})
	}
	text, err := json.Marshal(told)
	if err != nil {
		return "", fmt.Errorf("tell the version of a preview: %w", err)
	}
	hash := sha256.Sum256(text)
	return strconv.FormatInt(since.UnixMicro(), 36) + "." + hex.EncodeToString(hash[:16]), nil
}

func versionedShifts(lines []CoverLine) []versionedShift {
	var all []versionedShift
	for _, l := range lines {
		s := versionedShift{Shift: l.ID, Person: l.Person.ID, Client: l.Client.ID, Starts: l.Starts.UTC(), Ends: l.Ends.UTC()}
		for _, k := range l.Lacks {
			s.Lacks = append(s.Lacks, fmt.Sprint(k.Why, k.On, k.Skill.Code, k.With.ID, k.Word, k.Asks))
		}
		all = append(all, s)
	}
	return all
}

// seenSince is the instant of the version of a preview that somebody looked at; false
// where it is none of today's.
func seenSince(version string, now Moment) (time.Time, bool) {
	since, _, _ := strings.Cut(version, ".")
	n, err := strconv.ParseInt(since, 36, 64)
	at := time.UnixMicro(n).UTC()
	return at, err == nil && civil.DayOf(at, now.Zone) == now.Today && !at.After(now.At)
}

package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// CarriedView is what somebody is said to have shown elsewhere. It is shown beside their standings
// and never is one: the fold does not know of it.
type CarriedView struct {
	Person   PersonRef
	Zone     *time.Location
	Lines    []CarriedEntry // by skill and day
	Papers   []CarriedPaperView
	Children []ClientRef // whom they look after, for whoever may take in a file
}

// CarriedEntry is one competency by an old paper.
type CarriedEntry struct {
	ID         assessment.RecordID
	Skill      SkillRef
	Client     ClientRef // empty: of a general skill
	ObservedOn civil.Date
	ThroughOn  civil.Date // through when by the old paper; zero: it says none
	Signer     string
	Place      string
	BroughtBy  string // name
	BroughtAt  time.Time
	Papers     []int // numbers of the papers that show it, from 1
}

// CarriedPaperView is a photo or scan of an old paper.
type CarriedPaperView struct {
	ID        assessment.RecordID
	Number    int
	MediaType string
	Bytes     int
	Sheets    int
	At        time.Time
}

// CarriedIn reads what was carried in of a person.
func (o *Office) CarriedIn(ctx context.Context, by assessment.Actor, person assessment.PersonID) (CarriedView, error) {
	var v CarriedView
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadRecords, person, false); err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		v = CarriedView{Person: PersonRef{p.ID, p.Name, p.Kind, p.Relation}, Zone: now.Zone}
		if v.Lines, v.Papers, err = carriedIn(ctx, tx, by, person); err != nil || by.Reach(assessment.TakeIn) != assessment.Everything {
			return err
		}
		team, err := tx.Teams.List(ctx, postgres.TeamFilter{Person: person})
		for _, m := range team {
			if c := (ClientRef{m.Client, m.Code, m.FirstName}); !gone(m.ClientLeft, now.Today) && !slices.Contains(v.Children, c) {
				v.Children = append(v.Children, c)
			}
		}
		return err
	})
	return v, err
}

// carriedIn is what was carried in of a person, as far as whoever asks may read of it. A paper
// may show several lines; it is theirs to see who may read all of them.
func carriedIn(ctx context.Context, tx *postgres.Tx, by assessment.Actor, person assessment.PersonID) ([]CarriedEntry, []CarriedPaperView, error) {
	kept, err := tx.CarriedIn.Of(ctx, person)
	if err != nil || len(kept) == 0 {
		return nil, nil, err
	}
	papers, err := tx.CarriedIn.Papers(ctx, person)
	if err != nil {
		return nil, nil, err
	}
	hidden := map[string]bool{}
	kept = slices.DeleteFunc(kept, func(l postgres.CarriedLine) bool {
		not := by.MayForCase(assessment.ReadRecords, l.PersonID, l.ClientID) != nil
		for _, p := range l.Papers {
			hidden[p] = hidden[p] || not
		}
		return not
	})
	var views []CarriedPaperView
	number := map[string]int{}
	for _, p := range papers {
		if id := string(p.ID); !hidden[id] {
			number[id] = len(views) + 1
			views = append(views, CarriedPaperView{p.ID, len(views) + 1, p.MediaType, p.Bytes, p.Sheets, p.AttachedAt})
		}
	}
	names, err := namesOf(ctx, tx, kept)
	if err != nil {
		return nil, nil, err
	}
	var lines []CarriedEntry
	for _, l := range kept {
		e := CarriedEntry{ID: l.ID, Skill: SkillRef{ID: l.SkillID, Code: l.SkillCode, Title: l.Title}, ObservedOn: l.ObservedOn, ThroughOn: l.ThroughOn, Signer: l.Signer, Place: l.Place, BroughtBy: names[l.BroughtBy], BroughtAt: l.BroughtAt}
		if l.ClientID != "" {
			e.Client = ClientRef{l.ClientID, l.Code, l.FirstName}
		}
		for _, p := range l.Papers {
			if number[p] != 0 {
				e.Papers = append(e.Papers, number[p])
			}
		}
		lines = append(lines, e)
	}
	return lines, views, nil
}

func namesOf(ctx context.Context, tx *postgres.Tx, lines []postgres.CarriedLine) (map[assessment.PersonID]string, error) {
	names := map[assessment.PersonID]string{}
	for _, l := range lines {
		if names[l.BroughtBy] != "" {
			continue
		}
		p, err := tx.People.Get(ctx, l.BroughtBy)
		if err != nil {
			return nil, err
		}
		names[l.BroughtBy] = p.Name
	}
	return names, nil
}

// AttachCarriedPaper keeps a photo or scan of an old paper and says which lines it shows. It is made
// anew from what was sent. Sending the same once more adds lines to it.
func (o *Office) AttachCarriedPaper(ctx context.Context, by assessment.Actor, person assessment.PersonID, shows []assessment.RecordID, sent []byte) error {
	if err := by.May(assessment.BringIn); err != nil {
		return err
	}
	if len(shows) == 0 {
		return faultAt("shows", "Tick what this paper shows.")
	}
	page, err := o.develop(ctx, sent)
	if err != nil {
		return err
	}
	return o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		kept, err := tx.CarriedIn.Of(ctx, person)
		if err != nil {
			return err
		}
		for _, id := range shows {
			if !slices.ContainsFunc(kept, func(l postgres.CarriedLine) bool { return l.ID == id }) {
				return faultAt("shows", "One of these lines is not there any more. Look at the page again.")
			}
		}
		papers, err := tx.CarriedIn.Papers(ctx, person)
		if err != nil {
			return err
		}
		if len(papers) >= MostCarriedPapers {
			return fault.Of(fault.Refused, "At most %d old papers are kept of one person. Scan several pages into one PDF.", MostCarriedPapers)
		}
		n := postgres.CarriedPaper{PersonID: person, MediaType: page.Type, Content: page.Content, Sheets: page.Sheets, AttachedBy: by.Person, AttachedAt: now.At}
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.CarriedIn.Attach(ctx, n, shows); err != nil {
			return fmt.Errorf("keep an old paper: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, "old paper", string(person))
	})
}

// MostCarriedPapers is how many old papers are kept of one person.
const MostCarriedPapers = 20

// RemoveCarriedIn takes a line off that was carried in by mistake, and papers that show nothing else.
// The ledger keeps that it was there.
func (o *Office) RemoveCarriedIn(ctx context.Context, by assessment.Actor, person assessment.PersonID, id assessment.RecordID) error {
	return o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		if err := tx.CarriedIn.Remove(ctx, person, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, "carried in, taken off", string(person))
	})
}

// CarriedPaper is an old paper with its content, for whoever may read all that it shows.
func (o *Office) CarriedPaper(ctx context.Context, by assessment.Actor, person assessment.PersonID, id assessment.RecordID) (postgres.CarriedPaper, error) {
	var page postgres.CarriedPaper
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, _ Moment) error {
		if err := by.MayFor(assessment.ReadRecords, person, false); err != nil {
			return err
		}
		_, papers, err := carriedIn(ctx, tx, by, person)
		if err != nil {
			return err
		}
		if !slices.ContainsFunc(papers, func(p CarriedPaperView) bool { return p.ID == id }) {
			return notFound()
		}
		page, err = tx.CarriedIn.Paper(ctx, person, id)
		return err
	})
	return page, err
}

package office

import (
	"context"
	"encoding/base64"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PeopleQuery asks for people; empty fields are no condition.
type PeopleQuery struct {
	Find   string // a part of the name or the e-mail address
	Kind   string
	Role   string
	Client assessment.ClientID // on this child's team today
	Left   bool                // also those who have left
	After  string              // where the page before ended
	Limit  int                 // 50 unless set, at most 200
}

// People lists people by name, and says where the next page begins: empty on the
// last one. Whoever may only read their own sees only themselves.
func (o *Office) People(ctx context.Context, by assessment.Actor, q PeopleQuery) ([]PersonView, string, error) {
	var views []PersonView
	var next string
	err := o.as(ctx, by, assessment.ReadPeople, func(tx *postgres.Tx, now Moment) error {
		var err error
		views, next, err = people(ctx, tx, now, by, q)
		return err
	})
	return views, next, err
}

func people(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, q PeopleQuery) ([]PersonView, string, error) {
	f, err := q.read(now)
	if err != nil {
		return nil, "", err
	}
	if q.Client != "" { // who is on the team of a child is told to whoever may know the child
		if err := mayForClient(ctx, tx, now, by, assessment.ReadClients, q.Client); err != nil {
			return nil, "", err
		}
	}
	switch by.Reach(assessment.ReadPeople) {
	case assessment.Own:
		f.Only = by.Person
	case assessment.Named:
		f.Among = peopleSeen(by)
	}
	f.Limit++
	found, err := tx.People.List(ctx, f)
	if err != nil {
		return nil, "", err
	}
	next := ""
	if len(found) == f.Limit {
		found = found[:f.Limit-1]
		last := found[len(found)-1]
		next = base64.RawURLEncoding.EncodeToString([]byte(string(last.ID) + last.Name))
	}
	var views []PersonView
	for _, p := range found {
		views = append(views, viewPerson(p))
	}
	return views, next, nil
}

func (q PeopleQuery) read(now Moment) (postgres.PeopleFilter, error) {
	var f form
	out := postgres.PeopleFilter{Find: f.maybe("find", q.Find, 200), OnTeamOf: q.Client, On: now.Today, IncludeLeft: q.Left, Limit: q.Limit}
	if out.Limit < 1 {
		out.Limit = 50
	}
	out.Limit = min(out.Limit, 200)
	var err error
	out.Kind, err = assessment.ParseCaregiverKind(q.Kind)
	f.Take("kind", err)
	if q.Role != "" {
		out.Role, err = assessment.ParseRole(q.Role)
		f.Take("role", err)
	}
	if q.After != "" {
		out.AfterID, out.AfterName, err = readPlace(q.After)
		f.Take("after", err)
	}
	return out, f.Err()
}

// readPlace reads where a page ended: an id and a name.
func readPlace(s string) (assessment.PersonID, string, error) {
	const idLength = 36
	raw, err := base64.RawURLEncoding.DecodeString(s)
	if err != nil || len(raw) < idLength {
		return "", "", fault.Of(fault.Invalid, "This is no place in the list. Begin again from the start.")
	}
	id, err := assessment.ParseID[assessment.PersonID](string(raw[:idLength]))
	if err != nil {
		return "", "", fault.Of(fault.Invalid, "This is no place in the list. Begin again from the start.")
	}
	return id, strings.ToValidUTF8(strings.ReplaceAll(string(raw[idLength:]), "\x00", ""), ""), nil
}

package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// SurveyAccessForm is what a surveyor is to be let in for.
type SurveyAccessForm struct {
	Person  string   `json:"person" format:"uuid" doc:"Who is let in: somebody with the role surveyor."`
	Whole   bool     `json:"whole,omitempty" doc:"For the whole agency. Else for those who are named."`
	People  []string `json:"people,omitempty" maxItems:"200" doc:"The ids of people: all that is held on their skills."`
	Clients []string `json:"clients,omitempty" maxItems:"200" doc:"The ids of children. With a child come the people who look after it or ever did, as far as it is general or about that child."`
	Reason  string   `json:"reason" maxLength:"400" doc:"Which survey, and who asked for it."`
	From    string   `json:"from,omitempty" format:"date" doc:"The first day. Left out: today."`
	Through string   `json:"through" format:"date" doc:"The last day; at most 30 days with the first."`
}

// SurveyAccess is what a surveyor was let in for.
type SurveyAccess struct {
	ID      string      `json:"id" format:"uuid"`
	Person  Named       `json:"person"`
	Whole   bool        `json:"whole"`
	People  []Named     `json:"people"`
	Clients []ClientRef `json:"clients"`
	Reason  string      `json:"reason"`
	From    time.Time   `json:"from"`
	Until   time.Time   `json:"until" doc:"Up to, not including, this instant."`
	GivenBy Named       `json:"given_by"`
	GivenAt time.Time   `json:"given_at"`
	EndedAt *time.Time  `json:"ended_at,omitempty" doc:"Ended before its time. Left out: it was not."`
	Open    bool        `json:"open" doc:"Now."`
}

func (f SurveyAccessForm) read() (office.AccessForm, error) {
	o := office.AccessForm{Whole: f.Whole, Reason: f.Reason, From: f.From, Through: f.Through}
	var err error
	if o.Person, err = assessment.ParseID[assessment.PersonID](f.Person); err != nil {
		return o, err
	}
	if o.People, err = ids[assessment.PersonID](f.People); err != nil {
		return o, err
	}
	o.Clients, err = ids[assessment.ClientID](f.Clients)
	return o, err
}

func ids[T ~string](texts []string) ([]T, error) {
	var all []T
	for _, text := range texts {
		id, err := assessment.ParseID[T](text)
		if err != nil {
			return nil, err
		}
		all = append(all, id)
	}
	return all, nil
}

func surveyAccess(v office.AccessView) SurveyAccess {
	a := SurveyAccess{ID: v.ID, Person: Named{string(v.PersonID), v.Person}, Whole: v.Whole, People: []Named{}, Clients: []ClientRef{}, Reason: v.Reason,
		From: v.FromAt.UTC(), Until: v.ToAt.UTC(), GivenBy: Named{string(v.GivenBy), v.Giver}, GivenAt: v.GivenAt.UTC(), EndedAt: utc(v.EndedAt), Open: v.Open}
	for _, n := range v.Named {
		if n.Client.ID != "" {
			a.Clients = append(a.Clients, ClientRef{ID: string(n.Client.ID), Code: n.Client.Code, FirstName: n.Client.FirstName})
			continue
		}
		a.People = append(a.People, named(n.Person))
	}
	return a
}

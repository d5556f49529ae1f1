package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Qualifications keeps licences, resuscitation cards and appointments. What was
// taken back by a correction is left out.
type Qualifications struct{ scope }

// Licence is a right to practise as checked by the agency.
type Licence struct {
	ID         assessment.RecordID
	Person     assessment.PersonID
	Kind       string
	Number     string
	ThroughOn  civil.Date // zero: it does not end
	RecordedAt time.Time
	RecordedBy assessment.PersonID
	Recorder   string // name
}

const notCorrected = ` not exists (select from correction k where k.agency_id = x.agency_id and k.of_id = x.id)`

// Licences lists those of a person, or of everybody for the empty id, the
// longest-lasting first.
func (q Qualifications) Licences(ctx context.Context, person assessment.PersonID) ([]Licence, error) {
	return list[Licence](ctx, q.scope, `
		select x.id, x.person_id as person, x.kind, x.number, x.through_on, x.recorded_at, x.recorded_by,
			coalesce(r.name, '') as recorder
		from licence x
		left join person r on r.agency_id = x.agency_id and r.id = x.recorded_by
		where ($1 = '' or x.person_id = nullif($1, '')::uuid) and`+notCorrected+`
		order by x.through_on desc nulls first, x.recorded_at desc, x.id desc`, string(person))
}

// AddLicence adds one.
func (q Qualifications) AddLicence(ctx context.Context, n Licence) error {
	return q.exec(ctx, `
		insert into licence (agency_id, id, person_id, kind, number, through_on, recorded_at, recorded_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		q.agency, n.ID, n.Person, n.Kind, n.Number, n.ThroughOn, n.RecordedAt, n.RecordedBy)
}

// Card is a resuscitation card seen by the agency.
type Card struct {
	ID         assessment.RecordID
	Person     assessment.PersonID
	Issuer     string
	IssuedOn   civil.Date // zero: not known
	CourseOn   civil.Date // zero: not known
	PrintedOn  civil.Date // last day as printed; zero: none
	ThroughOn  civil.Date // last day as it counts
	RecordedAt time.Time
	RecordedBy assessment.PersonID
	Recorder   string // name
}

// Cards lists those of a person, or of everybody for the empty id, the
// longest-lasting first.
func (q Qualifications) Cards(ctx context.Context, person assessment.PersonID) ([]Card, error) {
	return list[Card](ctx, q.scope, `
		select x.id, x.person_id as person, x.issuer, x.issued_on, x.course_on, x.printed_on, x.through_on,
			x.recorded_at, x.recorded_by, coalesce(r.name, '') as recorder
		from resuscitation_card x
		left join person r on r.agency_id = x.agency_id and r.id = x.recorded_by
		where ($1 = '' or x.person_id = nullif($1, '')::uuid) and`+notCorrected+`
		order by x.through_on desc, x.recorded_at desc, x.id desc`, string(person))
}

// AddCard adds one.
func (q Qualifications) AddCard(ctx context.Context, n Card) error {
	return q.exec(ctx, `
		insert into resuscitation_card (agency_id, id, person_id, issuer, issued_on, course_on, printed_on, through_on, recorded_at, recorded_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
		q.agency, n.ID, n.Person, n.Issuer, n.IssuedOn, n.CourseOn, n.PrintedOn, n.ThroughOn, n.RecordedAt, n.RecordedBy)
}

// TakenBack says when something was taken back, by whom and why; the zero value: it
// was not.
type TakenBack struct {
	CorrectedAt *time.Time
	Correction  string // the reason
	CorrectedBy string // printed name
}

// LicenceOnFile is a licence, also one that was taken back.
type LicenceOnFile struct {
	Licence
	TakenBack
}

// CardOnFile is a resuscitation card, also one that was taken back.
type CardOnFile struct {
	Card
	TakenBack
}

const takenBack = ` k.at as corrected_at, coalesce(k.reason, '') as correction, coalesce(k.printed_name, '') as corrected_by`

// LicencesOnFile lists those of some people, with those that were taken back, the
// longest-lasting first.
func (q Qualifications) LicencesOnFile(ctx context.Context, people []assessment.PersonID) ([]LicenceOnFile, error) {
	return list[LicenceOnFile](ctx, q.scope, `
		select x.id, x.person_id as person, x.kind, x.number, x.through_on, x.recorded_at, x.recorded_by, coalesce(r.name, '') as recorder,`+takenBack+`
		from licence x
		left join person r on r.agency_id = x.agency_id and r.id = x.recorded_by
		left join correction k on k.agency_id = x.agency_id and k.of_id = x.id
		where x.person_id = any($1::uuid[])
		order by x.through_on desc nulls first, x.recorded_at desc, x.id desc`, people)
}

// CardsOnFile is LicencesOnFile of resuscitation cards.
func (q Qualifications) CardsOnFile(ctx context.Context, people []assessment.PersonID) ([]CardOnFile, error) {
	return list[CardOnFile](ctx, q.scope, `
		select x.id, x.person_id as person, x.issuer, x.issued_on, x.course_on, x.printed_on, x.through_on,
			x.recorded_at, x.recorded_by, coalesce(r.name, '') as recorder,`+takenBack+`
		from resuscitation_card x
		left join person r on r.agency_id = x.agency_id and r.id = x.recorded_by
		left join correction k on k.agency_id = x.agency_id and k.of_id = x.id
		where x.person_id = any($1::uuid[])
		order by x.through_on desc, x.recorded_at desc, x.id desc`, people)
}

package postgres

import (
	"context"
	"math"
	"strconv"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Certificates keeps certificates as the bytes that were issued.
type Certificates struct{ scope }

// Certificate is one as issued; PDF is only filled where it is asked for.
type Certificate struct {
	ID              assessment.CertificateID
	Number          int
	Code            string
	DemonstrationID assessment.DemonstrationID
	RestsOn         []assessment.DemonstrationID // oldest first, DemonstrationID among them
	PersonID        assessment.PersonID
	Person          string
	SkillID         assessment.SkillID
	Title           string
	ClientID        assessment.ClientID
	Client          string
	HeldOn          civil.Date
	ThroughOn       civil.Date
	IssuedAt        time.Time
	PDF             []byte
	PDFSHA256       []byte
	ErasedAt        *time.Time // since when its bytes are gone
	AboutErasedAt   *time.Time // since when what is held about its holder or its child is gone
}

const certificateColumns = `
	t.id, t.number, t.code, t.demonstration_id, t.rests_on, t.person_id, p.name as person, t.skill_id, r.title,
	coalesce(t.client_id::text, '') as client_id, coalesce(c.first_name || ', ' || c.code, '') as client,
	t.held_on, t.through_on, t.issued_at, t.pdf_sha256, t.erased_at, coalesce(p.erased_at, c.erased_at) as about_erased_at`

const certificateFrom = `
	from certificate t
	join person p on p.agency_id = t.agency_id and p.id = t.person_id
	join demonstration d on d.agency_id = t.agency_id and d.id = t.demonstration_id
	join revision r on r.agency_id = d.agency_id and r.id = d.revision_id
	left join client c on c.agency_id = t.agency_id and c.id = t.client_id`

// Get is the certificate with this id, with its bytes.
func (c Certificates) Get(ctx context.Context, id assessment.CertificateID) (Certificate, error) {
	return get[Certificate](ctx, c.scope, `select t.pdf, `+certificateColumns+certificateFrom+` where t.id = $1`, id)
}

// ByCode is the certificate with this check code, without its bytes.
func (c Certificates) ByCode(ctx context.Context, code string) (Certificate, error) {
	return get[Certificate](ctx, c.scope, `select null::bytea as pdf, `+certificateColumns+certificateFrom+` where t.code = $1`, code)
}

const certificateList = `select null::bytea as pdf, ` + certificateColumns + certificateFrom + `
	where ($1 = '' or t.person_id = nullif($1, '')::uuid)`

// Page lists one page of the certificates of a person, or of everybody for the
// empty id, newest first: up to limit, 200 for 0, after the place that the page
// before gave. Where among is not nil, those for other clients are left out.
func (c Certificates) Page(ctx context.Context, person assessment.PersonID, among []assessment.ClientID, after string, limit int) (Page[Certificate], error) {
	below := math.MaxInt32 // numbers are given from 1 up
	if after != "" {
		var err error
		if below, err = strconv.Atoi(after); err != nil || below < 1 || below > math.MaxInt32 {
			return Page[Certificate]{}, noPlace()
		}
	}
	if limit <= 0 {
		limit = usualPage
	}
	found, err := list[Certificate](ctx, c.scope, certificateList+` and t.number < $2
		and ($4::uuid[] is null or t.client_id is null or t.client_id = any($4)) order by t.number desc limit $3`, string(person), below, limit+1, among)
	return paged(found, limit, func(t Certificate) string { return strconv.Itoa(t.Number) }), err
}

// All lists every certificate of a person, newest first.
func (c Certificates) All(ctx context.Context, person assessment.PersonID) ([]Certificate, error) {
	return list[Certificate](ctx, c.scope, certificateList+` order by t.number desc`, string(person))
}

// OfDemonstration lists the certificates of one record: one or none.
func (c Certificates) OfDemonstration(ctx context.Context, id assessment.DemonstrationID) ([]Certificate, error) {
	return list[Certificate](ctx, c.scope, `select null::bytea as pdf, `+certificateColumns+certificateFrom+`
		where t.demonstration_id = $1`, id)
}

// NextNumber is the next free number of the agency. Numbering takes turns within
// an agency until the end of the transaction, so that numbers have no gaps.
func (c Certificates) NextNumber(ctx context.Context) (int, error) {
	if err := c.turn(ctx, "certificate"); err != nil {
		return 0, err
	}
	r, err := get[struct{ N int }](ctx, c.scope, `select coalesce(max(number), 0)::int + 1 as n from certificate`)
	return r.N, err
}

// Add files a certificate.
func (c Certificates) Add(ctx context.Context, n Certificate) error {
	return c.exec(ctx, `
		insert into certificate (agency_id, id, number, code, demonstration_id, person_id, skill_id, client_id,
			held_on, through_on, issued_at, pdf, pdf_sha256, rests_on)
		values ($1, $2, $3, $4, $5, $6, $7, nullif($8, '')::uuid, $9, $10, $11, $12, sha256($12), $13)`,
		c.agency, n.ID, n.Number, n.Code, n.DemonstrationID, n.PersonID, n.SkillID, n.ClientID,
		n.HeldOn, n.ThroughOn, n.IssuedAt, n.PDF, n.RestsOn)
}

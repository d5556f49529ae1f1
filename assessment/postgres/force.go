package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Force keeps who proposed to put which draft in force, and what became of it. Both are
// only ever added.
type Force struct{ scope }

// ForceProposal is a proposal with what became of it.
type ForceProposal struct {
	ID         assessment.ProposalID
	SkillID    assessment.SkillID
	RevisionID assessment.RevisionID
	Number     int    // of the revision
	Code       string // of the skill
	Title      string // of the revision; of one that was thrown away the code
	SHA256     []byte // of the text that was proposed
	Statement  string
	RecheckOn  civil.Date // zero: no recheck is demanded
	ProposedBy assessment.PersonID
	Proposer   string
	ProposedAt time.Time
	Verdict    assessment.ForceVerdict // empty: open
	Reason     string
	EndedBy    assessment.PersonID
	Ender      string
	EndedAt    *time.Time
}

const forceQuery = `
	select p.id, p.skill_id, p.revision_id, p.revision as number, s.code, coalesce(r.title, s.code) as title, p.body_sha256 as sha256,
		p.statement, p.recheck_on, p.proposed_by, a.name as proposer, p.proposed_at,
		coalesce(e.verdict, '') as verdict, coalesce(e.reason, '') as reason, coalesce(e.ended_by::text, '') as ended_by, coalesce(b.name, '') as ender, e.ended_at
	from force_proposal p
		join skill s on s.agency_id = p.agency_id and s.id = p.skill_id
		left join revision r on r.agency_id = p.agency_id and r.id = p.revision_id
		join person a on a.agency_id = p.agency_id and a.id = p.proposed_by
		left join force_proposal_end e on e.agency_id = p.agency_id and e.proposal_id = p.id
		left join person b on b.agency_id = e.agency_id and b.id = e.ended_by`

// Get is one of them.
func (f Force) Get(ctx context.Context, id assessment.ProposalID) (ForceProposal, error) {
	return get[ForceProposal](ctx, f.scope, forceQuery+` where p.id = $1`, id)
}

// Of lists the proposals of a revision, the newest first.
func (f Force) Of(ctx context.Context, revision assessment.RevisionID) ([]ForceProposal, error) {
	return list[ForceProposal](ctx, f.scope, forceQuery+` where p.revision_id = $1 order by p.proposed_at desc, p.id desc`, revision)
}

// Open lists the proposals that wait for a second person, the oldest first.
func (f Force) Open(ctx context.Context) ([]ForceProposal, error) {
	return list[ForceProposal](ctx, f.scope, forceQuery+` where e.proposal_id is null order by p.proposed_at, p.id`)
}

// Propose adds a proposal that nobody has agreed to yet.
func (f Force) Propose(ctx context.Context, p ForceProposal) error {
	return f.exec(ctx, `
		insert into force_proposal (agency_id, id, skill_id, revision_id, revision, body_sha256, statement, recheck_on, proposed_by, proposed_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
		f.agency, p.ID, p.SkillID, p.RevisionID, p.Number, p.SHA256, p.Statement, p.RecheckOn, p.ProposedBy, p.ProposedAt)
}

// End keeps what became of it.
func (f Force) End(ctx context.Context, id assessment.ProposalID, verdict assessment.ForceVerdict, reason string, by assessment.PersonID, at time.Time) error {
	return f.exec(ctx, `
		insert into force_proposal_end (agency_id, proposal_id, verdict, reason, ended_by, ended_at)
		values ($1, $2, $3, $4, $5, $6)`, f.agency, id, verdict, reason, by, at)
}

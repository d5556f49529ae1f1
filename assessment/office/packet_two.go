package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// PacketTwo is by which two people a checklist came in force.
type PacketTwo struct {
	ID         assessment.ProposalID
	Proposed   PersonRef
	ProposedAt time.Time
	Agreed     PersonRef
	AgreedAt   time.Time
	Proofs     []PacketProof
}

func (t PacketTwo) rows() []postgres.RowKey {
	return []postgres.RowKey{row("force_proposal", t.ID), row("force_proposal_end", t.ID)}
}

// twoOf is by whom a revision came in force; none where it came in force before it took two.
func (b *packetBook) twoOf(ctx context.Context, tx *postgres.Tx, id assessment.RevisionID) (*PacketTwo, error) {
	all, err := tx.Force.Of(ctx, id)
	if err != nil {
		return nil, fmt.Errorf("read who put a checklist in force: %w", err)
	}
	i := slices.IndexFunc(all, func(p postgres.ForceProposal) bool { return p.Verdict == assessment.ForceAgreed })
	if i < 0 || all[i].EndedAt.After(b.now.At) {
		return nil, nil
	}
	p := all[i]
	return &PacketTwo{ID: p.ID, Proposed: PersonRef{ID: p.ProposedBy, Name: p.Proposer}, ProposedAt: p.ProposedAt.In(b.now.Zone),
		Agreed: PersonRef{ID: p.EndedBy, Name: p.Ender}, AgreedAt: p.EndedAt.In(b.now.Zone)}, nil
}

// PacketCarried is something that somebody is said to have shown elsewhere. No standing rests
// on it.
type PacketCarried struct {
	CarriedEntry
	Late   bool // brought in after KnownAt
	Proofs []PacketProof
}

// carried is what was brought in of a person by the time the packet was asked for: of an
// incident in its skill, of a child with that child or with all.
func (b *packetBook) carried(ctx context.Context, tx *postgres.Tx, id assessment.PersonID) ([]PacketCarried, error) {
	lines, _, err := carriedIn(ctx, tx, b.by, id)
	if err != nil {
		return nil, fmt.Errorf("read what was carried in of %s: %w", id, err)
	}
	var all []PacketCarried
	for _, l := range lines {
		incident := b.Kind == PacketOfIncident && (l.Skill.ID != b.PacketQuestion.Skill || l.Client.ID != b.PacketQuestion.Client)
		child := b.Kind == PacketOfClient && l.Client.ID != "" && l.Client.ID != b.PacketQuestion.Client
		if incident || child || l.BroughtAt.After(b.now.At) || l.ObservedOn.After(b.Through) || b.by.MayForCase(assessment.AskPacket, id, l.Client.ID) != nil {
			continue
		}
		all = append(all, PacketCarried{CarriedEntry: l, Late: l.BroughtAt.After(b.known)})
	}
	return all, nil
}

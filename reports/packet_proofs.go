package reports

import "slices"

// Proofs are those of all that a packet names, in the order of the paper.
func (p PacketData) Proofs() []DataProof {
	var all []DataProof
	cards := func(some []DataCard) {
		for _, c := range some {
			all = append(all, c.Proofs...)
		}
	}
	for _, person := range p.People {
		for _, h := range person.Happenings {
			all = append(all, h.Proofs...)
		}
		cards(person.Cards)
		for _, c := range person.Carried {
			all = append(all, c.Proofs...)
		}
		for _, r := range person.Records {
			all = append(all, r.Proofs...)
		}
	}
	for _, e := range p.Common.Equipment {
		all = append(all, e.Proofs...)
	}
	for _, o := range p.Common.Observers {
		for _, l := range o.Licences {
			all = append(all, l.Proofs...)
		}
		for _, a := range o.Appointments {
			all = append(all, a.Proofs...)
		}
		cards(o.Cards)
	}
	for _, r := range p.Common.Revisions {
		all = append(all, r.Proofs...)
		if r.Two != nil {
			all = append(all, r.Two.Proofs...)
		}
	}
	return slices.Clip(all)
}

package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// packetTail is what several of the people and records have in common.
func (o *Office) packetTail(ctx context.Context, tx *postgres.Tx, b *packetBook) (PacketTail, error) {
	t := PacketTail{Roster: b.Kind != PacketOfPeriod}
	var err error
	if t.Observers, err = b.observers(ctx, tx); err != nil {
		return t, fmt.Errorf("read who observed: %w", err)
	}
	if t.Revisions, err = o.revisions(ctx, tx, b); err != nil {
		return t, fmt.Errorf("read the checklists: %w", err)
	}
	if t.Equipment, err = b.equipmentThen(ctx, tx); err != nil {
		return t, fmt.Errorf("read the equipment: %w", err)
	}
	for _, s := range b.shiftsOf() {
		t.Shifts = append(t.Shifts, b.shift(s))
	}
	return t, nil
}

func (b *packetBook) shift(s assessment.Shift) PacketShift {
	v := PacketShift{ID: s.ID, Client: b.names.clients[s.Client], Starts: s.Starts.In(b.now.Zone), Ends: s.Ends.In(b.now.Zone)}
	switch {
	case s.Open():
	case b.mayMeet(s.Person):
		v.Person = b.names.people[s.Person]
	default:
		v.Other = true
	}
	return v
}

// mayMeet reports whether the asker may be told of somebody by name.
func (b *packetBook) mayMeet(person assessment.PersonID) bool {
	return b.by.MayFor(assessment.AskPacket, person, false) == nil
}

// onTheRoster says who was on the shift that is asked about, where that was not the person
// who is asked about: their standing then says nothing of whoever was there.
func (b *packetBook) onTheRoster() []string {
	i := slices.IndexFunc(b.night.shifts, func(s assessment.Shift) bool { return b.Shift != "" && s.ID == b.Shift })
	if i < 0 || b.night.shifts[i].Person == b.PacketQuestion.Person {
		return nil
	}
	s, not := b.night.shifts[i], b.names.people[b.PacketQuestion.Person].Name
	switch {
	case s.Open():
		return []string{fmt.Sprintf("The roster has nobody on that shift, and so not %s.", not)}
	case !b.mayMeet(s.Person):
		return []string{fmt.Sprintf("The roster has somebody else on that shift, not %s.", not)}
	}
	return []string{fmt.Sprintf("The roster has %s on that shift, not %s.", b.names.people[s.Person].Name, not)}
}

// observers are those who observed what is shown, by name, with what entitled them to it.
func (b *packetBook) observers(ctx context.Context, tx *postgres.Tx) ([]PacketObserver, error) {
	var ids []assessment.PersonID
	for id := range b.seen {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(x, y assessment.PersonID) int {
		return cmp.Or(cmp.Compare(b.names.people[x].Name, b.names.people[y].Name), cmp.Compare(x, y))
	})
	licences, err := tx.Qualifications.LicencesOnFile(ctx, ids)
	if err != nil {
		return nil, err
	}
	appointed, err := tx.Qualifications.Appointments(ctx, "")
	if err != nil {
		return nil, err
	}
	var all []PacketObserver
	var keys []postgres.RowKey
	for _, id := range ids {
		v := PacketObserver{Person: b.names.people[id], Seen: b.seen[id]}
		slices.SortFunc(v.Seen, civil.Date.Compare)
		for _, l := range licences {
			if l.Person == id && !l.RecordedAt.After(b.now.At) {
				l.TakenBack = b.taken(l.TakenBack)
				v.Licences = append(v.Licences, PacketLicence{LicenceOnFile: l})
			}
		}
		for _, a := range appointed {
			if a.Person == id && !a.ProposedAt.After(b.now.At) {
				v.Appointments = append(v.Appointments, PacketAppointment{AppointmentView: viewAppointment(a, b.now)})
			}
		}
		if v.Cards, err = b.cards(ctx, tx, id); err != nil {
			return nil, err
		}
		keys = append(keys, v.rows(b)...)
		all = append(all, v)
	}
	found, err := b.prove(ctx, tx, keys)
	for i := range all {
		all[i].prove(b, found)
	}
	return all, err
}

func appointmentRows(a AppointmentView) []postgres.RowKey {
	keys := []postgres.RowKey{row("appointment", a.ID)}
	if !a.AgreedOn.IsZero() {
		keys = append(keys, row("appointment_agreement", a.ID))
	}
	if !a.EndedOn.IsZero() {
		keys = append(keys, row("appointment_end", a.ID))
	}
	return keys
}

func (v PacketObserver) rows(b *packetBook) []postgres.RowKey {
	var keys []postgres.RowKey
	for _, l := range v.Licences {
		keys = append(keys, row("licence", l.ID))
	}
	for _, a := range v.Appointments {
		keys = append(keys, appointmentRows(a.AppointmentView)...)
	}
	for _, c := range v.Cards {
		keys = append(keys, b.cardRows(c)...)
	}
	return keys
}

func (v *PacketObserver) prove(b *packetBook, found map[postgres.RowKey]PacketProof) {
	for i, l := range v.Licences {
		v.Licences[i].Proofs = proofsOf(found, []postgres.RowKey{row("licence", l.ID)})
	}
	for i, a := range v.Appointments {
		v.Appointments[i].Proofs = proofsOf(found, appointmentRows(a.AppointmentView))
	}
	for i, c := range v.Cards {
		v.Cards[i].Proofs = proofsOf(found, b.cardRows(c))
	}
}

// revisions are the checklists that were in force then of every skill that is told about,
// and those that what is shown was shown by, in teaching order.
func (o *Office) revisions(ctx context.Context, tx *postgres.Tx, b *packetBook) ([]PacketRevision, error) {
	skills := map[assessment.SkillID]bool{}
	for _, all := range b.told {
		for _, s := range all {
			skills[s.Skill.ID] = true
		}
	}
	kept, err := tx.Checklists.Revisions(ctx, "")
	if err != nil {
		return nil, err
	}
	newest := map[assessment.SkillID]assessment.RevisionID{}
	for _, r := range kept { // in order of number
		if r.InForceAt != nil && !r.InForceAt.After(b.known) {
			newest[r.SkillID] = r.ID
		}
	}
	var all []PacketRevision
	var keys []postgres.RowKey
	for _, r := range kept {
		asked := newest[r.SkillID] == r.ID && skills[r.SkillID]
		if !asked && !b.shownBy[r.ID] {
			continue
		}
		v := PacketRevision{Revision: b.revision(r)}
		v.InForce = asked && (v.RetiredAt == nil || v.RetiredAt.After(b.known))
		if v.Body, err = tx.Checklists.Body(ctx, r.ID); err != nil {
			return nil, err
		}
		if v.Checklist, err = written.DecodeJSON([]byte(v.Body)); err != nil {
			return nil, fmt.Errorf("read a kept checklist: %w", err)
		}
		if v.Two, err = b.twoOf(ctx, tx, r.ID); err != nil {
			return nil, err
		}
		all, keys = append(all, v), append(keys, row("revision", r.ID))
		if v.Two != nil {
			keys = append(keys, v.Two.rows()...)
		}
	}
	found, err := b.prove(ctx, tx, keys)
	for i, v := range all {
		all[i].Proofs = proofsOf(found, []postgres.RowKey{row("revision", v.ID)})
		if v.Two != nil {
			v.Two.Proofs = proofsOf(found, v.Two.rows())
		}
	}
	return all, err
}

// revision is one as it stood when the packet was asked for.
func (b *packetBook) revision(r postgres.Revision) postgres.Revision {
	if r.RetiredAt != nil && r.RetiredAt.After(b.now.At) {
		r.RetiredAt, r.State = nil, assessment.InForce
	}
	return r
}

// equipmentThen is what the children that are told about had on the last of the days, the
// newest word on each kind.
func (b *packetBook) equipmentThen(ctx context.Context, tx *postgres.Tx) ([]PacketEquipment, error) {
	about := map[assessment.ClientID]bool{}
	if b.PacketQuestion.Client != "" {
		about[b.PacketQuestion.Client] = true
	}
	for _, all := range b.told {
		for _, s := range all {
			about[s.Client.ID] = about[s.Client.ID] || s.Client.ID != ""
		}
	}
	var clients []assessment.ClientID
	for id, told := range about {
		if told {
			clients = append(clients, id)
		}
	}
	slices.SortFunc(clients, func(x, y assessment.ClientID) int {
		return cmp.Or(cmp.Compare(b.names.clients[x].Code, b.names.clients[y].Code), cmp.Compare(x, y))
	})
	var all []PacketEquipment
	var keys []postgres.RowKey
	for _, client := range clients {
		changes, err := tx.Clients.Equipment(ctx, client)
		if err != nil {
			return nil, err
		}
		newest := map[string]postgres.Equipment{}
		for _, c := range changes { // of two for one day the one written down later comes last
			if !c.FromOn.After(b.Through) && !c.RecordedAt.After(b.now.At) {
				newest[c.Kind] = c
			}
		}
		for _, c := range changes {
			if newest[c.Kind].ID == c.ID {
				all, keys = append(all, PacketEquipment{Client: b.names.clients[client], Equipment: c, On: b.Through, Late: c.RecordedAt.After(b.known)}), append(keys, row("client_equipment", c.ID))
			}
		}
	}
	found, err := b.prove(ctx, tx, keys)
	for i, e := range all {
		all[i].Proofs = proofsOf(found, []postgres.RowKey{row("client_equipment", e.ID)})
	}
	return all, err
}

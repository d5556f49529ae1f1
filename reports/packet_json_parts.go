package reports

import (
	"encoding/hex"
	"encoding/json"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

func dataHead(p office.Packet) DataHead {
	h := DataHead{ID: string(p.ID), Kind: string(p.Kind), Agency: DataAgency{string(p.Agency.ID), p.Agency.Name, p.Agency.Zone, p.Agency.Demo},
		AskedAt: instantIn(p.AskedAt, p.Zone), AskedBy: p.AskedBy, From: p.From, Through: p.Through, KnownAt: instantIn(p.KnownAt, p.Zone),
		Person: dataPerson(p.Who), Skill: dataSkill(p.What), Child: dataChild(p.For), Part: p.Part, Statement: packetStatement,
		Answer: DataAnswer{Held: p.Answer.Held, Finding: p.Answer.Finding, Because: p.Answer.Because}}
	for _, id := range p.Answer.Records {
		h.Answer.Records = append(h.Answer.Records, string(id))
	}
	if p.On != nil {
		s := dataShift(*p.On, p.Zone)
		h.Shift = &s
	}
	if p.Head.Size > 0 {
		h.Ledger = &DataHeadRef{p.Head.Signed, p.Head.Size, p.Head.Keys}
	}
	return h
}

func dataPerson(p office.PersonRef) *DataRef {
	if p.ID == "" {
		return nil
	}
	return &DataRef{ID: string(p.ID), Name: p.Name, Kind: string(p.Kind)}
}

func dataSkill(s office.SkillRef) *DataRef {
	if s.ID == "" {
		return nil
	}
	return &DataRef{ID: string(s.ID), Code: s.Code, Name: s.Title}
}

func dataChild(c office.ClientRef) *DataRef {
	if c.ID == "" {
		return nil
	}
	return &DataRef{ID: string(c.ID), Code: c.Code, Name: c.FirstName}
}

func dataShift(s office.PacketShift, zone *time.Location) DataShift {
	return DataShift{string(s.ID), *dataChild(s.Client), dataPerson(s.Person), s.Other, instantIn(s.Starts, zone), instantIn(s.Ends, zone)}
}

func (w *packetJSON) person(p office.PacketPerson) DataPerson {
	d := DataPerson{DataRef: *dataPerson(p.Person), LeftOn: orNone(p.LeftOn), Standings: []DataStanding{}, Records: []DataRecord{}}
	for _, s := range p.Standings {
		d.Standings = append(d.Standings, dataStanding(s))
	}
	for _, r := range p.Records {
		d.Records = append(d.Records, w.record(r))
	}
	for _, h := range p.Happenings {
		d.Happenings = append(d.Happenings, w.happening(h))
	}
	d.Cards = w.cards(p.Cards)
	for _, c := range p.Carried {
		d.Carried = append(d.Carried, DataCarried{string(c.ID), *dataSkill(c.Skill), dataChild(c.Client), c.ObservedOn, orNone(c.ThroughOn), c.Signer, c.Place,
			instantIn(c.BroughtAt, w.head.Zone), c.BroughtBy, len(c.Papers), c.Late, dataProofs(c.Proofs)})
	}
	return d
}

func dataStanding(s office.PacketStanding) DataStanding {
	d := DataStanding{Skill: *dataSkill(s.Skill), Child: dataChild(s.Client), On: s.On, Required: s.Required, Held: s.Held(), Left: s.Left,
		Then: dataTelling(s.Then), Now: dataTelling(s.Now), Cleared: dataTelling(s.Cleared)}
	for _, n := range s.NotHeld {
		d.NotHeld = append(d.NotHeld, DataStretch{n.From, n.Through})
	}
	return d
}

func dataTelling(s assessment.Standing) DataTelling {
	return DataTelling{s.Word, orNone(s.Through), orNone(s.Since), s.Because, s.Next.InWords()}
}

func (w *packetJSON) record(r office.PacketRecord) DataRecord {
	zone := w.head.Zone
	d := DataRecord{ID: string(r.ID), Skill: DataRef{ID: string(r.SkillID), Code: r.Code, Name: r.Title}, Observer: DataRef{ID: string(r.ObserverID), Name: r.Observer},
		Revision: DataRevisionRef{string(r.RevisionID), r.Revision, r.Title}, PerformedAt: instantIn(r.PerformedAt, zone), RecordedAt: instantIn(r.RecordedAt, zone),
		Place: r.Place, RealClient: r.RealClient, Formal: r.Formal, Outcome: string(r.Result.Outcome), PassMark: r.Checklist.Policy.Scoring.PassMark.Percent(),
		Steps: dataSteps(r.DemonstrationView), Signatures: []DataSignature{}, SignedHash: hex.EncodeToString(r.BodySHA256), CountsFrom: orNone(r.Counts), Bears: r.Bears, Late: r.Late,
		Proofs: dataProofs(r.Proofs)}
	if r.ClientID != "" {
		d.Child = &DataRef{ID: string(r.ClientID), Name: r.Client}
	}
	if s := r.Result.Score; s != nil {
		text := s.String()
		d.Score, d.Percent = &text, s.Percent()
	}
	for _, why := range r.Result.Reasons {
		d.Reasons = append(d.Reasons, DataReason{string(why.Rule), why.Step, why.Of, why.InWords(r.Checklist)})
	}
	if r.Stopped {
		d.Stopped = r.StopReason
	}
	if r.Equipment != "" {
		_ = json.Unmarshal([]byte(r.Equipment), &d.Equipment) // the office has read it already
	}
	for _, s := range r.Signatures {
		d.Signatures = append(d.Signatures, DataSignature{s.Part, s.PrintedName, s.Licence, s.Meaning, instantIn(s.SignedAt, zone), s.Zone})
	}
	if r.CorrectedAt != nil {
		d.TakenBack = &DataTakenBack{string(r.Taken), instantIn(*r.CorrectedAt, zone), r.CorrectedBy, r.Correction}
	}
	if r.Certificate != nil {
		d.Certificate = &r.Certificate.Number
	}
	return d
}

func dataSteps(v office.DemonstrationView) []DataStep {
	steps := []DataStep{}
	for _, s := range v.Checklist.Steps() {
		e := v.Entries[s.No]
		d := DataStep{No: s.No, Text: s.Text, Critical: s.Critical, Mark: string(e.Mark), Note: e.Note, MarkedAt: v.MarkedAt[s.No]}
		if e.NotApplicable {
			d.NotApplicable = e.Reason
		}
		if effective, judged := v.Effective[s.No]; judged && effective != e.Mark {
			d.CountsAs = string(effective)
		}
		for name, q := range e.Values {
			if d.Readings == nil {
				d.Readings = map[string]DataReading{}
			}
			d.Readings[name] = DataReading{q.Value.String(), q.Unit}
		}
		steps = append(steps, d)
	}
	return steps
}

func (w *packetJSON) happening(h office.PacketHappening) DataHappening {
	zone := w.head.Zone
	d := DataHappening{ID: string(h.ID), Kind: string(h.Kind), Skill: DataRef{ID: string(h.Skill), Name: h.Title}, Child: dataChild(h.HappeningView.Client), At: instantIn(h.At, zone),
		From: orNone(h.FromOn), Through: orNone(h.ThroughOn), Until: string(h.Until), Of: h.Of, Reason: h.Reason, By: h.By, Late: h.Late, Proofs: dataProofs(h.Proofs)}
	if h.TakenBack != nil {
		d.TakenBack = &DataTakenBack{ID: string(h.Taken), At: instantIn(*h.TakenBack, zone), Reason: h.Correction}
	}
	return d
}

func (w *packetJSON) takenBack(t postgres.TakenBack) *DataTakenBack {
	if t.CorrectedAt == nil {
		return nil
	}
	return &DataTakenBack{At: instantIn(*t.CorrectedAt, w.head.Zone), By: t.CorrectedBy, Reason: t.Correction}
}

func (w *packetJSON) cards(all []office.PacketCard) []DataCard {
	var out []DataCard
	for _, c := range all {
		out = append(out, DataCard{string(c.ID), c.Issuer, c.ThroughOn, instantIn(c.RecordedAt, w.head.Zone), c.Recorder, c.Late, w.takenBack(c.TakenBack), dataProofs(c.Proofs)})
	}
	return out
}

func (w *packetJSON) common(t office.PacketTail) DataCommon {
	c := DataCommon{Observers: []DataObserver{}, Revisions: []DataRevision{}, Equipment: []DataEquipment{}}
	for _, o := range t.Observers {
		c.Observers = append(c.Observers, w.observer(o))
	}
	for _, r := range t.Revisions {
		d := DataRevision{DataRevisionRef: DataRevisionRef{string(r.ID), r.Number, r.Title}, Skill: r.Code, InForce: r.InForce, InForceBy: r.InForceBy, Statement: r.Statement,
			Policy: r.Checklist.Policy.InWords(), SHA256: hex.EncodeToString(r.SHA256), Text: r.Body, Proofs: dataProofs(r.Proofs)}
		if r.InForceAt != nil {
			d.InForceAt = instantIn(*r.InForceAt, w.head.Zone)
		}
		if r.RetiredAt != nil {
			d.RetiredAt = instantIn(*r.RetiredAt, w.head.Zone)
		}
		if two := r.Two; two != nil {
			d.Two = &DataTwo{string(two.ID), *dataPerson(two.Proposed), instantIn(two.ProposedAt, w.head.Zone), *dataPerson(two.Agreed), instantIn(two.AgreedAt, w.head.Zone), dataProofs(two.Proofs)}
		}
		c.Revisions = append(c.Revisions, d)
	}
	for _, e := range t.Equipment {
		c.Equipment = append(c.Equipment, DataEquipment{string(e.ID), *dataChild(e.Client), e.Kind, e.Type, e.FromOn, e.On, instantIn(e.RecordedAt, w.head.Zone), e.Late, dataProofs(e.Proofs)})
	}
	for _, s := range t.Shifts {
		c.Shifts = append(c.Shifts, dataShift(s, w.head.Zone))
	}
	return c
}

func (w *packetJSON) observer(o office.PacketObserver) DataObserver {
	d := DataObserver{DataRef: *dataPerson(o.Person), Seen: o.Seen, Licences: []DataLicence{}, Appointments: []DataAppointment{}, Cards: w.cards(o.Cards)}
	for _, l := range o.Licences {
		d.Licences = append(d.Licences, DataLicence{string(l.ID), l.Kind, l.Number, orNone(l.ThroughOn), instantIn(l.RecordedAt, w.head.Zone), l.Recorder, w.takenBack(l.TakenBack), dataProofs(l.Proofs)})
	}
	for _, a := range o.Appointments {
		d.Appointments = append(d.Appointments, DataAppointment{string(a.ID), a.Skills, a.From, a.Through, a.Founding, a.Evidence, a.ProposedBy, a.AgreedBy, orNone(a.AgreedOn), orNone(a.EndedOn), dataProofs(a.Proofs)})
	}
	return d
}

func dataProofs(all []office.PacketProof) []DataProof {
	out := []DataProof{}
	for _, p := range all {
		d := DataProof{Kind: p.Kind, Subject: p.Subject, Entries: []DataEntry{}}
		for _, e := range p.Entries {
			d.Entries = append(d.Entries, DataEntry{e.Receipt.Leaf, e.Position, e.Receipt.Path, e.Receipt.Record})
		}
		out = append(out, d)
	}
	return out
}

package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

const neighboursAt = "/neighbours"

func (s *Site) neighbours(v *visit) error {
	page, err := s.neighboursPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) neighboursPage(v *visit) (NeighboursPage, error) {
	d, err := s.office.Neighbours(v.ctx(), v.by())
	if err != nil {
		return NeighboursPage{}, err
	}
	page := NeighboursPage{Frame: v.frame("people"), Here: d.Agency, Line: d.Line, Fingerprint: d.Fingerprint, MayEnter: v.may(assessment.EnterNeighbour)}
	for _, n := range d.All {
		line := NeighbourLine{ID: string(n.ID), Name: n.Name, Fingerprint: n.Fingerprint, Signed: []string{"entered by " + n.Enterer + ", " + instant(n.EnteredAt, d.Zone)}}
		if n.AgreedAt != nil {
			line.Signed = append(line.Signed, "agreed by "+n.Agreer+", "+instant(*n.AgreedAt, d.Zone))
		}
		if n.EndedAt != nil {
			line.Ended = "Ended by " + n.Ender + ", " + instant(*n.EndedAt, d.Zone) + ": " + sentence(n.EndReason)
			page.Ended = append(page.Ended, line)
			continue
		}
		if v.may(assessment.AgreeNeighbour) {
			line.End = neighboursAt + "/" + line.ID + "/end"
		}
		if n.Known {
			page.Known = append(page.Known, line)
			continue
		}
		switch {
		case n.EnteredBy == v.by().Person:
			line.MayNot = "You have entered it: somebody else compares and agrees."
		case v.may(assessment.AgreeNeighbour):
			line.Agree = neighboursAt + "/" + line.ID + "/agreement"
		}
		page.Waiting = append(page.Waiting, line)
	}
	return page, nil
}

func (s *Site) enterNeighbour(v *visit) error {
	form := office.NeighbourForm{Name: v.form("name"), Line: v.form("line")}
	refused := s.office.EnterNeighbour(v.ctx(), v.by(), form)
	if refused == nil {
		return v.to(neighboursAt, "It is entered. It is known once a second person has agreed.")
	}
	page, err := s.neighboursPage(v)
	if err != nil {
		return err
	}
	page.Name, page.Typed = form.Name, form.Line
	if err := v.take(&page.Faults, refused, "Nothing was entered.", label("name", "Name"), label("line", "Their line")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) agreeNeighbour(v *visit) error {
	return s.onNeighbour(v, "You have agreed. What this agency signed is known here from now on.", "You have not agreed.", func(id assessment.RecordID) error {
		return s.office.AgreeNeighbour(v.ctx(), v.by(), id, v.ticked("compared"))
	})
}

func (s *Site) endNeighbour(v *visit) error {
	return s.onNeighbour(v, "It has ended. What this key signs is not known here any more.", "It has not ended.", func(id assessment.RecordID) error {
		return s.office.EndNeighbour(v.ctx(), v.by(), id, v.form("reason"))
	})
}

// onNeighbour does something to a neighbour; a refusal stands beside its line.
func (s *Site) onNeighbour(v *visit, done, what string, do func(assessment.RecordID) error) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	refused := do(id)
	if refused == nil {
		return v.to(neighboursAt, done)
	}
	page, err := s.neighboursPage(v)
	if err != nil {
		return err
	}
	for _, lines := range [][]NeighbourLine{page.Waiting, page.Known, page.Ended} {
		for i := range lines {
			if lines[i].ID != string(id) {
				continue
			}
			lines[i].Reason = v.form("reason")
			if err := v.take(&lines[i].Faults, refused, what, label("compared", "Compared"), label("reason", "Reason")); err != nil {
				return err
			}
			return v.again(page)
		}
	}
	return refused
}

package web

import (
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const erasuresAt = "/erasures"

func (s *Site) erasures(v *visit) error {
	page, err := s.erasuresPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) erasuresPage(v *visit) (ErasuresPage, error) {
	d, err := s.office.Erasures(v.ctx(), v.by())
	page := ErasuresPage{Frame: v.frame("people"), Keep: "for ever", Why: d.Retention.Reason, About: []Option{{Text: "Choose whose records"}}}
	if years := d.Retention.Years; years > 0 {
		page.Limited, page.Keep, page.Retention.Years = true, "for "+count(years, "year", "years"), strconv.Itoa(years)
	}
	if d.Retention.SetBy.ID != "" {
		page.Set = d.Retention.SetBy.Name + ", " + v.instant(d.Retention.SetAt)
	}
	for _, e := range d.Erasures {
		if line := v.erasureLine(e); line.Ended == "" {
			page.Open = append(page.Open, line)
		} else {
			page.Ended = append(page.Ended, line)
		}
	}
	page.over(d.Over)
	return page, err
}

func (p *ErasuresPage) over(all []office.Erasable) {
	later := 0
	for _, x := range all {
		switch {
		case !x.Now:
			if later++; later == 1 {
				p.Later = day(x.KeptThrough)
			}
		case x.ClientID != "":
			p.About = append(p.About, Option{Value: "client " + string(x.ClientID), Text: x.Name + " (child), left " + day(x.LeftOn)})
		default:
			p.About = append(p.About, Option{Value: "person " + string(x.PersonID), Text: x.Name + ", left " + day(x.LeftOn)})
		}
	}
	if later > 0 {
		p.Later = "Of " + count(later, "other", "others") + " who left the time still runs, for the first through " + p.Later
	}
}

func (v *visit) erasureLine(e office.ErasureView) ErasureLine {
	line := ErasureLine{ID: string(e.ID), Who: e.Name, Reason: e.Reason, Asked: e.Asker + ", " + v.instant(e.AskedAt), Mine: e.MayTakeBack, Done: e.Verdict == assessment.CarriedOut}
	if e.EndedAt != nil {
		line.Ended = strings.ToUpper(string(e.Verdict[:1])) + string(e.Verdict[1:]) + " by " + e.Ender + ", " + v.instant(*e.EndedAt)
		if line.Done {
			line.Ended += ": " + count(e.Rows, "row", "rows")
		}
		line.Ended += "."
	}
	if e.MayCarryOut {
		line.Carry = erasuresAt + "/" + line.ID + "/carrying-out"
	}
	if e.MayCarryOut || e.MayTakeBack {
		line.Drop = erasuresAt + "/" + line.ID + "/dropping"
	}
	return line
}

// askErasure asks for one, or shows the form again as it was filled in.
func (s *Site) askErasure(v *visit) error {
	f := office.ErasureForm{Reason: v.form("reason")}
	kind, id, _ := strings.Cut(v.form("about"), " ")
	var refused error
	switch kind {
	case "person":
		f.Person, refused = assessment.ParseID[assessment.PersonID](id)
	case "client":
		f.Client, refused = assessment.ParseID[assessment.ClientID](id)
	}
	if refused == nil {
		_, refused = s.office.AskErasure(v.ctx(), v.by(), f)
	}
	if refused == nil {
		return v.to(erasuresAt, "The erasure is asked for. Nothing is erased until another administrator carries it out.")
	}
	page, err := s.erasuresPage(v)
	if err != nil {
		return err
	}
	page.Ask.About, page.Ask.Reason = v.form("about"), f.Reason
	if err := v.take(&page.Ask.Faults, refused, "Nothing is asked for.", label("about", "Whose records"), label("reason", "Why")); err != nil {
		return err
	}
	return v.again(page)
}

// setRetention sets how long records are kept.
func (s *Site) setRetention(v *visit) error {
	f := office.RetentionForm{Years: v.form("years"), Reason: v.form("reason")}
	refused := s.office.SetRetention(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(erasuresAt, "It is set. Nothing was erased by it.")
	}
	page, err := s.erasuresPage(v)
	if err != nil {
		return err
	}
	page.Retention.Years, page.Retention.Reason = f.Years, f.Reason
	if err := v.take(&page.Retention.Faults, refused, "The setting is as it was.", label("years", "Years"), label("reason", "Why")); err != nil {
		return err
	}
	return v.again(page)
}

// carryOutErasure erases, signed by another than asked.
func (s *Site) carryOutErasure(v *visit) error {
	id, err := pathID[assessment.ErasureID](v, "id")
	if err != nil {
		return err
	}
	_, refused := s.office.CarryOutErasure(v.ctx(), v.by(), id, v.proof())
	if refused == nil {
		return v.to(erasuresAt, "It is erased. The ledger keeps that something was there, who asked, who agreed and why.")
	}
	page, err := s.erasuresPage(v)
	if err != nil {
		return err
	}
	var faults Faults
	if err := v.take(&faults, refused, "Nothing is erased.", label("password", "Your password")); err != nil {
		return err
	}
	for i := range page.Open {
		if page.Open[i].ID == string(id) {
			page.Open[i].Faults = faults
			return v.again(page)
		}
	}
	page.Ask.Faults = faults
	return v.again(page)
}

func (s *Site) dropErasure(v *visit) error {
	id, err := pathID[assessment.ErasureID](v, "id")
	if err != nil {
		return err
	}
	if _, err := s.office.DropErasure(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(erasuresAt, "Nothing is erased. The ledger keeps that it was asked for.")
}

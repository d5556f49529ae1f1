package web

import (
	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// exceptionForm is what every exception is sent with.
func (v *visit) exceptionForm(id assessment.PersonID) (office.ExceptionForm, error) {
	code, client, err := v.sentCase()
	return office.ExceptionForm{ID: v.form("id"), Person: id, Skill: code, Client: client, Reason: v.form("reason"), Proof: v.proof()}, err
}

// withdraw takes a competency away.
func (s *Site) withdraw(v *visit) error {
	form := WithdrawForm{ID: v.form("id"), Skill: v.form("skill"), Until: v.form("until"), Related: v.ticked("related"), Reason: v.form("reason")}
	return s.onPerson(v, "It is withdrawn from today.", func(id assessment.PersonID) error {
		f, err := v.exceptionForm(id)
		if err != nil {
			return err
		}
		if v.looks() {
			p, err := s.office.PreviewWithdraw(v.ctx(), v.by(), f, assessment.Until(form.Until), form.Related)
			return look(&form.Preview, p, err)
		}
		return s.office.Withdraw(v.ctx(), v.by(), f, assessment.Until(form.Until), form.Related)
	}, func(page *PersonPage, err error) error {
		form.Skills = page.Withdraw.Skills
		page.Withdraw = form
		return v.take(&page.Withdraw.Faults, err, "Nothing was withdrawn.", label("skill", "Skill"), label("until", "Until"), label("reason", "Reason"), label("password", "Your password"))
	})
}

// waive excuses somebody from a skill for some days.
func (s *Site) waive(v *visit) error {
	form := WaiveForm{ID: v.form("id"), Skill: v.form("skill"), From: v.form("from"), Through: v.form("through"), Reason: v.form("reason")}
	return s.onPerson(v, "It is waived for those days.", func(id assessment.PersonID) error {
		f, err := v.exceptionForm(id)
		if err != nil {
			return err
		}
		return s.office.Waive(v.ctx(), v.by(), f, form.From, form.Through)
	}, func(page *PersonPage, err error) error {
		form.Skills = page.Waive.Skills
		page.Waive = form
		return v.take(&page.Waive.Faults, err, "Nothing was waived.", label("skill", "Skill"), label("from", "From"), label("through", "Last day"),
			label("reason", "Reason"), label("password", "Your password"))
	})
}

// reinstate lifts a withdrawal that waits for it.
func (s *Site) reinstate(v *visit) error {
	form := ReinstateForm{ID: v.form("id"), Withdrawal: v.form("withdrawal"), Reason: v.form("reason")}
	return s.onPerson(v, "It is reinstated from today.", func(assessment.PersonID) error {
		id, err := formID[assessment.RecordID](v, "withdrawal")
		if err != nil {
			return err
		}
		if id == "" {
			return &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"withdrawal": "Choose the withdrawal that is to be lifted."}}
		}
		return s.office.Reinstate(v.ctx(), v.by(), id, form.Reason, v.proof())
	}, func(page *PersonPage, err error) error {
		form.Withdrawals = page.Reinstate.Withdrawals
		page.Reinstate = form
		return v.take(&page.Reinstate.Faults, err, "Nothing was reinstated.", label("withdrawal", "Withdrawal"), label("reason", "Reason"), label("password", "Your password"))
	})
}

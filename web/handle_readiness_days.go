package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// setPlanDays keeps when a child is to go home.
func (s *Site) setPlanDays(v *visit) error {
	form := office.PlanDaysForm{Meeting: v.form("meeting"), Home: v.form("home")}
	return s.onReadiness(v, "The days are set.", func(id assessment.ClientID) error {
		return s.office.SetPlanDays(v.ctx(), v.by(), id, form)
	}, func(page *ReadinessPage, err error) error {
		page.Days.Meeting, page.Days.Home = form.Meeting, form.Home
		return v.take(&page.Days.Faults, err, "The days were not set.", label("meeting", "Meeting"), label("home", "Going home"))
	})
}

// signPlan signs a whole plan as ready.
func (s *Site) signPlan(v *visit) error {
	form := office.PlanSignForm{ID: v.form("id"), Version: v.form("version"), Proof: v.proof()}
	return s.onReadiness(v, "The plan is signed. The signature stands until something changes.", func(id assessment.ClientID) error {
		form.Client = id
		return s.office.SignPlan(v.ctx(), v.by(), form)
	}, func(page *ReadinessPage, err error) error {
		if page.Sign.Action == "" { // it is not ready any more
			return v.take(&page.Faults, err, "Nothing was signed.")
		}
		return v.take(&page.Sign.Faults, err, "Nothing was signed.", label("password", "Your password"))
	})
}

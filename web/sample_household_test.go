package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func householdSamples() map[string]Page {
	cell := func(name, standing, through, next string) HouseholdCell {
		return HouseholdCell{name, SkillStanding{Standing: standing, Through: through, Since: "18 Nov 2026", DaysLeft: 12, Next: next}}
	}
	two := []HouseholdLine{{"Nguyễn Thị Lan", true, 2, 3}, {"Trần Văn Minh", false, 3, 3}}
	rows := []HouseholdRow{
		{"Tracheostomy suctioning", true, []HouseholdCell{cell(two[0].Name, "current", "30 Nov 2027", ""), cell(two[1].Name, "due", "15 Dec 2026", "")}},
		{"Circuit change", false, []HouseholdCell{cell(two[0].Name, "learning", "", "Needs 2 competent demonstrations."), cell(two[1].Name, "current", "2 Feb 2027", "")}},
		{"Emergency bag", true, []HouseholdCell{cell(two[0].Name, "current", "30 Nov 2027", ""), cell(two[1].Name, "current", "2 Feb 2027", "")}},
	}
	return map[string]Page{
		"household":         HouseholdPage{Frame: motherFrame(), Client: "Mira", Able: 1, Enough: 2, Members: two, Skills: rows, Back: "/clients/c1/readiness"},
		"household-nobody":  HouseholdPage{Frame: motherFrame(), Client: "Mira", Enough: 2, Back: "/clients/c1/readiness"},
		"household-nothing": HouseholdPage{Frame: motherFrame(), Client: "Mira", Enough: 2, Members: two, Back: "/clients/c1/readiness"},
		"household-both":    HouseholdPage{Frame: motherFrame(), Client: "Mira", Able: 2, Enough: 2, Members: []HouseholdLine{two[1], {"Nguyễn Thị Lan", true, 3, 3}}, Skills: rows[2:], Back: "/clients/c1/readiness"},
	}
}

// sheetSample is an invitation as it is handed over.
func sheetSample(language string) InvitationSheet {
	sheet, err := invitationSheet(office.NewLink{Person: office.PersonRef{Name: "Nguyễn Thị Lan"}, Email: "lan@larkmoor.example", Language: language, Agency: office.AgencyView{Name: "Larkmoor Home Nursing"},
		Purpose: assessment.Invitation, URL: "https://shown.larkmoor.example/link/Jk0c8wRr1tYp3sQ6v9xAbCdEfGhIjKlMnOpQrStUvWx", ExpiresAt: time.Date(2026, 11, 26, 16, 12, 0, 0, time.UTC)}, time.UTC)
	if err != nil {
		panic(err) // fixed words
	}
	return sheet
}

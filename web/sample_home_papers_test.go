package web

func homePapersSamples() map[string]Page {
	files := []Tongue{{"English", "en", "/clients/c1/home-papers/emergency-card?language=en"}, {"Español", "es", "/clients/c1/home-papers/emergency-card?language=es"}}
	papers := []HomePaperLine{
		{Name: "Emergency card", Open: []string{"when help is called", "the telephone: Hospital team", "where the emergency kit is"}, Files: files},
		{Name: "Go-bag list", Files: files},
		{Name: "Letter to the power company", Open: []string{"the name of the power company"}, Files: files, Anybody: true},
	}
	calls := []HomeCall{{1, "Local emergency number", "911", "tel:911"}, {2, "Equipment company, 24 hours: Alder Home Equipment", "555 0161 ext. 4", ""}, {3, "Hospital team", "", ""}}
	whole := []HomePaperLine{{Name: "Tarjeta de emergencia", Files: files}, {Name: "Lista de la bolsa de emergencia", Files: files}}
	family := HomePapersPage{Frame: motherFrame(), Client: "Mira", Code: "7K", Papers: whole, Calls: calls[:2], Kit: "On the hook at the head of the bed", Back: "/clients/c1"}
	spanish := family
	spanish.Language = "es"
	return map[string]Page{
		"home-papers": HomePapersPage{Frame: coordinatorFrame("children"), Client: "Mira", Code: "7K", Missing: 3, Papers: papers, Calls: calls, Back: "/clients/c1", Form: homeFormSample()},
		"home-papers-fault": HomePapersPage{Frame: coordinatorFrame("children"), Client: "Mira", Code: "7K", Missing: 1, Papers: papers, Calls: calls, Back: "/clients/c1", Form: homeFormSample(),
			Faults: Faults{What: "Nothing was written down.", Fields: []FieldFault{{"telephone-emergency-number", "Local emergency number: telephone", "This is no telephone number."}}}},
		"home-papers-conflict": HomePapersPage{Frame: coordinatorFrame("children"), Client: "Mira", Code: "7K", Missing: 1, Papers: papers, Calls: calls, Back: "/clients/c1", Form: changedSince(homeFormSample()),
			Faults: Faults{What: "Nothing was written down.", Why: "Somebody has changed this since you read it."}},
		"home-papers-family":  family,
		"home-papers-spanish": spanish,
	}
}

func changedSince(f HomeRecordForm) HomeRecordForm {
	f.Changed = []string{"Local emergency number: telephone: 112", "Power company: name: nothing"}
	return f
}

func homeFormSample() HomeRecordForm {
	return HomeRecordForm{Action: "/clients/c1/home-papers", Version: "v", Kit: "On the hook at the head of the bed", CheckedBy: optionsOf("not said", "the family"), CheckedWhen: optionsOf("not said", "each day"),
		Contacts: []ContactRow{{"Local emergency number", "name-emergency-number", "telephone-emergency-number", "place-emergency-number", "", "911", "1"},
			{"Power company", "name-power-company", "telephone-power-company", "", "Valley Power", "555 0177", ""}},
		Suppliers: []SupplierRow{{"pulse oximeter", "supplier-pulse-oximeter", "supplier-telephone-pulse-oximeter", "checked-by-pulse-oximeter", "checked-when-pulse-oximeter", "Alder Home Equipment", "555 0161", "the-family", "each-day"}}}
}

package web

func importSamples() map[string]Page {
	frame := educatorFrame("people")
	kinds := []Option{{Value: "people", Text: "People"}, {Value: "clients", Text: "Children"}, {Value: "shifts", Text: "Shifts"}, {Value: "carried-in", Text: "Competencies carried in"}}
	columns := []ListColumn{{"name", "the whole name as it is to be printed", true}, {"kind", "nurse, aide or family", true}, {"e-mail", "the address by which they sign in; empty: they do not", false}}
	lists := []ListShape{{Title: "People", Columns: columns, CSV: "/imports/templates/people.csv", XLSX: "/imports/templates/people.xlsx", More: "They get no password by it: invite each one on their page."}}
	waiting := []ImportLine{{Name: "staff of the night shifts, autumn.csv", Href: "/imports/i1", Says: "People, sent 3 Dec 2026, 10:00 MST"}}
	unread := Faults{What: "The file was not taken. Nothing was brought in.", Why: "The first row must name the columns, and one is missing: kind. It reads: name | e-mail. Write our names into it, as the template has them."}
	full := ImportPage{Frame: frame, ID: "i1", FileName: "staff of the night shifts, autumn.csv", List: "people", How: "a table (CSV) in Windows-1252, its cells parted by a semicolon", Left: "phone, home address", Guessed: true, Names: []string{"José Peña", "Žofia Müller"},
		Version: "v", Asking: 2, Columns: columns, Effect: "They get no password by it: invite each one on their page.",
		Asks: []RowQuestion{{Name: "row-2", Label: "Row 2: ORME nan", Hint: "The same name stands in row 7, 9.", Options: []Option{{Value: "p1", Text: "Nan Orme, nurse, nan@agency.example"}, {Value: "another", Text: "Another person: add them"}}},
			{Name: "row-3", Label: "Row 3: Ola Reid", Options: []Option{{Value: "p2", Text: "Ola Reed, nurse, left on 2026-10-01"}, {Value: "another", Text: "Another person: add them"}}, Answer: "another"}},
		New:   []RowLine{{4, "José Peña", "kind: nurse · e-mail: jose@agency.example", nil}, {5, "Wilhelmina-Charlotte van der Oosterkamp-Featherstonehaugh", "kind: family · relation: grandmother", []string{"row 4 has the same name and another address: two people"}}},
		There: []RowLine{{6, "Pia Lund", "kind: nurse", []string{"Pia Lund is here; the file says another relation, and what is known stays. Change it on their page"}}}}
	refused := full
	refused.Faults = Faults{What: "Nothing was brought in.", Why: "Say of each name that is like another whether it is the same person.", Fields: []FieldFault{{"row-2", "Row 2: ORME nan", "Choose one."}, {"letters", "The letters", "Look at the names and say that they read right."}}}
	wrong := full
	wrong.Guessed, wrong.New, wrong.More = false, nil, 12
	wrong.Wrong = []RowFault{{"", "", "There is a thing with the whole."}, {"Row 2", "start", "03/04/2026 can be read in two ways, or not at all. Write 2026-03-04 or 2026-04-03, whichever is meant."}, {"Row 12", "", "Row 8 says the same. Keep one of the two."}}
	there := full
	there.Asks, there.Asking, there.New, there.Guessed = nil, 0, nil, false
	lines := []CarriedLine{
		{Title: "Single-limb heated-humidified ventilator circuit change", For: "for Mira, 7K", Shown: "shown on 4 March 2026 at Old Town Homecare", Paper: "signed by A. Roe, RN; by the old paper through 4 March 2027", By: "Cora Field, 3 Dec 2026, 10:00 MST", Papers: []Link{{"paper 1", "/people/p1/carried-in/papers/a"}, {"paper 2", "/people/p1/carried-in/papers/b"}}, Remove: "/people/p1/carried-in/c1/removal"},
		{Title: "Bagging", Shown: "shown on 5 May 2025 at Old Town Hospital", Paper: "signed by B. Roe; by the old paper without an end", By: "Cora Field, 3 Dec 2026, 10:00 MST", Remove: "/people/p1/carried-in/c2/removal"}}
	shows := []Option{{Value: "c1", Text: lines[0].Title + " for Mira, 7K", Hint: lines[0].Shown}, {Value: "c2", Text: "Bagging", Hint: lines[1].Shown, Chosen: true}}
	papers := []CarriedPaper{{1, "photo or picture, attached 3 Dec 2026, 10:05 MST", "/people/p1/carried-in/papers/a"}, {2, "scan of 6 pages, attached 3 Dec 2026, 10:06 MST", "/people/p1/carried-in/papers/b"}}
	carried := CarriedInPage{Frame: frame, ID: "p1", Name: "Nan Orme", Lines: lines, Papers: papers, May: true, Import: "/imports?kind=carried-in", Shows: shows}
	notAttached := carried
	notAttached.Faults = Faults{What: "The paper was not attached.", Next: "Look below.", Fields: []FieldFault{{"shows", "It shows", "Tick what this paper shows."}}}
	taking := carried
	taking.TakeIn, taking.May, taking.Children = true, false, []Option{{Text: "Nobody here"}, {Value: "m", Text: "Mira, 7K"}}
	notTaken := taking
	notTaken.Client, notTaken.Same = "m", true
	notTaken.FileFaults = Faults{What: "Nothing was taken in.", Next: "Look below.", Fields: []FieldFault{{"page", "File", "This file was changed, so nothing of it was taken in."}}}
	return map[string]Page{
		"carried-in-taking": taking, "carried-in-not-taken": notTaken,
		"imports":             ImportsPage{Frame: frame, Kind: "people", Kinds: kinds, Waiting: waiting, Lists: lists},
		"imports-none":        ImportsPage{Frame: frame, Kinds: kinds, Lists: lists},
		"imports-fault":       ImportsPage{Frame: frame, Kind: "people", Kinds: kinds, Lists: lists, Faults: unread},
		"import":              full,
		"import-fault":        refused,
		"import-wrong":        wrong,
		"import-there":        there,
		"carried-in":          carried,
		"carried-in-none":     CarriedInPage{Frame: frame, ID: "p1", Name: "Nan Orme", May: true, Import: "/imports?kind=carried-in"},
		"carried-in-fault":    notAttached,
		"carried-in-surveyor": CarriedInPage{Frame: frame, ID: "p1", Name: "Nan Orme", Lines: []CarriedLine{{Title: "Bagging", Shown: lines[1].Shown, Paper: lines[1].Paper, By: lines[1].By}}},
	}
}

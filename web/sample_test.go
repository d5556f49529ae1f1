package web

// The sample pages show an invented agency, so that every page is drawn in
// tests as people will see it. No name, number or place in them is real.

// samples are pages by a name that says what they show.
func samples() map[string]Page {
	all := map[string]Page{}
	for _, some := range []map[string]Page{
		doorSamples(), checkSamples(), itemSamples(), passkeySamples(), tokenSamples(), erasureSamples(), importSamples(), surveySamples(), landingSamples(), peopleSamples(), clientSamples(), checklistSamples(),
		bedsideSamples(), recordSamples(), standingSamples(), certificateSamples(), ledgerSamples(), officeSamples(), skillsSamples(), coverageSamples(), visitSamples(), packetSamples(), reminderSamples(), householdSamples(), homePapersSamples(), incidentSamples(), practiceSamples(), previewSamples(),
		lessonSamples(), learningSamples(), drillSamples(), handoverSamples(),
	} {
		for name, page := range some {
			all[name] = page
		}
	}
	return all
}

func frameOf(person, here string, roles ...string) Frame {
	return Frame{Agency: "Larkmoor Home Nursing", Person: person, PersonID: "p1", Menu: MenuFor(roles, here),
		CSRF: "token", Demo: true, Path: "/somewhere"}
}

func coordinatorFrame(here string) Frame { return frameOf("Ines Okafor", here, "coordinator") }
func educatorFrame(here string) Frame    { return frameOf("Noor Haddadin", here, "educator") }
func motherFrame() Frame                 { return frameOf("Nguyễn Thị Lan", "home", "caregiver") }

func optionsOf(texts ...string) []Option {
	var all []Option
	for _, text := range texts {
		all = append(all, Option{Value: slug(text), Text: text})
	}
	return all
}

func linksTo(href string, texts ...string) []Link {
	var all []Link
	for _, text := range texts {
		all = append(all, Link{Text: text, Href: href})
	}
	return all
}

func doorSamples() map[string]Page {
	public := Frame{Demo: true, Tongues: []Tongue{{"Español", "es", "/sign-in?lang=es"}}}
	lost := public
	lost.Lost = true
	return map[string]Page{
		"sign-in":      SignInPage{Frame: public, AskAgency: true},
		"sign-in-lost": SignInPage{Frame: lost, Next: "/people/new", Faults: Faults{What: "You were signed out: what you sent is not saved.", Why: "Sign in, and you are back at the page. Then send it again."}},
		"sign-in-fault": SignInPage{Frame: public, Email: "ines@larkmoor.example", Faults: Faults{
			What: "Not signed in.", Why: "E-mail and password do not fit together.", Next: "Type both once more.",
			Fields: []FieldFault{{"password", "Password", "It does not fit this e-mail."}}}},
		"password": PasswordPage{Frame: public, First: true, Action: "/password", Email: "lan@larkmoor.example", LeastChars: 12},
		"password-fault": PasswordPage{Frame: motherFrame(), Action: "/password", Email: "lan@larkmoor.example", Faults: Faults{
			What: "The password was not changed.", Next: "Choose a longer one.",
			Fields: []FieldFault{{"new", "New password", "It has 7 characters; 12 are the least."}}}},
		"link": LinkPage{Frame: public, Of: "Larkmoor Home Nursing", Name: "Nguyễn Thị Lan", Email: "lan@larkmoor.example", First: true, Action: "/link/x", NotMine: "/link/x/not-mine", LeastChars: 12},
		"link-reset": LinkPage{Frame: public, Of: "Larkmoor Home Nursing", Name: "Noor Haddadin", Email: "noor@larkmoor.example", HasCode: true, Action: "/link/x", LeastChars: 12, Faults: Faults{
			What: "Your password is not kept yet.", Fields: []FieldFault{{"new", "New password", "A password has at least 12 characters."}}}},
		"link-dead":         LinkPage{Frame: public, Dead: "This link cannot be used. It was used already, it has run out, or a newer one took its place."},
		"link-made":         LinkMadePage{Frame: coordinatorFrame("people"), Name: "Noor Haddadin", URL: "https://shown.larkmoor.example/link/Jk0c8wRr1tYp3sQ6v9xAbCdEfGhIjKlMnOpQrStUvWx", Until: "26 Nov 2026, 09:12 MST", Back: "/people/p1", Sheet: sheetSample("en")},
		"link-made-spanish": LinkMadePage{Frame: coordinatorFrame("people"), Name: "Nguyễn Thị Lan", Invites: true, URL: "https://shown.larkmoor.example/link/Jk0c8wRr1tYp3sQ6v9xAbCdEfGhIjKlMnOpQrStUvWx", Until: "26 Nov 2026, 09:12 MST", Back: "/people/p1", Sheet: sheetSample("es")},
		"link-back":         LinkPage{Frame: public, GivenBack: true},
		"account":           accountSample(),
		"held":              HeldPage{Frame: motherFrame(), Parts: []HeldLine{{"What you showed, as it was recorded, with all marks.", "12 entries"}, {"Who you are: name, kind, address, language, first and last day.", "1 entry"}}, Empty: []string{"Your licences."}},
		"held-none":         HeldPage{Frame: motherFrame()},
		"error-not-found":   ErrorPage{Frame: coordinatorFrame(""), Kind: "not found", Back: "/people"},
		"error-forbidden":   ErrorPage{Frame: motherFrame(), Kind: "forbidden", Back: "/home"},
		"error-expired":     ErrorPage{Frame: educatorFrame(""), Kind: "expired form", Back: "/demonstrations/d1"},
		"error-refused":     ErrorPage{Frame: educatorFrame(""), Kind: "refused", Why: "You are not current in suctioning yourself, so you cannot observe it.", Back: "/today"},
		"error-many":        ErrorPage{Frame: public, Kind: "too many"},
		"error-much":        ErrorPage{Frame: public, Kind: "too much", Why: "There were too many requests at once, and nothing was done. Try again in 12 seconds."},
		"error-elsewhere":   ErrorPage{Frame: public, Kind: "elsewhere", Why: "This was sent from another site’s page, so it was not done.", Back: "/"},
		"error-fault":       ErrorPage{Frame: educatorFrame(""), Kind: "fault", RequestID: "01941f29-7c3a-7d52", Back: "/today"},
	}
}

func standingOf(skill, client, standing, through, since string, days int, next string) SkillStanding {
	return SkillStanding{Skill: skill, Client: client, Standing: standing, Through: through, Since: since, DaysLeft: days, Next: next}
}

func lapsedSuction() SkillStanding {
	return standingOf("Tracheostomy suctioning", "Mira, 7K", "lapsed", "20 Nov 2026", "21 Nov 2026", 0, "One competent demonstration renews it.")
}

func waitingSample() []WaitingRecord {
	return []WaitingRecord{
		{"/demonstrations/d1", "Amal Haddad", "Stoma care and tie change", "Mira, 7K", "Mon 23 Nov", "Amal Haddad", false, true, true},
		{"/demonstrations/d2", "Jo Lindqvist", "Bag ventilation", "", "yesterday", "Noor Haddadin", true, false, true},
	}
}

func landingSamples() map[string]Page {
	due := standingOf("Circuit change", "Theo, 4B", "due", "30 Nov 2026", "", 5, "One competent demonstration renews it.")
	renewing := due
	renewing.Start = "/demonstrations/new?learner=p2"
	withdrawn := standingOf("Heated humidifier", "", "withdrawn", "2 Feb 2027", "23 Nov 2026", 0, "The unit was changed; show the new one.")
	troubles := []Trouble{
		{"Dana Orlova", "/people/p1", lapsedSuction(), true, "Noor Haddadin and Ruth Adeyemi", "/visits", "/people/p1#waive"},
		{"Sam Whitlock", "/people/p2", due, true, "Noor Haddadin", "/visits", ""},
		{"Amal Haddad", "/people/p3", withdrawn, true, "", "", "/people/p3#waive"},
	}
	left := []SkillStanding{
		standingOf("Circuit change", "Mira", "learning", "", "", 0, "Once more, without help. Thursday, with Noor."),
		standingOf("Emergency bag", "", "learning", "", "", 0, "Show it twice more. Unsure? Ask Noor."),
		standingOf("Tube change", "Mira", "not started", "", "", 0, "Noor shows you first."),
	}
	done := []SkillStanding{
		standingOf("Tracheostomy suctioning", "Mira", "current", "30 Nov 2027", "18 Nov 2026", 0, ""),
		standingOf("Bag ventilation", "", "due", "15 Dec 2026", "", 20, "One competent demonstration renews it."),
	}
	done[0].Certificate = "/certificates/LARK-2026-0041"
	done[0].Evidence = linksTo("/demonstrations/d1", "9 Nov", "12 Nov", "18 Nov")
	return map[string]Page{
		"today-coordinator": CoordinatorTodayPage{ShareOut: Link{"Propose who takes these 2", "/coverage/sharing?shift=s1&shift=s2"}, Frame: coordinatorFrame("today"), Reminders: "/reminders", Unvouched: unvouchedSample(),
			Holding: []Holding{{Device: "grey tablet", Owner: "Priya Nair", Href: "/people/p4", Holds: "2 finished sheets that were not sent and 1 sheet that is being marked", Told: "today, 06:40"},
				{Device: "phone", Owner: "Guðrún Jóhannsdóttir-Þorláksson", Href: "/people/p5", Holds: "1 sheet that was refused", Told: "yesterday, 22:15", Revoked: true}},
			Today: "Wednesday 25 November 2026", Lapsed: 4, Within7: 7, Within30: 19,
			Within60: 33, Within90: 51, Current: 412, NotYet: 9, Waived: 2, GoingHome: 2, Troubles: troubles, More: "/overdue", Waits: 43, Waiting: waitingSample(), Folded: waitingSample()[:1], AllWaits: allWaits},
		"today-coordinator-calm": CoordinatorTodayPage{Frame: coordinatorFrame("today"), Today: "Wednesday 25 November 2026", Within30: 1, Current: 12},
		"today-educator": EducatorTodayPage{Frame: educatorFrame("today"), Visits: []OwnVisit{{"Today", "Mira, 7K", "/visits/v1"}, {"Fri 27 Nov", "Theo, 4B", "/visits/v2"}}, Unvouched: unvouchedSample(), Today: "Wednesday 25 November 2026", ToSign: waitingSample()[1:], Waits: 1,
			Open: []OpenSheet{{"/demonstrations/d3/marks", "Tomasz Rybak", "Circuit change", "Mira, 7K", "today, 14:05", 19, 29}},
			All:  2, Learners: []Learner{{"Sam Whitlock", "/people/p2", "nurse", []SkillStanding{renewing, lapsedSuction()}}, {"Nguyễn Thị Lan", "/people/p4", "mother", left[:2]}},
			Own: []SkillStanding{lapsedSuction()}, Me: "/people/p1", Duties: linksTo("/today?as=coordinator", "coordinator")},
		"home-family": FamilyHomePage{Frame: motherFrame(), CannotSign: accountSample().Waits, Name: "Nguyễn Thị Lan", Client: "Mira", Asked: 9, Due: 1, Left: left, Done: done, ToSign: []WaitingRecord{
			{"/demonstrations/d1", "Nguyễn Thị Lan", "Circuit change", "Mira", "yesterday", "Nguyễn Thị Lan", true, false, false}}, Waits: 1,
			Ways: []Way{{"Mira", "/clients/c1/readiness", "/clients/c1/readiness.pdf", 3, 14, false, "/clients/c1/household", "/clients/c1/home-papers"}}, Transcript: "/transcript.pdf?person=p4"},
		"waiting":      WaitingPage{Frame: coordinatorFrame(""), Everybody: true, All: 43, Records: waitingSample(), First: true, Next: "/waiting?of=all&after=0"},
		"waiting-last": WaitingPage{Frame: educatorFrame(""), All: 31, Records: waitingSample()[1:], Start: myWaits},
		"waiting-none": WaitingPage{Frame: educatorFrame(""), First: true},
		"survey":       SurveyorHomePage{Frame: frameOf("Halina Wren", "survey", "surveyor"), Whole: true, Access: true, On: "2026-03-14"},
		"survey-found": SurveyorHomePage{Frame: frameOf("Halina Wren", "survey", "surveyor"), Whole: true, Access: true, On: "2026-03-14", Find: "or", Asked: true,
			Found: []FoundPerson{{"Dana Orlova", "nurse", "/people/p1?on=2026-03-14"}, {"Chidi Okoro", "nurse", "/people/p5?on=2026-03-14"}}},
		"survey-nobody": SurveyorHomePage{Frame: frameOf("Halina Wren", "survey", "surveyor"), Whole: true, Access: true, On: "2026-03-14", Find: "zz", Asked: true},
	}
}

package api

import "wellshown/assessment"

// chapters are all routes: method, path, what one must be allowed to do, the name
// in the document, the office method that does it, the handler.
func (e *edge) chapters() []chapter {
	return []chapter{e.account(), e.folk(), e.programs(), e.surveyors(), e.observers(), e.children(), e.lists(), e.bedside(), e.offline(), e.records(), e.exceptions(), e.standingsAndReports(), e.lessonsToLearn(), e.learningPlans(), e.goingHome(), e.certified(), e.handovers(), e.skillsDays(), e.roster(), e.homeVisits(), e.surveyPackets(), e.practiceRules(), e.knowledgeChecks(), e.emergencyDrills(), e.broughtIn(), e.sealedLedger(), e.keeping(), e.itself()}
}

func (e *edge) account() chapter {
	return chapter{"Account", "Signing in, and who one is.", []route{
		{"POST", "/sessions", public, "sign-in", "SignIn", on(e.signIn)},
		{"DELETE", "/sessions/current", assessment.OwnAccount, "sign-out", "SignOut", on(e.signOut)},
		{"GET", "/me", assessment.OwnAccount, "me", "Me", on(e.me)},
		{"PUT", "/me/password", assessment.OwnAccount, "change-password", "ChangePassword", on(e.changePassword)},
		{"POST", "/links", public, "take-link", "TakeLink", on(e.takeLink)},
		{"GET", "/me/account", assessment.OwnAccount, "my-account", "Account", on(e.myAccount)},
		{"GET", "/me/held", assessment.OwnAccount, "my-export", "Export", as(jsonText, e.myExport)},
		{"PUT", "/me/pin", assessment.SignRecord, "set-pin", "SetPIN", on(e.setPIN)},
		{"DELETE", "/me/pin", assessment.OwnAccount, "end-pin", "EndPIN", on(e.endPIN)},
		{"DELETE", "/me/sessions", assessment.OwnAccount, "end-other-sessions", "EndOtherSessions", on(e.endOtherSessions)},
		{"DELETE", "/me/sessions/{handle}", assessment.OwnAccount, "end-session", "EndSession", on(e.endSession)},
	}}
}

func (e *edge) folk() chapter {
	return chapter{"People", "The agency's people, and the roles they have.", []route{
		{"GET", "/people", assessment.ReadPeople, "list-people", "People", on(e.people)},
		{"POST", "/people", assessment.EditPeople, "add-person", "AddPerson", on(e.addPerson)},
		{"GET", "/people/{id}", assessment.ReadPeople, "show-person", "Person", on(e.person)},
		{"PUT", "/people/{id}", assessment.EditPeople, "edit-person", "EditPerson", on(e.editPerson)},
		{"PUT", "/people/{id}/departure", assessment.EditPeople, "person-leaves", "PersonLeaves", on(e.personLeaves)},
		{"POST", "/people/{id}/departure/preview", assessment.EditPeople, "preview-leaving", "PreviewLeaving", on(e.previewLeaving)},
		{"POST", "/people/{id}/link", assessment.GiveRoles, "make-link", "MakeLink", on(e.makeLink)},
		{"GET", "/people/{id}/identity", assessment.ReadPeople, "show-identity", "Identity", on(e.identity)},
		{"POST", "/people/{id}/vouching", assessment.VouchFor, "vouch", "Vouch", on(e.vouch)},
	}}
}

func (e *edge) programs() chapter {
	return chapter{"Programs", "Tokens by which programs come in.", []route{
		{"GET", "/tokens", assessment.GiveRoles, "list-tokens", "Tokens", on(e.tokens)},
		{"POST", "/tokens", assessment.GiveRoles, "make-token", "MakeToken", on(e.makeToken)},
		{"DELETE", "/tokens/{id}", assessment.GiveRoles, "revoke-token", "RevokeToken", on(e.revokeToken)},
	}}
}

func (e *edge) surveyors() chapter {
	return chapter{"Surveyors", "Who was let in to look, at whom, and until when.", []route{
		{"GET", "/survey-access", assessment.GiveRoles, "list-survey-access", "Access", on(e.surveyAccesses)},
		{"POST", "/survey-access", assessment.GiveRoles, "let-surveyor-in", "GiveAccess", on(e.giveSurveyAccess)},
		{"DELETE", "/survey-access/{id}", assessment.GiveRoles, "end-survey-access", "EndAccess", on(e.endSurveyAccess)},
		{"GET", "/me/survey-access", assessment.OwnAccount, "show-own-survey-access", "MySurvey", on(e.ownSurveyAccess)},
	}}
}

func (e *edge) observers() chapter {
	return chapter{"Qualifications", "Licences, resuscitation cards, and who may observe.", []route{
		{"GET", "/people/{id}/qualifications", assessment.ReadPeople, "show-qualifications", "Qualifications", on(e.qualifications)},
		{"POST", "/people/{id}/licences", assessment.EditPeople, "record-licence", "RecordLicence", on(e.recordLicence)},
		{"POST", "/people/{id}/cards", assessment.EditPeople, "record-card", "RecordCard", on(e.recordCard)},
		{"GET", "/appointments", assessment.ReadPeople, "list-appointments", "Appointments", on(e.appointments)},
		{"POST", "/appointments", assessment.Appoint, "propose-appointment", "ProposeAppointment", on(e.proposeAppointment)},
		{"POST", "/appointments/{id}/agreement", assessment.Appoint, "agree-appointment", "AgreeAppointment", on(e.agreeAppointment)},
		{"POST", "/appointments/{id}/end", assessment.Appoint, "end-appointment", "EndAppointment", on(e.endAppointment)},
	}}
}

func (e *edge) children() chapter {
	return chapter{"Children", "The children, what is ordered for them, their equipment and who looks after them.", []route{
		{"GET", "/clients", assessment.ReadClients, "list-clients", "Clients", on(e.clients)},
		{"POST", "/clients", assessment.EditClients, "add-client", "AddClient", on(e.addClient)},
		{"GET", "/clients/{id}", assessment.ReadClients, "show-client", "Client", on(e.client)},
		{"PUT", "/clients/{id}", assessment.EditClients, "edit-client", "EditClient", on(e.editClient)},
		{"PUT", "/clients/{id}/departure", assessment.EditClients, "client-leaves", "ClientLeaves", on(e.clientLeaves)},
		{"PUT", "/clients/{id}/parameters", assessment.SetParameters, "set-parameters", "SetParameters", on(e.setParameters)},
		{"POST", "/clients/{id}/equipment", assessment.EditClients, "set-equipment", "SetEquipment", on(e.setEquipment)},
		{"POST", "/clients/{id}/equipment/preview", assessment.EditClients, "preview-equipment", "PreviewEquipment", on(e.previewEquipment)},
		{"GET", "/clients/{id}/home-papers", assessment.ReadClients, "show-home-papers", "HomePapers", on(e.homePapers)},
		{"GET", "/clients/{id}/home-papers/{paper}", assessment.ReadClients, "print-home-paper", "HomePaper", as(pdf, e.homePaper)},
		{"PUT", "/clients/{id}/home-record", assessment.EditClients, "set-home-record", "SetHomeRecord", on(e.setHomeRecord)},
		{"POST", "/clients/{id}/team", assessment.EditClients, "add-to-team", "AddToTeam", on(e.addToTeam)},
		{"PUT", "/clients/{id}/team/{stretch}", assessment.EditClients, "end-on-team", "EndOnTeam", on(e.endOnTeam)},
	}}
}

func (e *edge) lists() chapter {
	return chapter{"Checklists", "Skills and the revisions of their checklists: draft, in force, retired.", []route{
		{"GET", "/skills", assessment.ReadChecklists, "list-skills", "Skills", on(e.skills)},
		{"POST", "/skills", assessment.EditChecklists, "add-checklist", "AddChecklist", on(e.addChecklist)},
		{"GET", "/starters", assessment.ReadChecklists, "list-starters", "Skills", on(e.starters)},
		{"POST", "/starters/{code}/adoption", assessment.EditChecklists, "adopt-starter", "AdoptStarter", on(e.adoptStarter)},
		{"POST", "/skills/{id}/revisions", assessment.EditChecklists, "draft-revision", "DraftRevision", on(e.draftRevision)},
		{"GET", "/revisions/{id}", assessment.ReadChecklists, "show-revision", "Checklist", on(e.revision)},
		{"DELETE", "/revisions/{id}", assessment.EditChecklists, "discard-draft", "DiscardDraft", on(e.discardDraft)},
		{"GET", "/revisions/{id}/source", assessment.ReadChecklists, "show-source", "DraftSource", as(yamlText, e.draftSource)},
		{"PUT", "/revisions/{id}/source", assessment.EditChecklists, "save-draft", "SaveDraft", on(e.saveDraft)},
		{"GET", "/revisions/{id}/comparison", assessment.ReadChecklists, "compare-revisions", "Compare", on(e.compare)},
		{"POST", "/revisions/{id}/preview", assessment.PutInForce, "preview-in-force", "PreviewInForce", on(e.previewInForce)},
		{"POST", "/revisions/{id}/proposals", assessment.PutInForce, "propose-in-force", "ProposeInForce", on(e.proposeInForce)},
		{"GET", "/proposals", assessment.PutInForce, "list-proposals", "Proposals", on(e.proposals)},
		{"GET", "/proposals/{id}", assessment.PutInForce, "show-proposal", "Proposal", on(e.proposal)},
		{"POST", "/proposals/{id}/agreement", assessment.PutInForce, "agree-in-force", "AgreeInForce", on(e.agreeInForce)},
		{"POST", "/proposals/{id}/dropping", assessment.PutInForce, "drop-proposal", "DropProposal", on(e.dropProposal)},
		{"POST", "/revisions/{id}/retirement", assessment.PutInForce, "retire-revision", "Retire", on(e.retire)},
		{"GET", "/revisions/{id}/blank.pdf", assessment.ReadChecklists, "print-blank", "Blank", as(pdf, e.blank)},
	}}
}

func (e *edge) bedside() chapter {
	return chapter{"Sheets", "A demonstration while it is marked. Only its own observer sees it.", []route{
		{"GET", "/sheets", assessment.Observe, "list-sheets", "Sheets", on(e.sheets)},
		{"PUT", "/sheets/{id}", assessment.Observe, "open-sheet", "Open", on(e.openSheet)},
		{"GET", "/sheets/{id}", assessment.Observe, "show-sheet", "Sheet", on(e.sheet)},
		{"DELETE", "/sheets/{id}", assessment.Observe, "discard-sheet", "Discard", on(e.discard)},
		{"PUT", "/sheets/{id}/marks", assessment.Observe, "mark-steps", "MarkAll", on(e.markAll)},
		{"PUT", "/sheets/{id}/marks/{step}", assessment.Observe, "mark-step", "Mark", on(e.mark)},
		{"DELETE", "/sheets/{id}/marks/{step}", assessment.Observe, "unmark-step", "Mark", on(e.unmark)},
		{"PUT", "/sheets/{id}/stop", assessment.Observe, "stop-sheet", "Stop", on(e.stop)},
		{"DELETE", "/sheets/{id}/stop", assessment.Observe, "go-on", "Stop", on(e.goOn)},
		{"PUT", "/sheets/{id}/pages/{number}", assessment.Observe, "attach-page", "AttachPage", on(e.attachPage)},
		{"DELETE", "/sheets/{id}/pages/{number}", assessment.Observe, "drop-page", "DropPage", on(e.dropPage)},
		{"POST", "/sheets/{id}/record", assessment.Observe, "record-sheet", "Record", on(e.record)},
	}}
}

func (e *edge) offline() chapter {
	return chapter{"Bedside", "Work without a network: the devices that sign sheets, the pack that they take along, and the sheets that they send.", []route{
		{"GET", "/bedside/devices", assessment.OwnAccount, "list-devices", "Devices", on(e.ownDevices)},
		{"POST", "/bedside/devices", assessment.Observe, "enrol-device", "EnrolDevice", on(e.enrolDevice)},
		{"DELETE", "/bedside/devices/{id}", assessment.OwnAccount, "revoke-device", "RevokeDevice", on(e.revokeDevice)},
		{"PUT", "/bedside/devices/{id}/holding", assessment.Observe, "tell-holding", "TellHolding", on(e.tellHolding)},
		{"GET", "/bedside/pack", assessment.Observe, "take-pack", "Pack", on(e.pack)},
		{"PUT", "/bedside/sheets/{id}", assessment.Observe, "send-sheet", "Receive", on(e.receiveSheet)},
	}}
}

func (e *edge) records() chapter {
	return chapter{"Demonstrations", "Return demonstrations as they were recorded. Nothing of them changes.", []route{
		{"GET", "/demonstrations", assessment.ReadRecords, "list-demonstrations", "Demonstrations", on(e.demonstrations)},
		{"GET", "/demonstrations/awaiting-me", assessment.SignRecord, "list-awaiting", "AwaitingMe", on(e.awaiting)},
		{"GET", "/demonstrations/{id}", assessment.ReadRecords, "show-demonstration", "Demonstration", on(e.demonstration)},
		{"GET", "/demonstrations/{id}/record.pdf", assessment.ReadRecords, "print-record", "Record", as(pdf, e.recordPaper)},
		{"GET", "/demonstrations/{id}/pages/{number}", assessment.ReadRecords, "show-page", "Page", asPage(e.paperPage)},
		{"POST", "/demonstrations/{id}/passkey-question", assessment.SignRecord, "ask-passkey", "Sign", on(e.askPasskey)},
		{"POST", "/demonstrations/{id}/signatures", assessment.SignRecord, "sign", "Sign", on(e.sign)},
		{"POST", "/demonstrations/{id}/correction", assessment.Correct, "correct", "CorrectDemonstration", on(e.correct)},
	}}
}

func (e *edge) exceptions() chapter {
	return chapter{"Exceptions", "Withdrawals, reinstatements and waivers, each with its reason and signature; teaching and practice.", []route{
		{"POST", "/withdrawals", assessment.Withdraw, "withdraw", "Withdraw", on(e.withdraw)},
		{"POST", "/withdrawals/preview", assessment.Withdraw, "preview-withdrawal", "PreviewWithdraw", on(e.previewWithdrawal)},
		{"POST", "/withdrawals/{id}/reinstatement", assessment.Reinstate, "reinstate", "Reinstate", on(e.reinstate)},
		{"POST", "/waivers", assessment.Waive, "waive", "Waive", on(e.waive)},
		{"POST", "/entries/{kind}/{id}/correction", assessment.Correct, "take-back", "TakeBack", on(e.takeBack)},
		{"POST", "/papers/{kind}/{id}/correction", assessment.EditPeople, "take-back-paper", "TakeBack", on(e.takeBackPaper)},
		{"POST", "/logs", assessment.LogCare, "log", "Log", on(e.log)},
	}}
}

func (e *edge) standingsAndReports() chapter {
	return chapter{"Standings", "Who is competent in what, on any day; who must be; what is overdue.", []route{
		{"GET", "/standings", assessment.ReadStandings, "show-standing", "Standing", on(e.standing)},
		{"GET", "/people/{id}/standings", assessment.ReadStandings, "list-standings", "StandingsOf", on(e.standingsOf)},
		{"GET", "/grid", assessment.ReadReports, "show-grid", "Grid", on(e.grid)},
		{"GET", "/grid.csv", assessment.ReadReports, "table-grid", "StandingsCSV", as(csv, e.gridTable)},
		{"GET", "/grid.xlsx", assessment.ReadReports, "sheet-grid", "StandingsXLSX", as(xlsx, e.gridSheet)},
		{"GET", "/overdue", assessment.ReadReports, "show-overdue", "Overdue", on(e.overdue)},
		{"GET", "/overdue.pdf", assessment.ReadReports, "print-overdue", "Overdue", as(pdf, e.overduePaper)},
		{"GET", "/overdue.csv", assessment.ReadReports, "table-overdue", "OverdueCSV", as(csv, e.overdueTable)},
		{"GET", "/overdue.xlsx", assessment.ReadReports, "sheet-overdue", "OverdueXLSX", as(xlsx, e.overdueSheet)},
		{"GET", "/requirements", assessment.ReadStandings, "list-requirements", "Requirements", on(e.requirements)},
		{"POST", "/requirements", assessment.EditRequirements, "set-requirement", "SetRequirement", on(e.setRequirement)},
		{"POST", "/requirements/preview", assessment.EditRequirements, "preview-requirement", "PreviewRequirement", on(e.previewRequirement)},
		{"PUT", "/requirements/{id}/end", assessment.EditRequirements, "end-requirement", "EndRequirement", on(e.endRequirement)},
		{"POST", "/requirements/{id}/end/preview", assessment.EditRequirements, "preview-requirement-end", "PreviewRequirementEnd", on(e.previewRequirementEnd)},
	}}
}

func (e *edge) lessonsToLearn() chapter {
	return chapter{"Lessons", "What teaches a skill, in the languages of families. Only what a licensed clinician has put in force.", []route{
		{"GET", "/lessons", assessment.ReadLessons, "list-lessons", "LessonShelf", on(e.lessons)},
		{"GET", "/lessons/{code}", assessment.ReadLessons, "show-lesson", "TaughtLesson", on(e.lesson)},
		{"GET", "/lessons/{code}/paper.pdf", assessment.ReadLessons, "print-lesson", "Lesson", as(pdf, e.lessonPaper)},
		{"GET", "/lessons.pdf", assessment.ReadLessons, "print-lessons", "Lessons", as(pdf, e.lessonsPaper)},
	}}
}

func (e *edge) learningPlans() chapter {
	return chapter{"Learning plans", "What somebody still has to learn, by when and by whom; what was taught and practised. Nothing of it makes anybody current.", []route{
		{"GET", "/people/{id}/learning-plan", assessment.ReadLearning, "show-learning-plan", "LearningPlan", on(e.learningPlan)},
		{"GET", "/people/{id}/learning-plan.pdf", assessment.ReadLearning, "print-learning-plan", "LearningPlan", as(pdf, e.learningPaper)},
		{"PUT", "/people/{id}/learning-target", assessment.PlanLearning, "set-learning-target", "SetLearningTarget", on(e.setLearningTarget)},
		{"POST", "/people/{id}/learning-choices", assessment.PlanLearning, "choose-learning", "ChooseLearning", on(e.chooseLearning)},
		{"GET", "/learning-days", assessment.PlanLearning, "list-learning-days", "LearningDesk", on(e.learningDays)},
		{"PUT", "/learning-days/{code}", assessment.PlanLearning, "set-learning-days", "SetLearningDays", on(e.setLearningDays)},
		{"POST", "/teaching-sessions", assessment.LogCare, "add-teaching", "LogTeaching", on(e.addTeaching)},
		{"GET", "/teaching-sessions/{id}", assessment.LogCare, "show-teaching", "TeachingSession", on(e.teaching)},
		{"POST", "/teaching-sessions/{id}/correction", assessment.Correct, "correct-teaching", "CorrectTeaching", on(e.correctTeaching)},
		{"POST", "/people/{id}/practice-runs", assessment.NotePractice, "add-practice-run", "LogPracticeRun", on(e.addPracticeRun)},
		{"GET", "/practice-runs/{id}", assessment.ReadLearning, "show-practice-run", "PracticeRun", on(e.practiceRun)},
		{"POST", "/practice-runs/{id}/taking-back", assessment.NotePractice, "take-practice-back", "TakeBackPractice", on(e.takePracticeBack)},
	}}
}

func (e *edge) goingHome() chapter {
	return chapter{"Readiness", "Whether a child can go home: the plan, its evidence and the answer.", []route{
		{"GET", "/clients/{id}/readiness", assessment.ReadReadiness, "show-readiness", "Readiness", on(e.readiness)},
		{"GET", "/clients/{id}/readiness.pdf", assessment.ReadReadiness, "print-readiness", "Readiness", as(pdf, e.readinessPaper)},
		{"POST", "/clients/{id}/plan", assessment.EditReadiness, "start-plan", "StartPlan", on(e.startPlan)},
		{"PUT", "/clients/{id}/plan-days", assessment.EditReadiness, "set-plan-days", "SetPlanDays", on(e.setPlanDays)},
		{"POST", "/clients/{id}/plan-signature", assessment.SignReadiness, "sign-plan", "SignPlan", on(e.signPlan)},
		{"GET", "/plan-template", assessment.ReadReports, "show-plan-template", "PlanTemplate", on(e.planTemplate)},
		{"POST", "/plan-template", assessment.EditTemplate, "own-plan-template", "OwnTemplate", on(e.ownTemplate)},
		{"DELETE", "/plan-template", assessment.EditTemplate, "drop-plan-template", "DropTemplate", on(e.dropTemplate)},
		{"POST", "/plan-template/lines", assessment.EditTemplate, "add-template-line", "AddTemplateLine", on(e.addTemplateLine)},
		{"PUT", "/plan-template/lines/{id}", assessment.EditTemplate, "edit-template-line", "EditTemplateLine", on(e.editTemplateLine)},
		{"DELETE", "/plan-template/lines/{id}", assessment.EditTemplate, "remove-template-line", "RemoveTemplateLine", on(e.removeTemplateLine)},
		{"POST", "/clients/{id}/criteria", assessment.EditReadiness, "add-criterion", "AddCriterion", on(e.addCriterion)},
		{"PUT", "/criteria/{id}", assessment.EditReadiness, "edit-criterion", "EditCriterion", on(e.editCriterion)},
		{"DELETE", "/criteria/{id}", assessment.EditReadiness, "remove-criterion", "RemoveCriterion", on(e.removeCriterion)},
		{"POST", "/criteria/{id}/evidence", assessment.EditReadiness, "add-evidence", "AddEvidence", on(e.addEvidence)},
		{"POST", "/criteria/{id}/waiver", assessment.WaiveCriterion, "waive-criterion", "WaiveCriterion", on(e.waiveCriterion)},
		{"POST", "/criteria/{id}/waiver-end", assessment.WaiveCriterion, "end-criterion-waiver", "EndWaiver", on(e.endCriterionWaiver)},
		{"POST", "/clients/{id}/shifts", assessment.EditReadiness, "plan-shift", "PlanShift", on(e.planShift)},
		{"DELETE", "/shifts/{id}", assessment.EditReadiness, "remove-shift", "RemoveShift", on(e.removeShift)},
	}}
}

func (e *edge) certified() chapter {
	return chapter{"Certificates", "Certificates as they were issued, the public check of one, and transcripts.", []route{
		{"GET", "/certificates", assessment.ReadRecords, "list-certificates", "Certificates", on(e.certificates)},
		{"GET", "/certificates/{id}", assessment.ReadRecords, "show-certificate", "Certificate", on(e.certificate)},
		{"GET", "/certificates/{id}/certificate.pdf", assessment.ReadRecords, "print-certificate", "Certificate", as(pdf, e.certificatePaper)},
		{"GET", "/check/{code}", public, "check-certificate", "Check", on(e.checkCode)},
		{"GET", "/people/{id}/transcript", assessment.ReadRecords, "show-transcript", "Transcript", on(e.transcript)},
		{"GET", "/people/{id}/transcript.pdf", assessment.ReadRecords, "print-transcript", "Transcript", as(pdf, e.transcriptPaper)},
	}}
}

func (e *edge) handovers() chapter {
	return chapter{"Proof from agency to agency", "What is written down of a caregiver as a signed file, the neighbour agencies whose key is known, and what they signed. It makes nobody current anywhere.", []route{
		{"GET", "/people/{id}/handover.json", assessment.HandOver, "take-proof-along", "Handover", as(jsonText, e.handoverFile)},
		{"POST", "/check", public, "check-file", "CheckHandover", on(e.checkFile)},
		{"POST", "/people/{id}/carried-in/files", assessment.TakeIn, "take-in-file", "TakeInHandover", on(e.takeInFile)},
		{"GET", "/neighbours", assessment.ReadNeighbours, "list-neighbours", "Neighbours", on(e.neighbours)},
		{"POST", "/neighbours", assessment.EnterNeighbour, "enter-neighbour", "EnterNeighbour", on(e.enterNeighbour)},
		{"POST", "/neighbours/{id}/agreement", assessment.AgreeNeighbour, "agree-neighbour", "AgreeNeighbour", on(e.agreeNeighbour)},
		{"POST", "/neighbours/{id}/end", assessment.AgreeNeighbour, "end-neighbour", "EndNeighbour", on(e.endNeighbour)},
	}}
}

func (e *edge) roster() chapter {
	return chapter{"Roster and coverage", "Shifts against standings: which break, who could take them, weekly patterns with exceptions.", []route{
		{"GET", "/coverage", assessment.ReadReports, "show-coverage", "Coverage", on(e.coverage)},
		{"GET", "/coverage.pdf", assessment.ReadReports, "print-coverage", "Coverage", as(pdf, e.coveragePaper)},
		{"GET", "/coverage.csv", assessment.ReadReports, "list-coverage-as-csv", "CoverageCSV", as(csv, e.coverageTable)},
		{"GET", "/coverage.xlsx", assessment.ReadReports, "list-coverage-as-xlsx", "CoverageXLSX", as(xlsx, e.coverageSheet)},
		{"GET", "/coverage/shifts/{shift}", assessment.ReadReports, "show-shift-cover", "ShiftDesk", on(e.coverShift)},
		{"POST", "/coverage/shifts/{shift}/giving", assessment.EditRoster, "give-shift", "GiveShift", on(e.giveShift)},
		{"GET", "/coverage/sharing", assessment.ReadReports, "propose-sharing", "ShareOut", on(e.shareOut)},
		{"POST", "/coverage/sharing", assessment.EditRoster, "give-shifts", "GiveShifts", on(e.giveShifts)},
		{"PUT", "/coverage/rest", assessment.EditRoster, "set-rest", "SetRest", on(e.setRest)},
		{"GET", "/clients/{id}/roster", assessment.ReadReports, "show-client-roster", "ClientRoster", on(e.clientRoster)},
		{"POST", "/clients/{id}/roster/shifts", assessment.EditRoster, "add-roster-shift", "AddRosterShift", on(e.addRosterShift)},
		{"PUT", "/roster/shifts/{id}", assessment.EditRoster, "change-roster-shift", "ChangeRosterShift", on(e.changeRosterShift)},
		{"POST", "/roster/shifts/{id}/removal", assessment.EditRoster, "remove-roster-shift", "RemoveRosterShift", on(e.removeRosterShift)},
		{"POST", "/clients/{id}/roster/patterns", assessment.EditRoster, "add-pattern", "AddPattern", on(e.addPattern)},
		{"PUT", "/patterns/{id}", assessment.EditRoster, "change-pattern", "ChangePattern", on(e.changePattern)},
		{"POST", "/patterns/{id}/end", assessment.EditRoster, "end-pattern", "EndPattern", on(e.endPattern)},
		{"POST", "/patterns/{id}/days", assessment.EditRoster, "set-pattern-day", "SetPatternDay", on(e.setPatternDay)},
		{"POST", "/patterns/{id}/days/lifting", assessment.EditRoster, "lift-pattern-day", "LiftPatternDay", on(e.liftPatternDay)},
	}}
}

func (e *edge) skillsDays() chapter {
	return chapter{"Skills days", "Days on which many show skills at stations: who comes, what is due, where each goes next.", []route{
		{"GET", "/skills-days", assessment.ReadSkillsDays, "list-skills-days", "SkillsDays", on(e.listSkillsDays)},
		{"POST", "/skills-days", assessment.PlanSkillsDays, "plan-skills-day", "PlanSkillsDay", on(e.planSkillsDay)},
		{"GET", "/skills-days/{id}", assessment.ReadSkillsDays, "show-skills-day", "SkillsDay", on(e.skillsDay)},
		{"PUT", "/skills-days/{id}", assessment.PlanSkillsDays, "change-skills-day", "ChangeSkillsDay", on(e.changeSkillsDay)},
		{"POST", "/skills-days/{id}/end", assessment.PlanSkillsDays, "end-skills-day", "EndSkillsDay", on(e.endSkillsDay)},
		{"GET", "/skills-days/{id}/cards.pdf", assessment.ReadSkillsDays, "print-skills-day-cards", "SkillsDayCards", as(pdf, e.skillsDayCards)},
		{"GET", "/skills-days/{id}/learners/{learner}", assessment.ReadSkillsDays, "show-skills-day-card", "SkillsDayCard", on(e.skillsDayCard)},
		{"GET", "/skills-days/{id}/stations/{station}", assessment.ReadSkillsDays, "show-skills-day-station", "SkillsDayStation", on(e.skillsDayStation)},
		{"GET", "/me/skills-days", assessment.Observe, "list-own-skills-days", "SkillsDaysOn", on(e.ownSkillsDays)},
	}}
}

func (e *edge) homeVisits() chapter {
	return chapter{"Visits", "Educators at homes, planned from what is due there. A visit makes nobody current.", []route{
		{"GET", "/visits", assessment.ReadReports, "list-visits", "Visits", on(e.listVisits)},
		{"GET", "/visits.ics", assessment.ReadReports, "list-visits-as-calendar", "VisitsICS", as(ical, e.visitsCalendar)},
		{"GET", "/visits.pdf", assessment.ReadReports, "print-visits", "Visits", as(pdf, e.visitsPaper)},
		{"POST", "/visits", assessment.PlanVisits, "plan-visit", "PlanVisit", on(e.planVisit)},
		{"POST", "/visits/proposal", assessment.PlanVisits, "keep-visits", "KeepVisits", on(e.keepVisits)},
		{"PUT", "/visits/weeks/{id}", assessment.PlanVisits, "set-weeks", "SetAvailability", on(e.setWeeks)},
		{"POST", "/visits/days-off", assessment.PlanVisits, "add-days-off", "AddDaysOff", on(e.addDaysOff)},
		{"DELETE", "/visits/days-off/{id}", assessment.PlanVisits, "remove-days-off", "RemoveDaysOff", on(e.removeDaysOff)},
		{"POST", "/visits/ways", assessment.PlanVisits, "set-way", "SetTravelTime", on(e.setWay)},
		{"DELETE", "/visits/ways/{id}", assessment.PlanVisits, "remove-way", "RemoveTravelTime", on(e.removeWay)},
		{"GET", "/visits/{id}", assessment.ReadReports, "show-visit", "VisitDesk", on(e.visit)},
		{"PUT", "/visits/{id}", assessment.PlanVisits, "move-visit", "MoveVisit", on(e.moveVisit)},
		{"DELETE", "/visits/{id}", assessment.PlanVisits, "cancel-visit", "CancelVisit", on(e.cancelVisit)},
	}}
}

func (e *edge) knowledgeChecks() chapter {
	return chapter{"Knowledge checks", "Questions about a skill, taken, judged and kept. Passing one makes nobody current; a rule may ask for one before the skill is shown.", []route{
		{"GET", "/checks", assessment.ReadChecks, "list-checks", "Checks", on(e.checks)},
		{"GET", "/checks/{code}", assessment.ReadBank, "show-check", "CheckBank", on(e.checkBank)},
		{"GET", "/checks/{code}/questions.pdf", assessment.ReadBank, "print-questions", "Questions", as(pdf, e.questionsPaper)},
		{"PUT", "/checks/{code}/rule", assessment.EditChecks, "set-check-rule", "SetCheckRule", on(e.setCheckRule)},
		{"POST", "/checks/{code}/starters", assessment.EditChecks, "take-starter-items", "TakeStarterItems", on(e.takeStarterItems)},
		{"POST", "/checks/{code}/items", assessment.EditChecks, "add-items", "AddItems", on(e.addItems)},
		{"POST", "/checks/{code}/sittings", assessment.TakeCheck, "begin-check", "OpenCheck", on(e.beginCheck)},
		{"GET", "/sittings/{id}", assessment.ReadChecks, "show-sitting", "Sitting", on(e.sitting)},
		{"PUT", "/sittings/{id}/answers/{place}", assessment.TakeCheck, "answer-item", "AnswerItem", on(e.answerItem)},
		{"POST", "/sittings/{id}/handing-in", assessment.TakeCheck, "hand-in", "HandIn", on(e.handIn)},
		{"POST", "/sittings/{id}/presence", assessment.EditChecks, "say-presence", "SayPresence", on(e.sayPresence)},
	}}
}

func (e *edge) emergencyDrills() chapter {
	return chapter{"Emergency drills", "A scenario, a clock of three moments, and an ordinary demonstration, always in simulation. The times decide nothing; the checklist does.", []route{
		{"GET", "/drills", assessment.ReadBank, "list-drills", "Drills", on(e.drills)},
		{"PUT", "/drills/{id}", assessment.Observe, "begin-drill", "BeginDrill", on(e.beginDrill)},
		{"GET", "/drills/{id}", assessment.Observe, "show-drill", "Drill", on(e.drill)},
		{"PUT", "/drills/{id}/moments", assessment.Observe, "time-drill", "TimeDrill", on(e.timeDrill)},
		{"POST", "/scenarios", assessment.EditChecks, "add-scenario", "SaveScenario", on(e.addScenario)},
		{"GET", "/scenarios/{code}", assessment.ReadBank, "show-scenario", "Scenario", on(e.scenario)},
		{"PUT", "/scenarios/{code}", assessment.EditChecks, "save-scenario", "SaveScenario", on(e.saveScenario)},
		{"POST", "/scenarios/{code}/retirement", assessment.EditChecks, "retire-scenario", "RetireScenario", on(e.retireScenario)},
	}}
}

func (e *edge) practiceRules() chapter {
	return chapter{"Incidents and practice", "What was seen to go wrong and what that took away; the rules of practice that the agency uses. Nothing of it makes anybody current.", []route{
		{"GET", "/incidents", assessment.ReadRecords, "list-incidents", "Incidents", on(e.incidents)},
		{"POST", "/incidents", assessment.RecordIncident, "record-incident", "RecordIncident", on(e.recordIncident)},
		{"GET", "/incidents/{id}", assessment.ReadRecords, "show-incident", "IncidentDesk", on(e.incident)},
		{"POST", "/incidents/{id}/closing", assessment.CloseIncident, "close-incident", "CloseIncident", on(e.closeIncident)},
		{"POST", "/incidents/{id}/correction", assessment.Correct, "take-incident-back", "TakeIncidentBack", on(e.takeIncidentBack)},
		{"GET", "/practice", assessment.ReadReports, "show-practice", "Practice", on(e.practice)},
		{"PUT", "/practice", assessment.SetPractice, "set-practice", "SetPractice", on(e.setPractice)},
		{"GET", "/in-service", assessment.ReadReports, "show-in-service", "InService", on(e.inService)},
		{"POST", "/in-service", assessment.LogPractice, "add-session", "AddSession", on(e.addSession)},
		{"POST", "/in-service/{id}/correction", assessment.LogPractice, "take-session-back", "TakeSessionBack", on(e.takeSessionBack)},
		{"PUT", "/people/{id}/hired", assessment.EditPeople, "set-hired", "SetHired", on(e.setHired)},
		{"GET", "/supervision", assessment.ReadReports, "show-supervision", "Supervision", on(e.supervision)},
		{"POST", "/supervision", assessment.LogPractice, "add-supervision", "AddSupervision", on(e.addSupervision)},
		{"DELETE", "/supervision/{id}", assessment.LogPractice, "take-supervision-back", "TakeSupervisionBack", on(e.takeSupervisionBack)},
		{"PUT", "/clients/{id}/skilled-care", assessment.EditClients, "set-skilled-care", "SetSkilledCare", on(e.setSkilledCare)},
	}}
}

func (e *edge) broughtIn() chapter {
	return chapter{"Lists", "People, children, shifts and competencies from before, brought in from a file: looked at first, then all of it or nothing.", []route{
		{"GET", "/imports", assessment.BringIn, "list-imports", "Imports", on(e.listImports)},
		{"POST", "/imports", assessment.BringIn, "send-list", "SendList", on(e.sendList)},
		{"GET", "/imports/{id}", assessment.BringIn, "show-import", "Import", on(e.showImport)},
		{"POST", "/imports/{id}/carrying-out", assessment.BringIn, "carry-out-import", "CarryOutImport", on(e.carryOutImport)},
		{"DELETE", "/imports/{id}", assessment.BringIn, "drop-list", "DropList", on(e.dropList)},
		{"GET", "/people/{id}/carried-in", assessment.ReadRecords, "show-carried-in", "CarriedIn", on(e.carriedIn)},
	}}
}

func (e *edge) surveyPackets() chapter {
	return chapter{"Packets", "What a surveyor asks of one night or a period: answer, records, signatures, checklists in force then, and proofs.", []route{
		{"GET", "/packets", assessment.AskPacket, "list-packets", "PacketDesk", on(e.listPackets)},
		{"POST", "/packets", assessment.AskPacket, "ask-packet", "AskPacket", on(e.askPacket)},
		{"GET", "/packets/{id}", assessment.AskPacket, "show-packet", "PacketState", on(e.packetState)},
		{"GET", "/packets/{id}/packet.pdf", assessment.AskPacket, "print-packet", "Packet", as(pdf, e.packetPDF)},
		{"GET", "/packets/{id}/packet.json", assessment.AskPacket, "download-packet-data", "Packet", as(jsonText, e.packetData)},
		{"GET", "/packets/{id}/packet.zip", assessment.AskPacket, "download-packet", "Packet", as(zipped, e.packetZIP)},
	}}
}

func (e *edge) sealedLedger() chapter {
	return chapter{"Ledger", "Proof that records are as they were written: a Merkle tree whose heads are signed.", []route{
		{"GET", "/ledger/head", assessment.ReadLedger, "show-head", "LedgerHead", on(e.ledgerHead)},
		{"GET", "/ledger/extension", assessment.ReadLedger, "check-head", "Extends", on(e.ledgerExtension)},
		{"GET", "/ledger/entries", assessment.ReadEntries, "list-entries", "Entries", on(e.ledgerEntries)},
		{"GET", "/demonstrations/{id}/proof", assessment.ReadRecords, "prove-demonstration", "ProofOfDemonstration", on(e.demonstrationProof)},
		{"GET", "/certificates/{id}/proof", assessment.ReadRecords, "prove-certificate", "ProofOfCertificate", on(e.certificateProof)},
	}}
}

func (e *edge) keeping() chapter {
	return chapter{"Keeping and erasing", "How long records are kept; erasures, asked for by one person and carried out by another.", []route{
		{"GET", "/erasures", assessment.ReadErasures, "list-erasures", "Erasures", on(e.erasures)},
		{"POST", "/erasures", assessment.AskErasure, "ask-erasure", "AskErasure", on(e.askErasure)},
		{"POST", "/erasures/{id}/carrying-out", assessment.EraseHeld, "carry-out-erasure", "CarryOutErasure", on(e.carryOutErasure)},
		{"POST", "/erasures/{id}/dropping", assessment.AskErasure, "drop-erasure", "DropErasure", on(e.dropErasure)},
		{"PUT", "/retention", assessment.SetRetention, "set-retention", "SetRetention", on(e.setRetention)},
	}}
}

func (e *edge) itself() chapter {
	return chapter{"This API", "What this API can do, and what its problems mean.", []route{
		{"GET", "/openapi.json", public, "document-json", "", as(openAPIJSON, e.documentJSON)},
		{"GET", "/openapi.yaml", public, "document-yaml", "", as(openAPIYAML, e.documentYAML)},
		{"GET", "/problems/{kind}", public, "explain-problem", "", on(e.problemKind)},
	}}
}

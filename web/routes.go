package web

import (
	"net/http"

	"wellshown/assessment"
)

// A route is one page or one form: what it does, and how it is served.
type route struct {
	Method string
	Path   string
	Act    assessment.Act // what who asks must be allowed; empty for public pages
	Public bool
	handle func(*visit) error
}

// routes is the whole table of pages. A page that is not here is not served.
func (s *Site) routes() []route {
	get, post := http.MethodGet, http.MethodPost
	open := func(method, path string, h func(*visit) error) route {
		return route{Method: method, Path: path, Public: true, handle: h}
	}
	return []route{
		open(get, "/sign-in", s.signIn), open(post, "/sign-in", s.doSignIn),
		open(get, "/sign-in/passkey", s.passkeySignIn), open(post, "/sign-in/passkey", s.doPasskeySignIn),
		open(get, "/sign-in/code", s.signInCode), open(post, "/sign-in/code", s.doSignInCode),
		open(get, "/check", s.check), open(get, "/check/:code", s.check),
		open(get, "/health", s.health),
		open(get, "/link/:token", s.link), open(post, "/link/:token", s.takeLink),

		{get, "/", assessment.OwnAccount, false, s.landing},
		{post, "/sign-out", assessment.OwnAccount, false, s.signOut},
		{get, "/password", assessment.OwnAccount, false, s.password},
		{post, "/password", assessment.OwnAccount, false, s.changePassword},
		{get, "/account", assessment.OwnAccount, false, s.account},
		{get, "/account/held", assessment.OwnAccount, false, s.held},
		{get, "/account/held.json", assessment.OwnAccount, false, s.heldFile},
		{post, "/account/pin", assessment.SignRecord, false, s.setPIN},
		{post, "/account/pin/end", assessment.OwnAccount, false, s.endPIN},
		{post, "/account/sessions/end", assessment.OwnAccount, false, s.endSession},
		{post, "/account/sessions/others/end", assessment.OwnAccount, false, s.endOtherSessions},
		{post, "/account/devices/:id/revocation", assessment.OwnAccount, false, s.revokeDevice},
		{post, "/account/news", assessment.OwnAccount, false, s.putNewsAway},
		{get, "/account/passkeys", assessment.OwnAccount, false, s.passkeys},
		{post, "/account/passkeys", assessment.OwnAccount, false, s.newPasskey},
		{post, "/account/passkeys/new", assessment.OwnAccount, false, s.addPasskey},
		{post, "/account/passkeys/:id/removal", assessment.OwnAccount, false, s.removePasskey},
		{get, "/account/codes", assessment.OwnAccount, false, s.codes},
		{post, "/account/codes", assessment.OwnAccount, false, s.newCodes},
		{post, "/account/codes/confirmation", assessment.OwnAccount, false, s.confirmCodes},
		{post, "/account/codes/recovery", assessment.OwnAccount, false, s.renewRecovery},
		{post, "/account/codes/end", assessment.OwnAccount, false, s.endCodes},
		{get, "/today", assessment.ReadReports, false, s.today},
		{get, "/home", assessment.ReadStandings, false, s.home},
		{get, "/survey", assessment.LookUp, false, s.survey},
		{get, "/survey/access", assessment.OwnAccount, false, s.mySurvey},
		{get, "/survey-access", assessment.GiveRoles, false, s.access},
		{post, "/survey-access", assessment.GiveRoles, false, s.letIn},
		{post, "/survey-access/:id/end", assessment.GiveRoles, false, s.endAccess},
		{get, "/waiting", assessment.ReadRecords, false, s.waitingForSignature},

		{get, "/people", assessment.ReadReports, false, s.people},
		{get, "/people/new", assessment.EditPeople, false, s.newPerson},
		{post, "/people", assessment.EditPeople, false, s.addPerson},
		{get, "/people/:id", assessment.ReadStandings, false, s.person},
		{get, "/people/:id/edit", assessment.EditPeople, false, s.editPerson},
		{post, "/people/:id/edit", assessment.EditPeople, false, s.savePerson},
		{post, "/people/:id/papers", assessment.EditPeople, false, s.addPaper},
		{post, "/people/:id/papers/taking-back", assessment.EditPeople, false, s.takeBackPaper},
		{post, "/people/:id/taking-back", assessment.Correct, false, s.takeBack},
		{post, "/people/:id/withdrawals", assessment.Withdraw, false, s.withdraw},
		{post, "/people/:id/waivers", assessment.Waive, false, s.waive},
		{post, "/people/:id/reinstatements", assessment.Reinstate, false, s.reinstate},
		{post, "/people/:id/log", assessment.LogCare, false, s.logCare},
		{post, "/people/:id/leaving", assessment.EditPeople, false, s.leave},
		{post, "/people/:id/link", assessment.GiveRoles, false, s.makeLink},
		{post, "/people/:id/codes/end", assessment.GiveRoles, false, s.endCodesOf},
		{post, "/people/:id/vouching", assessment.VouchFor, false, s.vouch},
		{post, "/people/:id/devices/:device/revocation", assessment.EditPeople, false, s.revokeDeviceOf},
		{get, "/people/:id/carried-in", assessment.ReadRecords, false, s.carriedIn},
		{post, carriedPaperPath, assessment.BringIn, false, s.attachCarriedPaper},
		{get, "/people/:id/carried-in/papers/:paper", assessment.ReadRecords, false, s.carriedPaper},
		{post, "/people/:id/carried-in/:entry/removal", assessment.BringIn, false, s.removeCarriedIn},
		{get, importsPath, assessment.BringIn, false, s.imports},
		{post, importsPath, assessment.BringIn, false, s.sendList},
		{get, "/imports/templates/:name", assessment.ReadReports, false, s.listTemplate},
		{get, "/imports/:id", assessment.BringIn, false, s.importPreview},
		{post, "/imports/:id", assessment.BringIn, false, s.carryOutImport},
		{post, "/imports/:id/removal", assessment.BringIn, false, s.dropList},
		{get, "/tokens", assessment.GiveRoles, false, s.tokens},
		{post, "/tokens", assessment.GiveRoles, false, s.makeToken},
		{post, "/tokens/:id/revocation", assessment.GiveRoles, false, s.revokeToken},
		{get, "/erasures", assessment.ReadErasures, false, s.erasures},
		{post, "/erasures", assessment.AskErasure, false, s.askErasure},
		{post, "/erasures/retention", assessment.SetRetention, false, s.setRetention},
		{post, "/erasures/:id/carrying-out", assessment.EraseHeld, false, s.carryOutErasure},
		{post, "/erasures/:id/dropping", assessment.AskErasure, false, s.dropErasure},
		{get, "/appointments", assessment.ReadReports, false, s.appointments},
		{post, "/appointments", assessment.Appoint, false, s.proposeAppointment},
		{post, "/appointments/:id/agreement", assessment.Appoint, false, s.agreeAppointment},
		{post, "/appointments/:id/end", assessment.Appoint, false, s.endAppointment},
		{get, "/requirements", assessment.ReadReports, false, s.requirements},
		{post, "/requirements", assessment.EditRequirements, false, s.setRequirement},
		{post, "/requirements/:id/end", assessment.EditRequirements, false, s.endRequirement},

		{get, "/clients", assessment.ReadClients, false, s.clients},
		{get, "/clients/new", assessment.EditClients, false, s.newClient},
		{post, "/clients", assessment.EditClients, false, s.addClient},
		{get, "/clients/:id", assessment.ReadClients, false, s.client},
		{get, "/clients/:id/edit", assessment.EditClients, false, s.editClient},
		{post, "/clients/:id/edit", assessment.EditClients, false, s.saveClient},
		{get, "/clients/:id/parameters/new", assessment.SetParameters, false, s.newParameter},
		{post, "/clients/:id/parameters", assessment.SetParameters, false, s.setParameter},
		{get, "/clients/:id/equipment/new", assessment.EditClients, false, s.newEquipment},
		{post, "/clients/:id/equipment", assessment.EditClients, false, s.setEquipment},
		{post, "/clients/:id/team", assessment.EditClients, false, s.joinTeam},
		{post, "/clients/:id/team/:member/end", assessment.EditClients, false, s.endTeam},
		{get, "/clients/:id/readiness", assessment.ReadReadiness, false, s.readiness},
		{post, "/clients/:id/readiness", assessment.EditReadiness, false, s.startPlan},
		{post, "/clients/:id/readiness/evidence", assessment.EditReadiness, false, s.addEvidence},
		{post, "/clients/:id/readiness/waivers", assessment.WaiveCriterion, false, s.waiveCriterion},
		{post, "/clients/:id/readiness/waivers/end", assessment.WaiveCriterion, false, s.endWaiver},
		{post, "/clients/:id/readiness/criteria", assessment.EditReadiness, false, s.addCriterion},
		{post, "/clients/:id/readiness/criteria/:criterion", assessment.EditReadiness, false, s.changeCriterion},
		{post, "/clients/:id/readiness/criteria/:criterion/removal", assessment.EditReadiness, false, s.removeCriterion},
		{post, "/clients/:id/readiness/shifts", assessment.EditReadiness, false, s.planShift},
		{post, "/clients/:id/readiness/shifts/:shift/removal", assessment.EditReadiness, false, s.removeShift},
		{get, "/clients/:id/readiness.pdf", assessment.ReadReadiness, false, s.readinessPDF},

		{get, "/checklists", assessment.ReadChecklists, false, s.checklists},
		{post, "/checklists", assessment.EditChecklists, false, s.addChecklist},
		{get, "/catalogue/:code", assessment.ReadChecklists, false, s.starter},
		{post, "/catalogue/:code", assessment.EditChecklists, false, s.adopt},
		{post, "/skills/:id/revisions", assessment.EditChecklists, false, s.draftRevision},
		{get, "/revisions/:id", assessment.ReadChecklists, false, s.checklist},
		{get, "/revisions/:id/compare", assessment.ReadChecklists, false, s.compare},
		{get, "/revisions/:id/in-force", assessment.PutInForce, false, s.inForce},
		{post, "/revisions/:id/in-force", assessment.PutInForce, false, s.proposeInForce},
		{get, "/proposals/:id", assessment.PutInForce, false, s.proposal},
		{post, "/proposals/:id/agreement", assessment.PutInForce, false, s.agreeProposal},
		{post, "/proposals/:id/dropping", assessment.PutInForce, false, s.dropProposal},
		{post, "/revisions/:id/retirement", assessment.PutInForce, false, s.retire},
		{get, "/revisions/:id/source", assessment.EditChecklists, false, s.source},
		{post, "/revisions/:id/source", assessment.EditChecklists, false, s.saveSource},
		{post, "/revisions/:id/discarding", assessment.EditChecklists, false, s.discardDraft},
		{get, "/revisions/:id/blank.pdf", assessment.ReadChecklists, false, s.blankPDF},

		{get, bedsideSessionPath, assessment.Observe, false, s.bedsideSession},
		{get, "/demonstrations/new", assessment.Observe, false, s.start},
		{post, "/demonstrations", assessment.Observe, false, s.open},
		{get, "/demonstrations/:id", assessment.ReadRecords, false, s.record},
		{get, "/demonstrations/:id/marks", assessment.Observe, false, s.marking},
		{get, "/demonstrations/:id/marks/:step", assessment.Observe, false, s.marking},
		{post, "/demonstrations/:id/marks/:step", assessment.Observe, false, s.mark},
		{get, "/demonstrations/:id/stop", assessment.Observe, false, s.stop},
		{post, "/demonstrations/:id/stop", assessment.Observe, false, s.doStop},
		{post, "/demonstrations/:id/resumption", assessment.Observe, false, s.resume},
		{post, "/demonstrations/:id/discarding", assessment.Observe, false, s.discard},
		{get, "/demonstrations/:id/review", assessment.Observe, false, s.review},
		{post, attachPath, assessment.Observe, false, s.attachPage},
		{post, "/demonstrations/:id/pages/:number/removal", assessment.Observe, false, s.removePage},
		{get, "/demonstrations/:id/pages/:number", assessment.ReadRecords, false, s.paperPage},
		{post, "/demonstrations/:id/record", assessment.Observe, false, s.doRecord},
		{post, "/demonstrations/:id/signature", assessment.SignRecord, false, s.sign},
		{post, "/demonstrations/:id/correction", assessment.Correct, false, s.correct},
		{get, "/demonstrations/:id/record.pdf", assessment.ReadRecords, false, s.recordPDF},

		{get, "/skills-days", assessment.ReadSkillsDays, false, s.skillsDays},
		{post, "/skills-days", assessment.PlanSkillsDays, false, s.planSkillsDay},
		{get, "/skills-days/new", assessment.PlanSkillsDays, false, s.newSkillsDay},
		{get, "/skills-days/:id", assessment.ReadSkillsDays, false, s.skillsDay},
		{post, "/skills-days/:id", assessment.PlanSkillsDays, false, s.saveSkillsDay},
		{get, "/skills-days/:id/edit", assessment.PlanSkillsDays, false, s.editSkillsDay},
		{post, "/skills-days/:id/end", assessment.PlanSkillsDays, false, s.endSkillsDay},
		{get, "/skills-days/:id/cards.pdf", assessment.ReadSkillsDays, false, s.skillsDayCards},
		{get, "/skills-days/:id/learners/:learner", assessment.ReadSkillsDays, false, s.skillsCard},
		{get, "/skills-days/:id/stations/:station", assessment.ReadSkillsDays, false, s.station},
		{post, "/skills-days/:id/stations/:station/taking", assessment.Observe, false, s.takeAtStation},
		{post, "/skills-days/:id/stations/:station/passing", assessment.Observe, false, s.passOn},
		{get, "/skills-days/:id/stations/:station/learners/:learner", assessment.Observe, false, s.nameCheck},
		{post, "/skills-days/:id/stations/:station/learners/:learner", assessment.Observe, false, s.beginAtStation},

		{get, "/coverage", assessment.ReadReports, false, s.coverage},
		{get, "/coverage.pdf", assessment.ReadReports, false, s.coveragePDF},
		{get, "/coverage.csv", assessment.ReadReports, false, s.coverageCSV},
		{get, "/coverage.xlsx", assessment.ReadReports, false, s.coverageXLSX},
		{post, "/coverage/rest", assessment.EditRoster, false, s.setRest},
		{get, "/coverage/sharing", assessment.ReadReports, false, s.sharing},
		{post, "/coverage/sharing", assessment.EditRoster, false, s.giveShifts},
		{get, "/coverage/shifts/:shift", assessment.ReadReports, false, s.shift},
		{post, "/coverage/shifts/:shift/giving", assessment.EditRoster, false, s.giveShift},
		{post, "/coverage/shifts/:shift/removal", assessment.EditRoster, false, s.removeRosterShift},
		{get, "/clients/:id/roster", assessment.ReadReports, false, s.clientRoster},
		{post, "/clients/:id/roster/shifts", assessment.EditRoster, false, s.addRosterShift},
		{post, "/clients/:id/roster/patterns", assessment.EditRoster, false, s.addPattern},
		{post, "/clients/:id/roster/patterns/:pattern", assessment.EditRoster, false, s.changePattern},
		{post, "/clients/:id/roster/patterns/:pattern/end", assessment.EditRoster, false, s.endPattern},
		{post, "/clients/:id/roster/patterns/:pattern/days", assessment.EditRoster, false, s.setPatternDay},
		{post, "/clients/:id/roster/patterns/:pattern/days/lifting", assessment.EditRoster, false, s.liftPatternDay},
		{get, "/visits", assessment.ReadReports, false, s.visits},
		{get, "/visits.pdf", assessment.ReadReports, false, s.visitsPDF},
		{post, "/visits", assessment.PlanVisits, false, s.planVisit},
		{post, "/visits/proposal", assessment.PlanVisits, false, s.keepVisits},
		{get, "/visits/weeks", assessment.ReadReports, false, s.visitWeeks},
		{post, "/visits/weeks", assessment.PlanVisits, false, s.setAvailability},
		{post, "/visits/days-off", assessment.PlanVisits, false, s.addDaysOff},
		{post, "/visits/days-off/:id/removal", assessment.PlanVisits, false, s.removeDaysOff},
		{post, "/visits/ways", assessment.PlanVisits, false, s.setWay},
		{post, "/visits/ways/:id/removal", assessment.PlanVisits, false, s.removeWay},
		{get, "/visits/:id", assessment.ReadReports, false, s.oneVisit},
		{post, "/visits/:id", assessment.PlanVisits, false, s.moveVisit},
		{post, "/visits/:id/cancelling", assessment.PlanVisits, false, s.cancelVisit},

		{get, "/incidents", assessment.ReadRecords, false, s.incidents},
		{get, "/incidents/new", assessment.RecordIncident, false, s.newIncident},
		{post, "/incidents", assessment.RecordIncident, false, s.recordIncident},
		{get, "/incidents/:id", assessment.ReadRecords, false, s.incident},
		{post, "/incidents/:id/closing", assessment.CloseIncident, false, s.closeIncident},
		{post, "/incidents/:id/taking-back", assessment.Correct, false, s.takeIncidentBack},
		{get, "/practice", assessment.ReadReports, false, s.practice},
		{post, "/practice", assessment.SetPractice, false, s.setPractice},

		{get, "/standings", assessment.ReadReports, false, s.standings},
		{get, "/standings.csv", assessment.ReadReports, false, s.standingsCSV},
		{get, "/standings.xlsx", assessment.ReadReports, false, s.standingsXLSX},
		{get, "/overdue", assessment.ReadReports, false, s.overdue},
		{get, "/overdue.pdf", assessment.ReadReports, false, s.overduePDF},
		{get, "/overdue.csv", assessment.ReadReports, false, s.overdueCSV},
		{get, "/overdue.xlsx", assessment.ReadReports, false, s.overdueXLSX},
		{get, "/papers", assessment.ReadReports, false, s.papers},
		{get, "/readiness.pdf", assessment.ReadReadiness, false, s.chosenReadinessPDF},
		{get, "/transcript.pdf", assessment.ReadRecords, false, s.transcriptPDF},
		{get, "/blank.pdf", assessment.ReadChecklists, false, s.chosenBlankPDF},
		{get, "/certificates/:id", assessment.ReadRecords, false, s.certificate},
		{get, "/certificates/:id/certificate.pdf", assessment.ReadRecords, false, s.certificatePDF},

		{get, "/ledger", assessment.ReadLedger, false, s.ledger},
		{get, "/ledger/head.txt", assessment.ReadLedger, false, s.ledgerHead},
		{post, "/ledger/extension", assessment.ReadLedger, false, s.extension},
		{get, "/ledger/entries", assessment.ReadEntries, false, s.entries},
		{get, "/demonstrations/:id/proof", assessment.ReadRecords, false, s.demonstrationProof},
		{get, "/demonstrations/:id/proof.json", assessment.ReadRecords, false, s.demonstrationProofFile},
		{get, "/certificates/:id/proof", assessment.ReadRecords, false, s.certificateProof},
		{get, "/certificates/:id/proof.json", assessment.ReadRecords, false, s.certificateProofFile},
	}
}

// A Listed route is one line of the table, for whoever checks permissions.
type Listed struct {
	Method, Path string
	Act          assessment.Act
	Public       bool
}

// Table lists every page and form with the act it needs.
func Table() []Listed {
	var all []Listed
	for _, r := range (&Site{}).routes() {
		all = append(all, Listed{r.Method, r.Path, r.Act, r.Public})
	}
	return all
}

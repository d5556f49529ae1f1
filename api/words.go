package api

import "wellshown/assessment"

// said is what the document says of a route: a line, and what else is worth knowing.
type said struct{ summary, more string }

// inFull adds who may, as the permissions stand.
func (s said) inFull(act assessment.Act) string {
	who := "Open to everybody, without signing in."
	if act != public {
		who = "To " + string(act) + ": " + roles(act) + "."
	}
	if s.more == "" {
		return who
	}
	return s.more + "\n\n" + who
}

const (
	saidOnce   = "Sending the same again is harmless."
	signsAgain = "The signer is asked again: for their password, or for their PIN once they have signed in the session."
)

// words has an entry for every route, by its name; a test holds it to that.
var words = map[string]said{
	"sign-in":                {"Sign in", "Gives a token. A wrong address and a wrong password look alike. After five failed tries one has to wait."},
	"sign-out":               {"Sign out", "Ends the session of the token."},
	"list-tokens":            {"List the tokens of programs", "Those that were not revoked first, then the newest. The tokens themselves are kept nowhere."},
	"make-token":             {"Make a token for a program", "It is shown this once. It never allows more than its maker may do, signs nothing, and is dead once its maker has left or may no longer make tokens."},
	"revoke-token":           {"Revoke a token", "It is dead at once."},
	"me":                     {"Who I am", "The person, their roles and the acts that these allow."},
	"list-survey-access":     {"List what surveyors were let in for", "The newest first, also what is over."},
	"let-surveyor-in":        {"Let a surveyor in", "To the whole agency, or to people and children by name, for at most 30 days. The role surveyor alone opens nothing."},
	"end-survey-access":      {"End a surveyor's access", "They see nothing more by it from this instant. It stays listed."},
	"show-own-survey-access": {"Show what one was let in for", "As a surveyor; empty for everybody else."},
	"list-erasures":          {"List erasures", "How long records are kept, who has left, and every erasure that was asked for, with what became of it."},
	"ask-erasure":            {"Ask for an erasure", "Of what is held about somebody who has left, or a child who is no longer served, once the years are over for which it is kept. Nothing is erased before another administrator carries it out."},
	"carry-out-erasure":      {"Carry out an erasure", "Names, words, addresses, licence numbers, certificates and secrets go, and cannot be brought back. Ids, days, verdicts and hashes stay. Signed by another administrator than asked."},
	"drop-erasure":           {"Take back or refuse an erasure", "Whoever asked takes it back, another administrator refuses it. Nothing is erased."},
	"set-retention":          {"Set how long records are kept", "It erases nothing: it says from when on an erasure may be asked for."},
	"change-password":        {"Change one's own password", "All other sessions end; that of the token goes on. The PIN ends."},
	"take-link":              {"Use a link to choose a password", "The word at the end of a link that an administrator has handed over. It works once. All sessions end, and so does the PIN. A link that was forged, used, replaced or has run out is not found."},
	"my-account":             {"My account", "How I came to my password, whether I have a PIN, where I am signed in, and what has happened to the account."},
	"my-export":              {"All that is held about me", "One file with everything that names me, each part with what it is in plain words. No secrets, and of what I did to records of others only what it was and when. That it was made is written down."},
	"set-pin":                {"Set a PIN for signing", "Asks for the password. It is good for nothing but signing, and not for the first signature of a session. After five wrong tries in a row it is shut until it is set anew."},
	"end-pin":                {"Take one's PIN away", ""},
	"end-session":            {"End one of my sessions", "By its handle."},
	"end-other-sessions":     {"End all my other sessions", "The one that is used for this goes on."},

	"list-people":   {"List people", "By name. Caregivers see themselves only."},
	"add-person":    {"Add a person", "Roles are an administrator's to give. They choose a password themselves, by a link."},
	"show-person":   {"One person", ""},
	"edit-person":   {"Change what is known of a person", "All fields are set anew, but roles stay where they are left out. Refused where somebody has changed them since the version that was read."},
	"person-leaves": {"Say when somebody leaves", "From that day they cannot sign in and count for no child's team. What they signed stays."},
	"make-link":     {"Make a link by which somebody chooses a password", "An invitation for whoever has none yet, else one to set a new password. Shown once, to be handed over. It works once, and ends those before it."},
	"show-identity": {"How somebody came to their password", "Who made the links, when, and who vouched. Tells why they cannot sign yet."},
	"vouch":         {"Vouch for a person", "Says, signed, that it was seen to be them who chose the password. Not for whoever made the link. " + signsAgain},

	"show-qualifications": {"What is on file about a person", "Licences, resuscitation cards and appointments."},
	"record-licence":      {"Put a licence on file", ""},
	"record-card":         {"Put a resuscitation card on file", "One of the day of issue, the day of the course and the printed end must be given."},
	"list-appointments":   {"List appointments", "Those that count today, will, or wait for a second person."},
	"propose-appointment": {"Propose that somebody may observe", "It counts only once a second person has agreed, who is neither the one appointed nor the one who proposed."},
	"agree-appointment":   {"Agree to an appointment", "From today on it counts."},
	"end-appointment":     {"End an appointment", "Or turn down one that was proposed."},

	"list-clients":   {"List children", "By first name. Caregivers see those whom they look after."},
	"add-client":     {"Add a child", "By a short code and the first name, and nothing else."},
	"show-client":    {"One child", "With what is ordered, the equipment and the team."},
	"edit-client":    {"Change a child's code and first name", ""},
	"client-leaves":  {"Say when a child leaves", "From that day nobody needs to hold anything for them."},
	"set-parameters": {"Order values for a child", "What ranges in checklists are judged by. A number with its unit, or words; neither unsets the value."},
	"set-equipment":  {"Note a change of equipment", "From its day on, what was shown with another type no longer counts for the child in the skills that depend on it."},
	"add-to-team":    {"Put somebody on a child's team", ""},
	"end-on-team":    {"Set the last day on a child's team", ""},

	"list-skills":       {"List skills", "In teaching order, with the revisions of their checklists."},
	"add-checklist":     {"Add a skill with a checklist of one's own", "The checklist is YAML. It becomes a draft, and nothing is in force by it. Faults name the line."},
	"list-starters":     {"List starter checklists", "Those of the catalogue that the agency has not taken up yet."},
	"adopt-starter":     {"Take up a starter checklist", "As a draft: a starting point that a licensed clinician reviews, edits and puts in force."},
	"draft-revision":    {"Draft the next revision", "From the newest one."},
	"show-revision":     {"One revision with its steps", ""},
	"discard-draft":     {"Throw a draft away", ""},
	"show-source":       {"A revision as YAML", "For editing by hand."},
	"save-draft":        {"Put another text in place of a draft", "The body is YAML. The skill's code and scope stay. If-Match names the text that it was made from."},
	"compare-revisions": {"What makes a revision differ from an older one", ""},
	"put-in-force":      {"Put a draft in force", "The version is that of the text that was read; the revision that was in force is retired. Only with a current licence on file. " + signsAgain},
	"retire-revision":   {"Take a revision out of force", "With none in its place nobody can be seen in the skill. Only with a current licence on file. " + signsAgain},
	"print-blank":       {"A blank checklist for paper", ""},

	"list-sheets":   {"List my open sheets", ""},
	"open-sheet":    {"Open a demonstration", "Under an id of one's own, a UUID of version 7. What could not count in the end is refused now. " + saidOnce},
	"show-sheet":    {"One open sheet", "With its checklist, and what keeps it from being recorded."},
	"discard-sheet": {"Throw an open sheet away", "What was recorded cannot be thrown away."},
	"mark-steps":    {"Mark several steps", "All of them or, where one is refused, none."},
	"mark-step":     {"Mark a step", "A later word replaces an earlier one."},
	"unmark-step":   {"Take back what stands at a step", ""},
	"stop-sheet":    {"End the performance for safety", "Its outcome is then stopped for safety, whatever its score."},
	"go-on":         {"Take back that it was ended", "While the sheet is open."},
	"attach-page":   {"Attach a photo or scan of a paper", "To a sheet that was opened as from paper: the bytes of a JPEG, a PNG or a PDF, at most 8 MB. What it is is told by its content. It is kept as made anew, without what stood beside the picture; one that has the number is replaced."},
	"drop-page":     {"Take a photo or scan off", "While the sheet is open."},
	"record-sheet":  {"Record a demonstration", "The rules decide, and what stands on the sheet never changes again. " + saidOnce},

	"list-devices":  {"List my devices", "Those that are not revoked first, then the newest."},
	"enrol-device":  {"Enrol a device", "Keeps the public half of a key that was made on it. The key signs the sheets that are filled in there; it signs no record and opens nothing. " + saidOnce},
	"revoke-device": {"Revoke one of my devices", "At once: it gets no pack any more, and what it has not sent yet is not taken in. " + saidOnce},

	"tell-holding": {"Say what a device holds", "How many sheets one's own device holds that are not here: finished and not sent, refused, and being marked. The newest word stands, and is shown to whoever plans the day. No record comes of it."},
	"take-pack":    {"Take the day's pack", "What a device needs to fill in sheets without a network: people, children, the checklists in force with their rules, and where everybody stands. Refused to a device that is revoked. That it was taken is written down."},
	"send-sheet":   {"Send a sheet that was finished on a device", "Under the id that the device made, a UUID of version 7. The text is taken in as it was signed; the rules are asked again, and their answer stands. What is refused leaves nothing here. A pass needs all that opening and recording need; what went wrong is taken in whatever has become of the observer since. " + saidOnce},

	"list-demonstrations": {"List records", "Newest performance first. Caregivers see their own."},
	"list-awaiting":       {"List records that wait for my signature", ""},
	"show-demonstration":  {"One record", "With its marks, its outcome, every reason and the signatures."},
	"print-record":        {"The record of a demonstration, for paper", ""},
	"show-page":           {"A photo or scan of the paper that a record was typed in from", "As it was kept: JPEG, PNG or PDF. Of an open sheet for its observer alone."},
	"ask-passkey":         {"Ask a signer for their passkey", "The question for their browser, with what is signed in words. It stands for five minutes, is for this record, part and signer alone, and its first answer ends it, good or not. Nothing is signed yet: the answer is sent with the signature."},
	"sign":                {"Sign a record", "As its observer or its learner; both make it count. The last one of a competent, formal demonstration brings the certificate where it awards or renews. " + signsAgain + " Or for a passkey, once it was asked for. " + saidOnce},
	"correct":             {"Take a record back", "From today on it is as if it had never been. It stays readable, with the reason. " + signsAgain},

	"withdraw":        {"Withdraw a competency", "At once. Where a standing is withdrawn, its because names the withdrawal. " + signsAgain},
	"reinstate":       {"Reinstate a competency", "Lifts a withdrawal that waits for it. Nobody reinstates themselves. " + signsAgain},
	"waive":           {"Waive a requirement", "For some days. It makes nobody current and covers no shift. " + signsAgain},
	"take-back":       {"Take back what was written down by mistake", "Practice, teaching, a waiver, a withdrawal or a reinstatement: from today on it is as if it had never been. It stays readable, with the reason. Nobody takes back what is about themselves, nor a withdrawal that they signed. " + signsAgain},
	"take-back-paper": {"Take a licence or a card back", "From today on it is as if it had never been on file. " + signsAgain},
	"log":             {"Log teaching or practice", "Neither makes anyone competent."},

	"show-standing":     {"The standing of one person in one skill", "On any day, past or to come, folded from the records."},
	"list-standings":    {"All standings of one person", "What they hold or have to hold on a day."},
	"show-grid":         {"People by skills", "On a day."},
	"show-overdue":      {"What is overdue and what comes due", "Requirements that are not met on a day, or soon will not be."},
	"print-overdue":     {"The overdue report, for paper", ""},
	"table-grid":        {"The grid as a table", "CSV (RFC 4180): a line for each cell in which anything stands, of all who fit. A text that a spreadsheet would take for a formula has an apostrophe before it."},
	"sheet-grid":        {"The grid as a workbook", "XLSX (ISO/IEC 29500): the columns of the table; days and counts are typed as such, and texts are never formulas."},
	"table-overdue":     {"The overdue report as a table", "CSV (RFC 4180). A text that a spreadsheet would take for a formula has an apostrophe before it; the JSON has every text as it is."},
	"sheet-overdue":     {"The overdue report as a workbook", "XLSX (ISO/IEC 29500): the columns of the table; days and counts are typed as such, and texts are never formulas."},
	"list-requirements": {"List requirements", "In teaching order, past ones too."},
	"set-requirement":   {"Require a skill", "Of caregivers of a kind, of those of one child, of those of children with a kind of equipment."},
	"end-requirement":   {"Set the last day of a requirement", ""},

	"show-readiness":          {"Whether a child can go home", "Every criterion, met, not met or waived, with what is left to do."},
	"print-readiness":         {"The readiness report, for paper", ""},
	"start-plan":              {"Start a child's plan", "With the standard criteria, for what the family must hold. Each plan is then edited for its child."},
	"add-criterion":           {"Add a line to a plan", "With an id of one's own, sending the same again is harmless."},
	"edit-criterion":          {"Change a line of a plan", "How it is judged stays."},
	"remove-criterion":        {"Take a line off a plan", ""},
	"add-evidence":            {"State something about a line", "Signed with one's name. With an id of one's own, sending the same again is harmless."},
	"waive-criterion":         {"Waive a line", "Or one item of it, by name and with the reason. The report still shows it."},
	"end-criterion-waiver":    {"End the waiver of a line", "The line counts again."},
	"list-skills-days":        {"List skills days", "The newest first."},
	"plan-skills-day":         {"Plan a skills day", "For today or later, at most 24 stations and 200 learners. Each station's observer must be one who may observe its skill on that day. " + saidOnce},
	"show-skills-day":         {"Show a skills day", "Its stations, and for each learner what is due there, what comes first, what cannot count and why, what they showed on the day and where they go next."},
	"change-skills-day":       {"Change a skills day", "All of it: what is left out is taken off. Only until it is over or ended, and only with the version that was read."},
	"end-skills-day":          {"End a skills day", "Nothing begins at its stations any more. What was shown stays."},
	"print-skills-day-cards":  {"The cards of a skills day, for paper", "One page for each learner, to find their way by. A tick on it is no record."},
	"show-skills-day-card":    {"Show one learner of a skills day", ""},
	"show-skills-day-station": {"Show one station of a skills day", "Who is still to come, who is there, who has shown it."},
	"list-own-skills-days":    {"List the skills days that one observes at", "Those of a day that were not ended, with one's own stations and whoever comes: what an observer takes to the bedside."},
	"show-coverage":           {"Which shifts are covered", "Each shift against the standing of whoever is on it, on each day it touches. Due holds, waived covers nobody. Of today what is not over yet."},
	"print-coverage":          {"The coverage on paper", ""},
	"list-coverage-as-csv":    {"The coverage as a table", "RFC 4180, UTF-8. Days and times are those of the agency's clocks."},
	"list-coverage-as-xlsx":   {"The coverage as a workbook", "Days are days."},
	"show-shift-cover":        {"One shift, with who could take it", "And why everybody else cannot."},
	"give-shift":              {"Put somebody on a shift, or nobody", "Refused for whoever does not hold all that is needed, is of another kind or elsewhere at the time. Too little rest asks for a reason."},
	"propose-sharing":         {"Propose who takes several shifts", "As many as can be filled at once, each by another person, by who has the fewest hours that week. Nothing is changed."},
	"give-shifts":             {"Give several shifts", "All of them or none."},
	"set-rest":                {"Set the rest between two shifts", "In hours; of one person, for the whole agency."},
	"show-client-roster":      {"A child's weekly patterns and coming shifts", ""},
	"add-roster-shift":        {"Add a single shift", saidOnce},
	"change-roster-shift":     {"Change a single shift", "Refused where somebody has changed it since the version that was read, and once it is over."},
	"remove-roster-shift":     {"Take a single shift off the roster", "Before it begins."},
	"add-pattern":             {"Add a weekly pattern", saidOnce + " Whether somebody is current each week is what coverage tells."},
	"change-pattern":          {"Change a weekly pattern", "From today on: one that has begun ends yesterday, and another goes on with the days to come that are otherwise. Its id is in the answer."},
	"end-pattern":             {"End a weekly pattern", "No shift of it begins from today on. What was stays."},
	"set-pattern-day":         {"Have one day of a pattern otherwise", "Left out, somebody else, or other times."},
	"lift-pattern-day":        {"Have a day be as its pattern says", ""},
	"list-visits":             {"Show the plan of visits", "What is on it, what is proposed besides, and what no visit meets and why. Nothing is changed by it."},
	"plan-visit":              {"Plan a visit by hand", "Whether or not anything is due there. One on a day off, or one too many, is refused. " + saidOnce},
	"keep-visits":             {"Put proposed visits on the plan", "With the version that was read: a proposal that would be another one by now is a conflict."},
	"show-visit":              {"Show a visit, and what moving it would break", "Nothing is changed by it."},
	"move-visit":              {"Move a visit", "With the version of what was read to come of it."},
	"cancel-visit":            {"Take a visit off the plan", "What it met is proposed anew. What is over stays."},
	"plan-shift":              {"Plan an early shift", ""},
	"remove-shift":            {"Take a shift off the plan", ""},

	"list-certificates":   {"List certificates", "Newest first. Caregivers ask for their own."},
	"show-certificate":    {"One certificate", ""},
	"show-head":           {"The newest signed head of the ledger", "Keep its text outside this house: it proves later that nothing that was in the ledger has changed. What waited is sealed first."},
	"check-head":          {"Hold a head that was kept against the ledger of today", "The answer carries the consistency proof, so that it need not be believed."},
	"list-entries":        {"What was written, newest first", "Page by page; 100 entries unless told otherwise."},
	"prove-demonstration": {"What proves a demonstration and its signatures", "Each receipt can be checked with the agency's public key alone."},
	"prove-certificate":   {"What proves a certificate", "Each receipt can be checked with the agency's public key alone."},
	"print-certificate":   {"The certificate as it was issued", "Always the same bytes."},
	"check-certificate":   {"Check a certificate by its code", "What it says, and whether it still holds today."},
	"show-transcript":     {"All that a caregiver has shown and holds", ""},
	"print-transcript":    {"The transcript, for paper", ""},

	"document-json":   {"This document as JSON", ""},
	"document-yaml":   {"This document as YAML", ""},
	"explain-problem": {"What a kind of problem means", ""},
}

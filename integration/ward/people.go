package ward

import (
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Password is what everybody of the ward signs and signs in with; given is what
// the agency was founded with.
const (
	Password = "seven slow herons wade"
	given    = "grey stairs behind the mill"
)

// Proof is what everybody of the ward signs with.
var Proof = office.ByPassword(Password)

// Nurse adds a nurse.
func (w *Ward) Nurse(name string) assessment.Actor {
	w.tb.Helper()
	return w.person(name, assessment.Nurse, "", assessment.Caregiver)
}

// Aide adds an aide.
func (w *Ward) Aide(name string) assessment.Actor {
	w.tb.Helper()
	return w.person(name, assessment.Aide, "", assessment.Caregiver)
}

// Family adds a parent and puts them on their child's team from today.
func (w *Ward) Family(name string, child assessment.ClientID) assessment.Actor {
	w.tb.Helper()
	p := w.person(name, assessment.Family, "mother", assessment.Caregiver)
	w.Join(p, child)
	return p
}

// foundBeside adds the coordinator, who comes as the second founder: somebody whose
// password does not come from the administrator.
func (w *Ward) foundBeside(name string) assessment.Actor {
	w.tb.Helper()
	w.added++
	a := must(w.Office.FoundBeside(w.tb.Context(), office.SecondFounder{Code: w.code, Name: name, Role: assessment.Coordinator,
		Email: fmt.Sprintf("person-%d@ward.example", w.added), Password: given}))(w.tb)
	if err := w.Office.ChangePassword(w.tb.Context(), a, given, Password, ""); err != nil {
		w.tb.Fatalf("change the coordinator's password: %v", err)
	}
	return a
}

// Educator adds an educator with a licence on file that does not end, whom the
// coordinator has vouched for. They may observe nothing until somebody appoints them.
func (w *Ward) Educator(name string) assessment.Actor {
	w.tb.Helper()
	p := w.person(name, "", "", assessment.Educator)
	w.vouch(p)
	must(w.Office.RecordLicence(w.tb.Context(), w.Admin, p.Person, office.LicenceForm{Kind: "RN", Number: fmt.Sprintf("W-%04d", w.added)}))(w.tb)
	return p
}

// Surveyor adds somebody who was let in to read everything for thirty days, and
// changes nothing.
func (w *Ward) Surveyor(name string) assessment.Actor {
	w.tb.Helper()
	p := w.person(name, "", "", assessment.Surveyor)
	return w.LetIn(p, office.AccessForm{Whole: true})
}

// LetIn gives a surveyor access for thirty days and tells who they are with it.
func (w *Ward) LetIn(surveyor assessment.Actor, f office.AccessForm) assessment.Actor {
	w.tb.Helper()
	f.Person, f.Reason, f.Through = surveyor.Person, "The yearly survey.", w.Today().AddDays(assessment.LongestSurvey-1).String()
	must(w.Office.GiveAccess(w.tb.Context(), w.Admin, f))(w.tb)
	surveyor.Survey = must(w.Office.MySurvey(w.tb.Context(), surveyor))(w.tb).Survey
	return surveyor
}

// Unseeing adds a surveyor who was not let in yet.
func (w *Ward) Unseeing(name string) assessment.Actor {
	w.tb.Helper()
	return w.person(name, "", "", assessment.Surveyor)
}

// Administrator adds a second administrator, whom the coordinator has vouched for.
func (w *Ward) Administrator(name string) assessment.Actor {
	w.tb.Helper()
	p := w.person(name, "", "", assessment.Administrator)
	w.vouch(p)
	return p
}

// vouch has the coordinator vouch for somebody.
func (w *Ward) vouch(p assessment.Actor) {
	w.tb.Helper()
	if err := w.Office.Vouch(w.tb.Context(), w.Coordinator, p.Person, Proof); err != nil {
		w.tb.Fatalf("vouch for %s: %v", p.Name, err)
	}
}

// person adds somebody who signs in as person-N@ward.example with Password.
func (w *Ward) person(name string, kind assessment.CaregiverKind, relation string, roles ...assessment.Role) assessment.Actor {
	w.tb.Helper()
	w.added++
	form := office.PersonForm{Name: name, Kind: string(kind), Relation: relation, Email: fmt.Sprintf("person-%d@ward.example", w.added)}
	for _, r := range roles {
		form.Roles = append(form.Roles, string(r))
	}
	v := must(w.Office.AddPerson(w.tb.Context(), w.Admin, form))(w.tb)
	a := assessment.Actor{Agency: w.Admin.Agency, Person: v.ID, Name: v.Name, Roles: v.Roles}
	w.Take(w.Link(w.Admin, a), Password)
	return a
}

// Link has somebody make a link for somebody else, and gives its token.
func (w *Ward) Link(by, whom assessment.Actor) string {
	w.tb.Helper()
	made := must(w.Office.MakeLink(w.tb.Context(), by, whom.Person))(w.tb)
	_, token, _ := strings.Cut(made.URL, "/link/")
	return token
}

// Take uses a link to choose a password.
func (w *Ward) Take(token, password string) {
	w.tb.Helper()
	if err := w.Office.TakeLink(w.tb.Context(), office.LinkForm{Token: token, Password: password}); err != nil {
		w.tb.Fatalf("use a link: %v", err)
	}
}

// Email is the address that somebody signs in with.
func (w *Ward) Email(a assessment.Actor) string {
	w.tb.Helper()
	return must(w.Office.Person(w.tb.Context(), w.Admin, a.Person))(w.tb).Email
}

// Appoint gives an educator a founding appointment for some skills, from today
// for eleven months, proposed by the administrator and agreed by the second.
func (w *Ward) Appoint(educator, second assessment.Actor, skills ...string) assessment.AppointmentID {
	w.tb.Helper()
	a := must(w.Office.ProposeAppointment(w.tb.Context(), w.Admin, office.AppointmentForm{Person: educator.Person, Skills: skills,
		From: w.Today().String(), Through: w.Today().AddMonths(11).String(), Founding: true, Evidence: "Judged these at a teaching hospital."}))(w.tb)
	must(w.Office.AgreeAppointment(w.tb.Context(), second, a.ID))(w.tb)
	return a.ID
}

// Card puts a resuscitation card on file that was issued today: it lasts two
// years, to the end of the month.
func (w *Ward) Card(who assessment.Actor) {
	w.tb.Helper()
	must(w.Office.RecordCard(w.tb.Context(), w.Admin, who.Person, office.CardForm{Issuer: "Lifeline Courses", IssuedOn: w.Today().String()}))(w.tb)
}

package demo

import (
	"wellshown/assessment"
	"wellshown/assessment/catalog"
)

// domain is reserved for examples (RFC 2606), so that no mail can ever arrive.
const domain = "@larkmoor.example"

// staff are those who run the agency. The administrator founds it.
var (
	theAdministrator = member{"Margit Lund", "margit.lund", assessment.Administrator}
	theCoordinators  = []member{
		{"Ines Okafor", "ines.okafor", assessment.Coordinator},
		{"Bruno Castellanos", "bruno.castellanos", assessment.Coordinator},
	}
	theSurveyor  = member{"Priya Venkataraman", "priya.venkataraman", assessment.Surveyor}
	theEducators = []teacher{
		{member{"Noor Haddadin", "noor.haddadin", assessment.Educator}, "RN"},
		{member{"Tunde Bakare", "tunde.bakare", assessment.Educator}, "RRT"},
		{member{"Ewa Sobczyk", "ewa.sobczyk", assessment.Educator}, "RN"},
		{member{"Hélène Vasquez-Roy", "helene.vasquez-roy", assessment.Educator}, "RRT"},
	}
)

type member struct {
	name, mail string
	role       assessment.Role
}

type teacher struct {
	member
	licence string
}

// caregiver is somebody who learns and looks after children. Days are counted
// back from the last one.
type caregiver struct {
	name, mail string
	kind       assessment.CaregiverKind
	relation   string
	language   string
	joined     int
	children   []post
}

// post says since when somebody looks after a child.
type post struct {
	child string
	since int
}

func family(name, mail, relation, child string, joined int) caregiver {
	return caregiver{name: name, mail: mail, kind: assessment.Family, relation: relation, language: "en", joined: joined, children: []post{{child, joined}}}
}

func nurse(name, mail string, children ...post) caregiver {
	return caregiver{name: name, mail: mail, kind: assessment.Nurse, language: "en", joined: children[0].since, children: children}
}

func aide(name, mail string, children ...post) caregiver {
	return caregiver{name: name, mail: mail, kind: assessment.Aide, language: "en", joined: children[0].since, children: children}
}

func spanish(c caregiver) caregiver { c.language = "es"; return c }

// theCaregivers are forty: sixteen of the families, sixteen nurses, eight aides.
var theCaregivers = []caregiver{
	spanish(family("Inés Ocampo", "ines.ocampo", "mother", "7K", 86)),
	family("Tomasz Rybak", "tomasz.rybak", "father", "7K", 86),
	family("Łucja Wrona", "lucja.wrona", "mother", "4B", 430),
	family("Marek Wrona", "marek.wrona", "father", "4B", 260),
	family("Fatoumata Diallo", "fatoumata.diallo", "mother", "2C", 690),
	family("Ibrahima Diallo", "ibrahima.diallo", "father", "2C", 420),
	spanish(family("Marisol Quintana", "marisol.quintana", "mother", "9R", 540)),
	spanish(family("Consuelo Peña", "consuelo.pena", "grandmother", "9R", 22)),
	family("Zoë Brannigan", "zoe.brannigan", "mother", "3F", 330),
	family("Wiremu Brannigan", "wiremu.brannigan", "father", "3F", 300),
	family("Ελένη Δήμου", "eleni.dimou", "mother", "6T", 200),
	family("Νίκος Δήμου", "nikos.dimou", "father", "6T", 18),
	family("Siobhán Ní Dhálaigh", "siobhan.nidhalaigh", "mother", "5W", 300),
	family("Ørjan Solberg", "orjan.solberg", "father", "5W", 30),
	family("Renée Tremblay-Côté", "renee.tremblay-cote", "mother", "8M", 120),
	family("Guðrún Ásgeirsdóttir", "gudrun.asgeirsdottir", "aunt", "8M", 120),

	nurse("Ruth Adeyemi", "ruth.adeyemi", post{"2C", 690}, post{"7K", 62}),
	nurse("Zofia Bałut", "zofia.balut", post{"9R", 400}, post{"7K", 58}),
	nurse("Amal Haddad", "amal.haddad", post{"4B", 450}),
	nurse("Imre Kovács", "imre.kovacs", post{"9R", 530}),
	nurse("Dana Orlova", "dana.orlova", post{"3F", 300}),
	nurse("Chidi Okoro", "chidi.okoro", post{"3F", 450}),
	nurse("Sam Whitlock", "sam.whitlock", post{"4B", 260}),
	nurse("Ольга Мартин", "olga.martin", post{"6T", 230}),
	nurse("João Teixeira", "joao.teixeira", post{"5W", 200}),
	nurse("Šárka Nováková", "sarka.novakova", post{"5W", 95}),
	nurse("Gülşen Yıldız", "gulsen.yildiz", post{"6T", 240}),
	nurse("Mei-Ling Zhao", "mei-ling.zhao", post{"2C", 26}),
	nurse("Þóra Jónsdóttir", "thora.jonsdottir", post{"8M", 115}),
	nurse("Nguyễn Văn Minh", "minh.nguyen", post{"8M", 110}),
	nurse("Aroha Rangi", "aroha.rangi", post{"4B", 34}),
	nurse("Pádraig Byrne", "padraig.byrne", post{"2C", 400}),

	aide("Jo Lindqvist", "jo.lindqvist", post{"4B", 220}),
	aide("Beatriz Sá", "beatriz.sa", post{"9R", 250}),
	aide("Ștefania Ionescu", "stefania.ionescu", post{"2C", 150}),
	aide("Kwame Boateng", "kwame.boateng", post{"3F", 340}),
	aide("Ifeoma Eze", "ifeoma.eze", post{"5W", 45}),
	aide("Lars Østergaard", "lars.ostergaard", post{"6T", 12}),
	aide("Milica Đurić", "milica.duric", post{"2C", 7}),
	aide("Tala Reyes", "tala.reyes", post{"7K", 4}),
}

// Those who have a part of their own.
const (
	ines, tomasz    = "Inés Ocampo", "Tomasz Rybak"
	renee, gudrun   = "Renée Tremblay-Côté", "Guðrún Ásgeirsdóttir"
	ruth, zofia     = "Ruth Adeyemi", "Zofia Bałut"
	thora, minh     = "Þóra Jónsdóttir", "Nguyễn Văn Minh"
	lucja           = "Łucja Wrona"
	amal, sam, dana = "Amal Haddad", "Sam Whitlock", "Dana Orlova"
	imre, chidi     = "Imre Kovács", "Chidi Okoro"
	joao, gulsen    = "João Teixeira", "Gülşen Yıldız"
	padraig, kwame  = "Pádraig Byrne", "Kwame Boateng"
	jo, wiremu      = "Jo Lindqvist", "Wiremu Brannigan"
	marek, beatriz  = "Marek Wrona", "Beatriz Sá"
	sarka           = "Šárka Nováková"
)

// needs are the skills that each kind of caregiver has to hold. Aides change no
// tubes and no circuits: in many places they may not.
var needs = map[assessment.CaregiverKind][]string{
	assessment.Family: everything,
	assessment.Nurse:  everything,
	assessment.Aide:   {"bagging", "suction", "cpr-trach", "humidifier", "go-bag"},
}

var everything = catalog.Codes()

package web

import "wellshown/assessment/wording"

// Frame is the part of a page that the layout draws around it: every page
// struct embeds one, and one place fills it.
type Frame struct {
	Agency   string // name of the agency; empty on public pages
	Person   string // name of who is signed in; empty = nobody
	PersonID string // for the link to their own record
	Menu     []Entry
	CSRF     string           // goes into every form as "csrf"
	Flash    string           // one sentence about what was just done; shown once
	Demo     bool             // this is the demo: invented people, say so above all
	PIN      bool             // for what they sign their PIN is enough now
	News     int              // what happened to their account that they have not read
	Path     string           // path and query of this page, to come back to after a password
	Language wording.Language // of the reader, in which the page is written
	Tongues  []Tongue         // the same page in other languages, where nobody is signed in
	Lost     bool             // what was sent just now was not taken, and the browser may keep it
	Passkeys string           // whether passkeys can be used: empty, offered (by anybody), own (also by who is signed in)
}

func (f Frame) frame() Frame { return f }

// Words says things in the reader's language.
func (f Frame) Words() wording.Words { return wording.In(f.Language) }

// NoFaults is for forms that cannot fail, such as filters.
func (f Frame) NoFaults() Faults { return Faults{} }

// An Entry is one place in the navigation, by its key; the layout has the
// words and the address of each.
type Entry struct {
	Key  string // home, today, start, standings, people, children, checklists, papers, survey, my
	Here bool   // this page is in that place
}

// menus are the places of each role, first the page that answers its first
// question.
var menus = map[string][]string{
	"coordinator":   {"today", "standings", "people", "children", "checklists", "papers"},
	"administrator": {"today", "standings", "people", "children", "checklists", "papers"},
	"educator":      {"today", "start", "standings", "people", "children", "checklists", "papers"},
	"surveyor":      {"survey", "standings", "people", "children", "checklists", "papers"},
	"caregiver":     {"home", "learn", "children", "checklists"},
}

var menuOrder = []string{"today", "survey", "home", "learn", "start", "standings", "people", "children", "checklists", "papers"}

// MenuFor gives the navigation for somebody's roles, each place once, with
// the place "here" marked. No role gives no menu.
func MenuFor(roles []string, here string) []Entry {
	wanted := map[string]bool{}
	for _, role := range roles {
		for _, key := range menus[role] {
			wanted[key] = true
		}
	}
	var menu []Entry
	for _, key := range menuOrder {
		if wanted[key] {
			menu = append(menu, Entry{Key: key, Here: key == here})
		}
	}
	return menu
}

// declaredPages are all pages there are. A template file without its page
// here stops the program at start.
var declaredPages = []Page{
	SignInPage{}, PasswordPage{}, LinkPage{}, LinkMadePage{}, AccountPage{}, HeldPage{}, ErrorPage{},
	PasskeysPage{}, PasskeyPage{}, CodesPage{}, NewCodesPage{}, RecoveryPage{}, SignInCodePage{},
	TokensPage{}, TokenMadePage{}, AccessPage{}, SurveyAccessPage{}, ErasuresPage{},
	CoordinatorTodayPage{}, EducatorTodayPage{}, FamilyHomePage{}, SurveyorHomePage{},
	PeoplePage{}, PersonPage{}, PersonFormPage{},
	ClientsPage{}, ClientPage{}, ClientFormPage{}, ParameterFormPage{}, EquipmentFormPage{}, HomePapersPage{},
	ChecklistsPage{}, ChecklistPage{}, ComparePage{}, InForcePage{}, ProposalPage{}, DraftPage{},
	StartPage{}, MarkingPage{}, StopPage{}, ReviewPage{}, RecordPage{},
	StandingsPage{}, OverduePage{}, ReadinessPage{}, PlanTemplatePage{}, HouseholdPage{},
	CertificatePage{}, CheckPage{}, HandoverPage{}, HandoverCheckPage{}, NeighboursPage{}, LedgerPage{}, EntriesPage{}, ProofPage{},
	RequirementsPage{}, AppointmentsPage{}, PapersPage{}, WaitingPage{},
	CoveragePage{}, ShiftPage{}, SharingPage{}, ClientRosterPage{},
	SkillsDaysPage{}, SkillsDayFormPage{}, SkillsDayPage{}, SkillsCardPage{}, StationPage{}, NameCheckPage{},
	PacketsPage{}, PacketPage{},
	VisitsPage{}, VisitMovePage{}, VisitWeeksPage{},
	RemindersPage{}, CalendarsPage{},
	LearnPage{}, LessonPage{}, LessonCopyPage{}, KeptPage{}, LessonsPage{}, LessonVersionPage{}, LessonDraftPage{}, LessonForcePage{}, LessonComparePage{},
	DrillsPage{}, ScenarioPage{}, ScenarioFormPage{}, DrillStartPage{}, DrillPage{},
	ChecksPage{}, SittingPage{}, SittingResultPage{}, CheckBankPage{}, ItemPage{},
	ImportsPage{}, ImportPage{}, CarriedInPage{},
	IncidentsPage{}, IncidentFormPage{}, IncidentPage{}, PracticePage{}, InServicePage{}, SupervisionPage{},
	LearningPage{}, PlanPage{}, LearningDaysPage{}, TeachingPage{}, PractisePage{}, PracticeRunPage{},
}

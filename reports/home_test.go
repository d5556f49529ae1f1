package reports

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func numbered(s string) *assessment.Number { n := assessment.MustNumber(s); return &n }

// atHome is an invented child of whom everything is on record.
func atHome(t testing.TB) office.HomeView {
	t.Helper()
	return office.HomeView{Client: office.ClientRef{Code: "7K", FirstName: "Mira"}, Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}, At: issued.In(denver(t)),
		HomeRecord: assessment.HomeRecord{FirstName: "Mira", Code: "7K", Tube: numbered("3.5"), SmallTube: numbered("3"), Catheter: numbered("7"), SmallCatheter: numbered("6"),
			NoSmallerPlan: "not needed", Call: assessment.CallAtOnce, CallWords: "at once", Air: assessment.AirOpen, AirWords: "open", BatteryMinutes: numbered("240"),
			KitPlace: phrase.Own{English: "On the hook at the head of the bed", Spanish: "En el gancho a la cabecera de la cama"},
			Contacts: []assessment.HomeContact{{Role: assessment.EmergencyNumber, Telephone: "911", Place: 1}, {Role: assessment.HospitalTeam, Name: "Breathing team, Tarn Children’s", Telephone: "555 0140", Place: 2},
				{Role: assessment.EquipmentCompany, Name: "Alder Home Equipment", Telephone: "555 0161", Place: 3}, {Role: assessment.HomeCareAgency, Name: "Larkmoor Home Nursing", Telephone: "555 0100", Place: 4},
				{Role: assessment.PowerCompany, Name: "Valley Power", Telephone: "555 0177"}, {Role: assessment.FireService, Name: "Larkmoor Fire Station", Telephone: "555 0188"}},
			Equipment: []assessment.HomeEquipment{
				{Kind: "ventilator", Type: "portable turbine, type A", Supplier: "Alder Home Equipment", Telephone: "555 0161", CheckedBy: assessment.CheckedByCarer, CheckedWhen: assessment.EachShift},
				{Kind: "suction unit", Type: "portable, type S", Supplier: "Alder Home Equipment", Telephone: "555 0161", CheckedBy: assessment.CheckedByFamily, CheckedWhen: assessment.EachDay},
				{Kind: "tracheostomy tube", Type: "3.5 mm, uncuffed", Supplier: "Tarn Children’s", Telephone: "555 0140", CheckedBy: assessment.CheckedByNurse, CheckedWhen: assessment.EachWeek}}}}
}

// unknown is a child of whom nothing is on record but a name and a code.
func unknown(t testing.TB) office.HomeView {
	v := atHome(t)
	v.HomeRecord = assessment.HomeRecord{FirstName: "Mira", Code: "7K"}
	return v
}

func drawnHome(t *testing.T, called string, v office.HomeView, which assessment.HomePaper, in wording.Language) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return homePaper(v, which, in) })
}

func TestHomePapersInEachLanguage(t *testing.T) {
	for _, which := range assessment.HomePapers {
		for _, l := range wording.Languages {
			called := string(which) + "-" + string(l)
			golden(t, called, drawnHome(t, called, atHome(t), which, l))
			drawnHome(t, called+"-open", unknown(t), which, l)
		}
	}
}

// What is missing is a line to fill in by hand, one for each that the page tells of: no more
// and no less, on each paper and in each language (common practice, no source).
func TestWhatIsMissingIsALineToFillIn(t *testing.T) {
	for _, which := range assessment.HomePapers {
		for _, l := range wording.Languages {
			open := func(v office.HomeView) int {
				p, err := homePaper(v, which, l)
				if err != nil {
					t.Fatal(err)
				}
				finished(t, p)
				return rules(p)
			}
			whole := open(atHome(t))
			if n := len(atHome(t).Missing(which)); n != 0 {
				t.Fatalf("%s: %d things of a whole record are missing", which, n)
			}
			for name, forget := range forgotten {
				v := atHome(t)
				forget(&v)
				missing := v.Missing(which)
				if got := open(v) - whole; got != len(missing) {
					t.Errorf("%s in %s without %s: %d lines to fill in, and the page tells of %v", which, l, name, got, missing)
				}
			}
		}
	}
}

// forgotten takes one thing each from the record.
var forgotten = map[string]func(*office.HomeView){
	"the tube":                func(v *office.HomeView) { v.Tube = nil },
	"the smaller tube":        func(v *office.HomeView) { v.SmallTube = nil },
	"one that is smaller":     func(v *office.HomeView) { v.SmallTube = numbered("3.5") },
	"the catheter":            func(v *office.HomeView) { v.Catheter = nil },
	"the smaller catheter":    func(v *office.HomeView) { v.SmallCatheter = nil },
	"a plan for the smallest": func(v *office.HomeView) { v.Tube, v.SmallTube = numbered("2.5"), nil },
	"a rule to call":          func(v *office.HomeView) { v.Call, v.CallWords = assessment.CallNotSaid, "" },
	"a place of the kit":      func(v *office.HomeView) { v.KitPlace = phrase.Own{} },
	"a battery":               func(v *office.HomeView) { v.BatteryMinutes = nil },
	"a telephone":             func(v *office.HomeView) { v.Contacts = slices.Delete(slices.Clone(v.Contacts), 1, 2) },
	"who checks":              func(v *office.HomeView) { v.Equipment[0].CheckedBy = "" },
	"when it is checked":      func(v *office.HomeView) { v.Equipment[1].CheckedWhen = "" },
	"a supplier":              func(v *office.HomeView) { v.Equipment[1].Supplier, v.Equipment[1].Telephone = "", "" },
	"letters":                 func(v *office.HomeView) { v.Contacts = v.Contacts[:4] },
}

// rules counts the lines to write on.
func rules(p *paper) int {
	n := 0
	for _, page := range p.pages {
		for _, it := range page {
			if f, ok := it.(figure); ok && f.pen == 0.6 && len(f.path) == 2 && f.path[0].y == f.path[1].y {
				n++
			}
		}
	}
	return n
}

// Whether air can pass is not guessed either: two boxes stand in its place.
func TestTheCardAsksForTheAirway(t *testing.T) {
	v := atHome(t)
	v.Air, v.AirWords = assessment.AirNotSaid, ""
	path := drawnHome(t, "card-air", v, assessment.EmergencyCard, wording.English)
	says(t, path, "mouth and nose", "no upper airway", "Give air the way you were taught.")
	saysNot(t, path, "Air can pass", "only the stoma will do")
	if got := v.Missing(assessment.EmergencyCard); len(got) != 1 {
		t.Errorf("missing: %v", got)
	}
	v.Air = assessment.AirNone
	path = drawnHome(t, "card-stoma", v, assessment.EmergencyCard, wording.Spanish)
	says(t, path, "Sin vía aérea superior: solo sirve el estoma.", "Dé aire solo con la mascarilla pequeña en el estoma.")
	saysNot(t, path, "boca y nariz")
}

var lineBox = regexp.MustCompile(`<word xMin="[\d.]+" yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">([^<]*)</word>`)

// The card is read at arm's length: its main lines are at least 18 points high, by the
// drawing and by what pdftotext measures, and what says which size is which at least 14. 18
// points is what is commonly called large print (from memory: American Printing House for the
// Blind); that a card for the bedside should be in it is common practice, no source. At 70 cm a
// small letter of 18 points, about 3.3 mm high, is seen under 16 minutes of arc, three times
// what normal sight makes out (5 minutes: ISO 8596, from memory).
func TestTheCardIsReadAtArmsLength(t *testing.T) {
	for _, l := range wording.Languages {
		v := atHome(t)
		path := drawnHome(t, "arms-length", v, assessment.EmergencyCard, l)
		p, err := homePaper(v, assessment.EmergencyCard, l)
		if err != nil {
			t.Fatal(err)
		}
		finished(t, p)
		words := wording.In(l)
		main := []string{"911", "555 0140", "555 0161", "555 0100", "3.5 mm", "3.0 mm", "7 Fr", "6 Fr", words.Own(v.KitPlace), words.Of(v.CallSays()), words.Of(v.AirSays())}
		for _, s := range append(v.TubeOutSteps(), v.BlockedSteps()...) {
			main = append(main, words.Of(s))
		}
		for _, said := range main {
			if size := smallest(p, said); size < 18 {
				t.Errorf("%s: %q is set in %g points", l, said, size)
			}
		}
		for _, called := range []string{"tube", "smaller tube", "suction catheter", "for the smaller tube"} {
			if size := sizeOf(p, words.Say(called)); size < 14 {
				t.Errorf("%s: %q is set in %g points", l, called, size)
			}
		}
		heights := map[string]float64{}
		for _, m := range lineBox.FindAllStringSubmatch(tool(t, "pdftotext", "-bbox", path, "-"), -1) {
			top, _ := strconv.ParseFloat(m[1], 64)
			foot, _ := strconv.ParseFloat(m[2], 64)
			heights[m[3]] = max(heights[m[3]], foot-top)
		}
		for _, word := range []string{"911", "3.5", "Fr"} {
			if heights[word] < 18 {
				t.Errorf("%s: %q stands %g points high on the page", l, word, heights[word])
			}
		}
	}
}

// smallest is the least size in which the words of a text are set, at its largest place.
func smallest(p *paper, said string) float64 {
	rest, best := strings.Fields(said), 99.0
	for _, page := range p.pages {
		for _, it := range page {
			w, ok := it.(writing)
			if !ok {
				continue
			}
			line := strings.Fields(w.text)
			if len(rest) > 0 && w.size >= 18 && len(line) <= len(rest) && slices.Equal(line, rest[:len(line)]) {
				rest, best = rest[len(line):], min(best, w.size)
			}
		}
	}
	if len(rest) > 0 {
		return 0
	}
	return best
}

// sizeOf is the size in which a line stands by itself; 0 where there is none.
func sizeOf(p *paper, said string) float64 {
	for _, page := range p.pages {
		for _, it := range page {
			if w, ok := it.(writing); ok && w.text == said {
				return w.size
			}
		}
	}
	return 0
}

// The card says what the lessons say: each of its steps is one of theirs, by the words that
// must not differ (the starter lessons).
func TestTheCardAgreesWithTheLessons(t *testing.T) {
	same := map[string]map[wording.Language][]string{
		"decannulation": {wording.English: {"roll under the shoulders", "bturator out at once", "chest rise", "smaller tube", "normal breathing? Start CPR.", "Shout for help"},
			wording.Spanish: {"un rollo bajo los hombros", "aque el obturador enseguida", "suba el pecho", "la más pequeña", "no respira normal? Empiece la reanimación", "Pida ayuda a gritos"}},
		"blocked-tube": {wording.English: {"ake everything off the tube", "ass the suction catheter to the mark, once", "ot breathing", "hout for help", "bturator out at once"},
			wording.Spanish: {"uite todo lo que está en la cánula", "ase la sonda de aspiración hasta la marca, una vez", "acíe el balón, suelte las cintas", "aque el obturador enseguida"}},
	}
	for code, languages := range same {
		for l, words := range languages {
			taught, err := catalog.Lesson(code, l)
			if err != nil {
				t.Fatal(err)
			}
			lesson := strings.Join(taught.Passages(), " ")
			path := drawnHome(t, "agrees", atHome(t), assessment.EmergencyCard, l)
			card := said(t, path)
			for _, w := range words {
				if !strings.Contains(card, w) {
					t.Errorf("%s: the card does not say %q", l, w)
				}
				if !strings.Contains(lesson, w) {
					t.Errorf("%s %s: the lesson does not say %q", code, l, w)
				}
			}
		}
	}
}

// The list has a line for each of the things that the starter checklist of the go-bag asks for.
func TestTheBagListFollowsItsChecklist(t *testing.T) {
	list, err := catalog.Get("go-bag")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[int]bool{}
	for _, item := range assessment.GoBag() {
		listed[item.Step] = true
	}
	for _, section := range list.Sections {
		for _, step := range section.Steps {
			if want := step.No >= 3 && step.No <= 22; listed[step.No] != want {
				t.Errorf("step %d, %s: on the list %t", step.No, step.Text, listed[step.No])
			}
		}
	}
}

// Both published limits are named beside the exact ratio: UK National Tracheostomy Safety
// Project, AARC 2010, and Russell and Matta, p. 334.
func TestTheBagListShowsSizesExactly(t *testing.T) {
	v := atHome(t)
	v.Tube, v.Catheter = numbered("4"), numbered("6")
	path := drawnHome(t, "sizes-en", v, assessment.GoBagList, wording.English)
	says(t, path, "6 Fr is 2.000 mm wide: 1/2 of the tube’s 4.0 mm, 50.0 %", "Of the opening it takes up 25.0 %.", "Not within: less than half (AARC, 2010).",
		"Within: at most half (UK National Tracheostomy Safety Project).", "handbook, p. 334")
	v.Tube, v.Catheter = numbered("2.5"), numbered("5")
	v.SmallTube, v.SmallCatheter, v.NoSmallerPlan = nil, nil, "Bag over mouth and nose, and call."
	path = drawnHome(t, "sizes-smallest", v, assessment.GoBagList, wording.English)
	says(t, path, "5 Fr is 1.667 mm wide: 2/3 of the tube’s 2.5 mm, 66.7 %", "none, at most half (UK National Tracheostomy Safety Project): ask the team", "5 Fr, at most 70 %",
		"No smaller tube is made.", "Bag over mouth and nose, and call.")
}

// A letter that strangers read names no child and no diagnosis.
func TestLettersNameNoChild(t *testing.T) {
	for _, which := range []assessment.HomePaper{assessment.PowerLetter, assessment.FireLetter} {
		for _, l := range wording.Languages {
			saysNot(t, drawnHome(t, "letter", atHome(t), which, l), "Mira", "7K", "racheostomy", "raqueostomía", "3.5")
		}
	}
}

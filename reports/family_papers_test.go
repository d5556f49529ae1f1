package reports

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	sketch "wellshown/assessment/drawing"
	"wellshown/assessment/office"
	"wellshown/assessment/reading"
	"wellshown/assessment/wording"
)

// familyPaper is a paper that a family gets, drawn in a language. The letters are among them: a
// company reads them, but the family signs them.
type familyPaper struct {
	draw func(t testing.TB, l wording.Language) (*paper, error)
	data []string // what people, an agency or a maker wrote, which stays as it is
}

// familyPapers are all of them.
func familyPapers() map[string]familyPaper {
	all := map[string]familyPaper{
		"certificate": {draw: func(t testing.TB, l wording.Language) (*paper, error) {
			f := certificateFacts(t, "Rosa Quintero")
			f.Language = string(l)
			return certificate(f)
		}},
		"record": {draw: func(t testing.TB, l wording.Language) (*paper, error) { return record(circuitChange(t), l) },
			data: []string{"type A", "single limb, leak port", "heated", "8s", "no reusable probe", "as on the card of 2 November"}},
		"transcript": {draw: func(t testing.TB, l wording.Language) (*paper, error) {
			v := ofLucja(t)
			v.Standings.Person.Relation = "mother"
			v.Checks = []office.PassedCheck{{Called: office.CalledAs(office.SkillRef{Code: "suction"}), On: theDay, Through: theDay, Holds: true, Right: 9, Of: 10}, {Called: office.CalledAs(office.SkillRef{Code: "bagging"}), On: theDay, Right: 9, Of: 10}}
			return transcript(v, l)
		}, data: []string{"Planned tracheostomy tube change"}},
		"knowledge check": {draw: func(t testing.TB, l wording.Language) (*paper, error) { return sitting(ofTheFather(t, string(l))) }, data: []string{"José Prado"}},
		"learning plan": {draw: func(t testing.TB, l wording.Language) (*paper, error) {
			return learningPlan(ofTheMother(), wording.In(l))
		},
			data: []string{"Our own bag", "Another’s"}},
		"readiness": {draw: func(t testing.TB, l wording.Language) (*paper, error) { return readiness(toGoHome(t), wording.In(l)) },
			data: []string{"Planned tracheostomy tube change", "Resuscitation with a tracheostomy", "settled well", "not ordered for Mira"}},
	}
	for _, which := range assessment.HomePapers {
		all[string(which)] = familyPaper{draw: func(t testing.TB, l wording.Language) (*paper, error) { return homePaper(atHome(t), which, l) },
			data: []string{"Breathing team, Tarn Children’s", "Tarn Children’s", "Alder Home Equipment", "Valley Power", "Larkmoor Fire Station", "portable turbine, type A", "portable, type S", "3.5 mm, uncuffed"}}
	}
	for _, code := range catalog.Codes() {
		all["lesson "+code] = familyPaper{draw: func(t testing.TB, l wording.Language) (*paper, error) { return lessonDrawn(t, code, l) }}
	}
	return all
}

// lessonDrawn is a starter lesson with its drawings.
func lessonDrawn(t testing.TB, code string, l wording.Language) (*paper, error) {
	taught, err := catalog.Lesson(code, l)
	if err != nil {
		t.Fatal(err)
	}
	drawings := map[string]sketch.Drawing{}
	for _, name := range taught.Drawings() {
		if drawings[name], err = catalog.Drawing(name); err != nil {
			t.Fatal(err)
		}
	}
	p, err := newPaper(meta{Title: taught.Title, Language: string(l), Agency: "Larkmoor Home Nursing", Issued: issued, Zone: mountain})
	if err == nil {
		p.taught(taught, drawings)
	}
	return p, err
}

// Every paper that a family gets can be read with eight years of school in both languages, as
// pdftotext reads it: at most grade 8 by Flesch–Kincaid, and an ease of at least 60 by
// Fernández Huerta, which is his band of seventh and eighth grade. Its
// sentences alone are held to that too, since labels and cells of tables are short.
func TestFamilyPapersArePlain(t *testing.T) {
	for name, f := range familyPapers() {
		for _, l := range wording.Languages {
			t.Run(name+" in "+string(l), func(t *testing.T) {
				t.Parallel()
				all := passagesOf(familyBlocks(t, f, l))
				for what, said := range map[string][]string{"all of it": all, "its sentences": sentencesOf(all)} {
					level := reading.Measure(string(l), said...)
					t.Logf("%s in %s, %s: grade %.1f, ease %.1f, %d words", name, l.Own(), what, level.Grade, level.Ease, level.Counts.Words)
					hard := level.Grade > reading.Aim
					if l == wording.Spanish {
						hard = level.Ease < 60
					}
					if hard || level.Counts.Words < 30 {
						t.Errorf("%s: grade %.1f, ease %.1f, %d words; the hardest: %q", what, level.Grade, level.Ease, level.Counts.Words, level.Hardest)
					}
				}
			})
		}
	}
}

// sentencesOf leaves out labels, names and cells of tables, which are short and would make a
// paper seem plainer than what is to be read on it: what is left ends as a sentence does, and
// has five words.
func sentencesOf(blocks []string) []string {
	var all []string
	for _, block := range blocks {
		for _, s := range ending.Split(block+"\n", -1) {
			if len(strings.Fields(s)) >= 5 && !strings.HasSuffix(s, "\n") && !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	return all
}

// ending is where a sentence ends, not a number or a line.
var ending = regexp.MustCompile(`[.?!][»”)]*\s+`)

// familyBlocks are the passages of a paper, as pdftotext tells them apart, each once: what
// stands on every page is read once. What has no sentence or name in it, such as a number,
// is left out.
func familyBlocks(t *testing.T, f familyPaper, l wording.Language) []string {
	p, err := f.draw(t, l)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, block := range strings.Split(strings.ReplaceAll(tool(t, "pdftotext", filed(t, finished(t, p)), "-"), "\f", "\n\n"), "\n\n") {
		if strings.ContainsFunc(block, unicode.IsLetter) && !slices.Contains(all, block) {
			all = append(all, block)
		}
	}
	return all
}

// passagesOf tells the items of a list apart, which end without a full stop: a line that
// begins with a capital begins one, unless it begins with a name.
func passagesOf(blocks []string) []string {
	var all []string
	for _, block := range blocks {
		begun := len(all)
		for line := range strings.Lines(block) {
			line = strings.Join(strings.Fields(line), " ")
			named := slices.ContainsFunc(sameWords, func(n string) bool { return strings.HasPrefix(line, n) })
			goesOn := len(all) > begun && (!unicode.IsUpper([]rune(line + " ")[0]) || named || strings.ContainsAny(all[len(all)-1][max(0, len(all[len(all)-1])-1):], ".?!"))
			if goesOn {
				all[len(all)-1] += " " + line
			} else {
				all = append(all, line)
			}
		}
	}
	return all
}

// englishOnly are what no Spanish sentence has in it and hardly any English one lacks.
var englishOnly = regexp.MustCompile(`(?i)\b(the|and|of|you|your|with|for|is|are|what|this|that|not|who|from|until|through|been|each|every|hours?|days?|minutes?|steps?|when|or|by|to|at)\b`)

// sameWords are the same in both languages: names of invented people and places, of bodies that
// publish, and signs of measures.
var sameWords = []string{"Larkmoor Home Nursing", "Noor Haddadin", "Nguyễn Thị Lan", "Tomasz Rybak", "Łucja Żak", "Ольга Мартин", "Rosa Quintero", "Dr Zoë Adeyemi", "Mira, 7K", "Teo, 3B", "Mira", "UK National Tracheostomy Safety Project", "American Thoracic Society",
	"Tracheostomy: a multi-professional handbook", "AARC", "MST", "MDT", "RN CO-4471", "RN 48213", "SHA-256", "wellshown.example/check/4H7K9QXM2TBT", "4H7K-9QXM-2TBT", "mmHg", "cmH2O", "°C", "mm", "mL", "Fr", "L/min", "HME"}

// No English is left on Spanish paper but what people or an agency wrote: no common English word,
// and no line that is the same on the English paper.
func TestNoEnglishIsLeftOnFamilyPapers(t *testing.T) {
	for name, f := range familyPapers() {
		if strings.HasPrefix(name, "lesson ") { // names its sources as they were published; held in the catalogue
			continue
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			english := onOneLine(familyBlocks(t, f, wording.English))
			for _, block := range onOneLine(familyBlocks(t, f, wording.Spanish)) {
				rest := block
				for _, known := range append(slices.Clone(f.data), sameWords...) {
					rest = strings.ReplaceAll(rest, known, "")
				}
				if !strings.ContainsFunc(rest, unicode.IsLetter) {
					continue
				}
				if found := englishOnly.FindString(rest); found != "" {
					t.Errorf("it says %q in %q", found, rest)
				}
				if slices.Contains(english, block) && block != "no" { // which is Spanish too
					t.Errorf("it says in both languages: %q", rest)
				}
			}
		})
	}
}

func onOneLine(blocks []string) []string {
	var all []string
	for _, b := range blocks {
		all = append(all, strings.Join(strings.Fields(b), " "))
	}
	return all
}

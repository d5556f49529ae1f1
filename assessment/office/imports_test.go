package office_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// preview sends a list and looks at it.
func preview(t *testing.T, w *ward.Ward, kind intake.Kind, content string, answers map[int]string) office.ImportView {
	t.Helper()
	id := must(w.Office.SendList(t.Context(), w.Coordinator, kind, `C:\lists\`+string(kind)+".csv", []byte(content)))(t)
	return must(w.Office.Import(t.Context(), w.Coordinator, id, answers))(t)
}

// brought sends a list, looks at it and brings it in.
func brought(t *testing.T, w *ward.Ward, kind intake.Kind, content string, answers map[int]string) office.Imported {
	t.Helper()
	v := preview(t, w, kind, content, answers)
	done, v, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, office.ImportForm{ID: v.ID, Version: v.Version, Answers: answers, LettersRight: true})
	if err != nil {
		t.Fatalf("%v: %+v", err, v.Faults)
	}
	return done
}

// saidOf are the faults of a preview, as row, column and words.
func saidOf(v office.ImportView) string {
	var all []string
	for _, f := range v.Faults {
		all = append(all, fmt.Sprintf("%d %s: %s", f.Row, f.Column, f.Says))
	}
	return strings.Join(all, "\n")
}

func does(v office.ImportView) []string {
	var all []string
	for _, r := range v.Rows {
		all = append(all, r.Does)
	}
	return all
}

// All or nothing, and repeatable without doubles.
func TestTheSameListTwice(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	for _, c := range []struct {
		kind    intake.Kind
		content string
		rows    int
	}{
		{intake.People, "name;kind;e-mail;relation\nJosé Peña;nurse;jose@agency.example;\nLan Nguyễn;family;;mother\n+1 Odd;aide;;\n", 3},
		{intake.Clients, "code,first name,start\n7K,Mira,2026-01-10\nb2,Tom,\n", 2},
		{intake.Shifts, "client,caregiver,starts,ends,kind\n7K,José Peña,2026-12-01 19:00,2026-12-02 07:00,nurse\n7k,jose@AGENCY.example,2026-12-02 07:00,2026-12-02 12:00,\nB2,,2026-12-01 19:00,2026-12-02 00:00,aide\n", 3},
		{intake.CarriedIn, "person,skill,client,observed on,valid through,signed by,where\nJosé Peña,circuit-change,7K,2026-01-04,2027-01-04,\"A. Roe, RN\",Old Town Homecare\nLan Nguyễn,handwashing,,2025-05-05,,B. Roe,Old Town Hospital\n", 2},
	} {
		content := c.content
		if c.kind == intake.CarriedIn {
			content = strings.NewReplacer("circuit-change", specificSkill(t, w), "handwashing", generalSkill(t, w)).Replace(content)
		}
		if got := brought(t, w, c.kind, content, nil); got.New != c.rows || got.There != 0 {
			t.Errorf("%s: brought in %+v", c.kind, got)
		}
		if got := brought(t, w, c.kind, content, nil); got.New != 0 || got.There != c.rows {
			t.Errorf("%s, once more: brought in %+v", c.kind, got)
		}
	}
	if people, _, err := w.Office.People(t.Context(), w.Admin, office.PeopleQuery{Find: "José"}); err != nil || len(people) != 1 || people[0].Email != "jose@agency.example" || people[0].Kind != assessment.Nurse {
		t.Errorf("people %+v, %v", people, err)
	}
	if left := must(w.Office.Imports(t.Context(), w.Coordinator))(t); len(left.Drafts) != 0 {
		t.Errorf("files that were brought in are still there: %+v", left.Drafts)
	}
	indexIsRight(t, w)
}

// A list that is brought in again after a shift of it was given to somebody else makes no second one; a second
// caregiver at the same times is one more shift.
func TestAListAgainAfterAShiftWasGiven(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	brought(t, w, intake.People, "name;kind\nJosé Peña;nurse\nAda Bell;nurse\n", nil)
	brought(t, w, intake.Clients, "code,first name,start\n7K,Mira,2026-01-10\n", nil)
	const head, when = "client,caregiver,starts,ends,kind\n", ",2026-12-01 19:00,2026-12-02 07:00,nurse\n"
	for _, c := range []struct {
		rows       string
		new, there int
	}{
		{"7K,José Peña" + when, 1, 0},
		{"7K,Ada Bell" + when, 0, 1},                         // the same shift, which the roster has with José
		{"7K," + when, 0, 1},                                 // the same with nobody
		{"7K,José Peña" + when + "7K,Ada Bell" + when, 1, 1}, // two of them are two
		{"7K,Ada Bell" + when, 0, 1},
		{"7K," + when + "7K,José Peña" + when, 0, 2},
		{"7K," + strings.Replace(when, "nurse", "aide", 1), 1, 0}, // an aide beside the nurse is another shift
	} {
		if got := brought(t, w, intake.Shifts, head+c.rows, nil); got.New != c.new || got.There != c.there {
			t.Errorf("%q brought in %d and found %d, want %d and %d", c.rows, got.New, got.There, c.new, c.there)
		}
	}
}

func skillOfScope(t *testing.T, w *ward.Ward, scope assessment.Scope) string {
	t.Helper()
	skills, _, err := w.Office.Skills(t.Context(), w.Admin)
	wantNone(t, err)
	for _, s := range skills {
		if s.Scope == scope {
			return s.Code
		}
	}
	t.Fatalf("no %s skill", scope)
	return ""
}

func specificSkill(t *testing.T, w *ward.Ward) string {
	return skillOfScope(t, w, assessment.ClientSpecific)
}
func generalSkill(t *testing.T, w *ward.Ward) string { return skillOfScope(t, w, assessment.General) }

// What is carried in never makes anybody current, due or anything else: no published source; it is the rule of this house.
func TestWhatIsCarriedInChangesNoStanding(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t)
	skill := specificSkill(t, w)
	w.Require(skill, assessment.Nurse)
	w.Join(nan, mira)
	standings := func() string {
		var all []string
		for _, on := range []string{"2025-06-01", "2026-01-04", "2026-02-01", "2026-08-01", "2027-01-04", "2027-06-01"} {
			v := must(w.Office.StandingsOf(t.Context(), w.Admin, nan.Person, civil.MustParse(on)))(t)
			for _, r := range v.Rows {
				all = append(all, fmt.Sprint(on, r.Skill.Code, r.Client.Code, r.Word, r.Standing))
			}
		}
		return strings.Join(all, "\n")
	}
	segments := func() string {
		return fmt.Sprintf("%+v", must(w.Office.Transcript(t.Context(), w.Admin, nan.Person, civil.Date{}))(t).Standings.Rows)
	}
	before, folded := standings(), segments()
	if before == "" {
		t.Fatal("nothing is asked of them: this shows nothing")
	}
	brought(t, w, intake.CarriedIn, "person,skill,client,observed on,valid through,signed by,where\n"+
		"Nan Orme,"+skill+",7K,2026-01-04,2027-01-04,\"A. Roe, RN\",Old Town Homecare\nNan Orme,"+skill+",7K,2025-01-04,2026-01-04,\"A. Roe, RN\",Old Town Homecare\n", nil)
	if after := standings(); after != before {
		t.Errorf("standings were\n%s\nand are\n%s", before, after)
	}
	if after := segments(); after != folded {
		t.Errorf("the transcript's standings were\n%s\nand are\n%s", folded, after)
	}
	if word := word(t, w, nan, skill, mira); word != assessment.NotStarted {
		t.Errorf("their standing is %s", word)
	}
	transcript := must(w.Office.Transcript(t.Context(), w.Admin, nan.Person, civil.Date{}))(t)
	if len(transcript.CarriedIn) != 2 || len(transcript.Records) != 0 || len(transcript.Certificates) != 0 {
		t.Errorf("the transcript has %d lines carried in, %d records, %d certificates", len(transcript.CarriedIn), len(transcript.Records), len(transcript.Certificates))
	}
	indexIsRight(t, w)
}

// Names are matched with care, never merged silently.
func TestNamesAreNeverMergedSilently(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	list := "name,kind,e-mail\nORME nan,nurse,\nNan Orne,nurse,\nNan Orme,aide,\nBea Lund,nurse,bea@agency.example\n"
	v := preview(t, w, intake.People, list, nil)
	if v.New != 1 || len(v.Faults) != 1 || !strings.Contains(saidOf(v), "4 name: Row 2 has this name already") {
		t.Fatalf("%v\n%s", does(v), saidOf(v))
	}
	list = strings.Replace(list, "Nan Orme,aide,\n", "", 1)
	v = preview(t, w, intake.People, list, nil)
	if !reflect.DeepEqual(does(v), []string{"asks", "asks", "new"}) || v.Asking != 2 || v.Rows[0].Ask.Choices[0].ID != nan.Person {
		t.Fatalf("%v, %+v", does(v), v.Rows[0].Ask)
	}
	form := office.ImportForm{ID: v.ID, Version: v.Version, Answers: map[int]string{2: string(nan.Person)}}
	if _, _, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, form); fault.KindOf(err) != fault.Refused {
		t.Errorf("brought in with a question open: %v", err)
	}
	form.Answers = map[int]string{2: string(nan.Person), 3: string(w.Admin.Person)}
	if _, _, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, form); fault.KindOf(err) != fault.Refused {
		t.Errorf("somebody who was not offered is taken for them: %v", err)
	}
	form.Answers[3] = office.AnotherPerson
	done, _, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, form)
	if err != nil || done.New != 2 || done.There != 1 {
		t.Errorf("brought in %+v, %v", done, err)
	}
	// By now Nan Orne is here: on a shift she is told from Nan Orme, and a slip asks which of the two.
	w.Client("9Z", "Zoe")
	v = preview(t, w, intake.Shifts, "client,caregiver,starts,ends\n9Z,Nan Orne,2026-12-01 07:00,2026-12-01 12:00\n9Z,nan orme,2026-12-02 07:00,2026-12-02 12:00\n9Z,nan orme,2026-12-03 07:00,2026-12-03 12:00\n9Z,Xaver Quint,2026-12-03 07:00,2026-12-03 12:00\n", nil)
	if !reflect.DeepEqual(does(v), []string{"new", "asks", "asks", "fault"}) || len(v.Rows[1].Ask.Choices) != 2 || !reflect.DeepEqual(v.Rows[1].Ask.Rows, []int{3, 4}) {
		t.Errorf("%v, %+v", does(v), v.Rows[1].Ask)
	}
	if v = must(w.Office.Import(t.Context(), w.Coordinator, v.ID, map[int]string{3: string(nan.Person)}))(t); !reflect.DeepEqual(does(v), []string{"new", "new", "new", "fault"}) {
		t.Errorf("answered: %v", does(v))
	}
	if v = must(w.Office.Import(t.Context(), w.Coordinator, v.ID, map[int]string{3: office.AnotherPerson}))(t); len(v.Faults) != 3 {
		t.Errorf("answered that it is nobody of these: %s", saidOf(v))
	}
}

// Bad input: every fault by its row and column, with what to write.
func TestFaultsOfLists(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	w.Day("2026-11-30")
	w.Client("B2", "Tom")
	must(w.Office.ClientLeaves(t.Context(), w.Coordinator, w.Client("C3", "Uma"), civil.MustParse("2026-12-02")))(t)
	must(w.Office.AddRosterShift(t.Context(), w.Coordinator, office.RosterShiftForm{Client: w.Client("D4", "Vic"), Starts: "2026-12-05T07:00", Ends: "2026-12-05T15:00"}))(t)
	brought(t, w, intake.Shifts, "client,caregiver,starts,ends\nB2,Nan Orme,2026-12-06 19:00,2026-12-07 07:00\n", nil)
	specific, general := specificSkill(t, w), generalSkill(t, w)
	for _, c := range []struct {
		kind    intake.Kind
		content string
		want    []string
	}{
		{intake.People, "name,kind,e-mail\n,nurse,\nAnn Ash,doctor,\nBob Birch,,\nCy Cole,aide,cy\nDi Dale,aide,d@x.example\nDi Dale,aide,d@x.example\nJo Elm,aide,\njo  ELM,aide,\n", []string{
			"2 name: This is empty. Write the whole name", "3 kind: ", "4 kind: This is empty. Write nurse, aide or family.", "5 e-mail: This is not an e-mail address", "7 e-mail: Row 6 has this address", "9 name: Row 8 has this name"}},
		{intake.Clients, "code,first name,start\n7K,Otto,\nToo-long-a-code,Al,\nX1,,\nX2,Bo,2026-02-31\nX3,Cy,03/04/2026\nX4,Di,2036-01-01\nX5,Ed,\nx5,Flo,\n", []string{
			"2 first name: The code 7K is Mira's here", "3 code: ", "4 first name: This is empty", "5 start: 2026-02-31 is in no calendar", "6 start: 03/04/2026 can be read in two ways, or not at all. Write 2026-03-04 or 2026-04-03",
			"7 start: This is more than two years ahead", "9 code: Row 8 has this code already"}},
		{intake.Shifts, "client,caregiver,starts,ends,kind\n" +
			"Q9,,2026-12-01 07:00,2026-12-01 12:00,\n" + // 2
			"B2,,2026-12-01 12:00,2026-12-01 07:00,\n" +
			"B2,,2026-12-01 12:00,2026-12-03 12:00,\n" +
			"C3,,2026-12-02 12:00,2026-12-02 20:00,\n" + // 5
			"B2,Nan Orme,2026-12-01 07:00,2026-12-01 12:00,aide\n" +
			"B2,Nan Orme,2026-12-08 07:00,2026-12-08 12:00,\n" + // 7
			"7K,Nan Orme,2026-12-08 11:59,2026-12-08 18:00,\n" +
			"7K,Nan Orme,2026-12-07 06:00,2026-12-07 18:00,\n" + // 9
			"B2,,2026-11-29 07:00,2026-11-29 12:00,\n" +
			"B2,,2036-11-29 07:00,2036-11-29 12:00,\n" + // 11
			"B2,,2026-12-09,2026-12-09 12:00,\n" +
			"B2,,2026-12-10 07:00,2026-12-10 12:00,\n" + // 13
			"b2,,2026-12-10 07:00,2026-12-10 12:00,\n" +
			"7K,Ada Root,2026-12-10 07:00,2026-12-10 12:00,doctor\n" + // 15
			"7K,Nan Orme,2026-12-08 12:00,2026-12-08 13:00,\n", // 16: meets 7, overlaps 8
			[]string{"2 client: There is no child with the code Q9", "3 ends: The shift ends before it starts", "4 ends: This shift is longer than 24 hours", "5 starts: Uma is no longer with the agency on 2026-12-02",
				"6 kind: The shift asks for a caregiver of the kind aide, and Nan Orme is another (nurse)", "8 caregiver: Row 7 has them on another shift then", "9 caregiver: The roster has them on another shift then: Tom", "10 ends: This is over already",
				"11 starts: This is more than two years ahead", "12 starts: 2026-12-09 is a day without a time. Write both, as 2026-12-09 19:00", "14 : Row 13 is the same shift", "15 kind: ", "15 caregiver: ", "16 caregiver: Row 8 has them on another shift then"}},
		{intake.CarriedIn, "person,skill,client,observed on,valid through,signed by,where\n" +
			"Nan Orme," + specific + ",,2026-01-04,,A,B\nNan Orme," + general + ",7K,2026-01-04,,A,B\nNan Orme,flying,,2026-01-04,,A,B\nNan Orme," + general + ",,2027-01-04,,A,B\n" +
			"Nan Orme," + general + ",,2026-01-04,2025-01-04,A,B\nNan Orme," + general + ",,2026-01-04,,,\nNan Orme," + general + ",,2026-01-05,,A,B\nNan Orme," + general + ",,2026-01-05,,A,B\nNobody Here," + general + ",,2026-01-05,,A,B\n",
			[]string{"2 client: ", "3 client: ", "4 skill: There is no skill \"flying\" here", "5 observed on: This day is still to come", "6 valid through: This is before", "7 signed by: This is empty", "7 where: This is empty", "9 : Row 8 says the same", "10 person: There is nobody here by the name Nobody Here"}},
	} {
		v := preview(t, w, c.kind, c.content, nil)
		lines := strings.Split(saidOf(v), "\n")
		if len(lines) != len(c.want) {
			t.Errorf("%s: %d faults and not %d\n%s", c.kind, len(lines), len(c.want), saidOf(v))
			continue
		}
		for i, want := range c.want {
			if !strings.HasPrefix(lines[i], want) {
				t.Errorf("%s: %q, and not %q", c.kind, lines[i], want)
			}
		}
		_, _, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, office.ImportForm{ID: v.ID, Version: v.Version})
		if fault.KindOf(err) != fault.Refused {
			t.Errorf("%s: brought in with faults: %v", c.kind, err)
		}
	}
	if people, _, err := w.Office.People(t.Context(), w.Admin, office.PeopleQuery{Find: "Dale"}); err != nil || len(people) != 0 {
		t.Errorf("some rows of a list with faults were brought in: %+v, %v", people, err)
	}
}

// What is brought in is what was read; no published source.
func TestAnImportIsWhatWasRead(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	v := preview(t, w, intake.People, "name,kind\nBea Lund,nurse\n", nil)
	w.Nurse("Bea Lunt")
	form := office.ImportForm{ID: v.ID, Version: v.Version}
	if _, now, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, form); fault.KindOf(err) != fault.Conflict || now.Version == v.Version {
		t.Errorf("somebody of nearly that name came meanwhile: %v", err)
	}
	v = preview(t, w, intake.Clients, "code,first name\nP1,Pe\xf1a\n", nil)
	if !v.Guessed || !reflect.DeepEqual(v.Names, []string{"Peña"}) {
		t.Errorf("guessed %v, names %q", v.Guessed, v.Names)
	}
	form = office.ImportForm{ID: v.ID, Version: v.Version}
	if _, _, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, form); fault.KindOf(err) != fault.Invalid {
		t.Errorf("nobody looked whether the letters are right: %v", err)
	}
	if _, err := w.Office.Import(t.Context(), w.Admin, v.ID, nil); fault.KindOf(err) != fault.NotFound {
		t.Errorf("somebody else looks at a file: %v", err)
	}
	if _, err := w.Office.SendList(t.Context(), w.Educators[0], intake.Clients, "x", []byte("code,first name\nP1,Al\n")); fault.KindOf(err) != fault.Forbidden {
		t.Errorf("an educator brings in a list: %v", err)
	}
	w.Pass(25 * time.Hour)
	wantNone(t, w.Office.Clean(t.Context()))
	if _, err := w.Office.Import(t.Context(), w.Coordinator, v.ID, nil); fault.KindOf(err) != fault.NotFound {
		t.Errorf("a file of yesterday is still there: %v", err)
	}
}

// Two people bring in the same list at once; no published source.
func TestTheSameListAtOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	var views [4]office.ImportView
	for i := range views {
		views[i] = preview(t, w, intake.People, "name,kind\nBea Lund,nurse\nCy Cole,aide\n", nil)
	}
	done, faults := make([]office.Imported, len(views)), make([]error, len(views))
	atOnce(len(views), func(i int) {
		done[i], _, faults[i] = w.Office.CarryOutImport(t.Context(), w.Coordinator, office.ImportForm{ID: views[i].ID, Version: views[i].Version})
	})
	added := 0
	for i := range done {
		if added += done[i].New; faults[i] != nil && fault.KindOf(faults[i]) != fault.Conflict {
			t.Error(faults[i])
		}
	}
	if added != 2 {
		t.Errorf("%d people were added: %+v, %v", added, done, faults)
	}
}

// No shift lies before the day from which the agency looks after a child, whichever way it comes; no published source.
func TestNoShiftBeforeAChildIsHere(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	brought(t, w, intake.Clients, "code,first name,start\n7K,Mira,2026-03-10\n", nil)
	v := preview(t, w, intake.Shifts, "client,starts,ends\n7K,2026-03-09 19:00,2026-03-10 07:00\n7K,2026-03-10 07:00,2026-03-10 12:00\n", nil)
	if got := saidOf(v); !strings.HasPrefix(got, "2 starts: The agency looks after Mira from 2026-03-10 on.") || len(v.Faults) != 1 {
		t.Error(got)
	}
	all := must(w.Office.Clients(t.Context(), w.Coordinator, ""))(t)
	if len(all) != 1 || all[0].SinceOn.String() != "2026-03-10" {
		t.Fatalf("children %+v", all)
	}
	form := office.RosterShiftForm{Client: all[0].ID, Starts: "2026-03-09T19:00", Ends: "2026-03-10T07:00"}
	_, err := w.Office.AddRosterShift(t.Context(), w.Coordinator, form)
	wantRefusal(t, err, fault.Refused, "looks after Mira from 2026-03-10 on")
	must(w.Office.EditClient(t.Context(), w.Coordinator, all[0].ID, office.ClientForm{Code: "7K", FirstName: "Mira"}))(t)
	must(w.Office.AddRosterShift(t.Context(), w.Coordinator, form))(t)
}

// A row that brings an address asks whether it is somebody of the same name of whom none is known:
// it may be another person, who would else never be added.
func TestAnAddressOfSomebodyOfThatNameAsks(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	known := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Bea Lund", Kind: "nurse"}))(t)
	plain := preview(t, w, intake.People, "name,kind,e-mail\nBea Lund,nurse,\n", nil)
	v := preview(t, w, intake.People, "name,kind,e-mail\nBea Lund,nurse,bea@agency.example\n", nil)
	if !reflect.DeepEqual(does(plain), []string{"there already"}) || !reflect.DeepEqual(does(v), []string{"asks"}) || v.Rows[0].Ask.Choices[0].ID != known.ID {
		t.Fatalf("without an address: %v; with one: %v, %+v", does(plain), does(v), v.Rows)
	}
	done, _, err := w.Office.CarryOutImport(t.Context(), w.Coordinator, office.ImportForm{ID: v.ID, Version: v.Version, Answers: map[int]string{2: office.AnotherPerson}})
	if err != nil || done.New != 1 {
		t.Errorf("another person: %+v, %v", done, err)
	}
	if again := preview(t, w, intake.People, "name,kind,e-mail\nBea Lund,nurse,bea@agency.example\n", nil); !reflect.DeepEqual(does(again), []string{"there already"}) {
		t.Errorf("the same file again: %v", does(again))
	}
}

// So many files of one person wait, and no more.
func TestFilesThatWaitHaveAnEnd(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	send := func(by assessment.Actor) error {
		return one(w.Office.SendList(t.Context(), by, intake.Clients, "children.csv", []byte("code,first name\n9K,Ida\n")))
	}
	for range office.MostDrafts {
		wantNone(t, send(w.Coordinator))
	}
	wantRefusal(t, send(w.Coordinator), fault.Refused, "20 files that you sent wait already")
	wantNone(t, send(w.Admin))
	wantNone(t, w.Office.DropList(t.Context(), w.Coordinator, must(w.Office.Imports(t.Context(), w.Coordinator))(t).Drafts[0].ID))
	wantNone(t, send(w.Coordinator))
}

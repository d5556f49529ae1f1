package web

import (
	"wellshown/assessment/catalog"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/reading"
)

// itemSamples are the page of an item: one of each kind, new, refused, changed meanwhile, and
// as somebody sees it who only reads.
func itemSamples() map[string]Page {
	bank, err := catalog.Items("suction")
	if err != nil {
		panic(err)
	}
	all := map[string]Page{}
	for _, i := range bank.Items {
		page := itemSample(i)
		page.fill(knowledge.TypedOf(i), 0)
		all["item-"+string(i.Kind)] = page
	}
	single := all["item-single"].(ItemPage)
	bad := single
	bad.Faults = Faults{What: "The item is not kept.", Why: "Two things need mending.", Fields: []FieldFault{{"option-2-es", "Answer 2: In Spanish", "Write it in this language too, or empty the whole row."}, {"right", "Which is right", "Say what is right."}}}
	changed := single
	changed.Changed, changed.Version = "Nguyễn Thị Lan", 3
	changed.Faults = Faults{What: "The item is not kept.", Why: "Somebody else has changed this item meanwhile. Look at it again, then save."}
	typed := knowledge.TypedOf(bank.Items[0])
	typed.Said["es"] = knowledge.TypedText{Ask: typed.Said["es"].Ask}
	typed.Right = nil
	bad.Looks = []ItemLook{{Tag: "en", Dir: "ltr", Tongue: "English", Level: single.Looks[0].Level}}
	for _, p := range []*ItemPage{&bad, &changed} {
		p.fill(typed, 2)
	}
	reads := single
	reads.Frame, reads.Action, reads.Retire = coordinatorFrame("checklists"), "", ""
	reads.fill(typed, 0)
	fresh := ItemPage{Frame: single.Frame, Skill: single.Skill, Kind: "match", Sort: itemKinds[knowledge.Match], Back: single.Back, Action: "/checks/suction/new-item"}
	fresh.fill(knowledge.Typed{ID: "suction-14", Kind: knowledge.Match}, 0)
	choose := ItemPage{Frame: single.Frame, Skill: single.Skill, Back: single.Back, Action: fresh.Action, Kinds: linksTo("/checks/suction/new-item?kind=single", "One answer is right", "Several answers are right")}
	all["item-fault"], all["item-changed"], all["item-reader"], all["item-new"], all["item-choose"] = bad, changed, reads, fresh, choose
	return all
}

func itemSample(i knowledge.Item) ItemPage {
	d := office.ItemView{Levels: map[string]reading.Level{}}
	for language, said := range knowledge.TypedOf(i).Said {
		d.Levels[language] = reading.Measure(language, said.Passages()...)
	}
	at := itemAt("suction", i.ID)
	return ItemPage{Frame: educatorFrame("checklists"), Skill: "Tracheostomy suctioning", ID: i.ID, Kind: string(i.Kind), Sort: itemKinds[i.Kind], Back: "/checks/suction", Action: at, Retire: at + "/retirement", Version: 2,
		Stands: "Version 2, Noor Haddadin, 2 Nov 2026, 09:14 MST", Before: []string{"Version 1, Noor Haddadin, 1 Nov 2026, 09:14 MST: Which size?"},
		Says: []string{"18 of 24 right, 75 %."}, Tells: tellsApart(knowledge.Tally{Asked: 24}), Asked: []AskedBefore{{"Versions 1 to 2, 1 Nov 2026 to 2 Nov 2026", "3 of 4 right. So few answers say little.", tellsApart(knowledge.Tally{Asked: 4})}}, Looks: looksOf(office.Question{Place: 1, Item: i, Shown: i.Shown("preview")}, d)}
}

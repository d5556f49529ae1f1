package web

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func itemAt(code, item string) string {
	return checksAt + "/" + code + "/items/" + url.PathEscape(item)
}

// itemKinds are the kinds of item as an educator chooses among them.
var itemKinds = map[knowledge.Kind]string{
	knowledge.Single: "One answer is right", knowledge.Multiple: "Several answers are right", knowledge.Order: "Steps to put in order",
	knowledge.Numeric: "A number with its unit", knowledge.Match: "Pairs to match",
}

// bankItem shows an item as it stands.
func (s *Site) bankItem(v *visit) error {
	d, err := s.office.BankItem(v.ctx(), v.by(), v.c.Param("code"), v.c.Param("item"))
	if err != nil {
		return err
	}
	return v.show(v.itemPage(d, d.Now.Version, 0))
}

// newItem is an empty form; without a kind it asks for that first.
func (s *Site) newItem(v *visit) error {
	kind := knowledge.Kind(v.query("kind"))
	if !slices.Contains(knowledge.Kinds, kind) {
		kind = ""
	}
	d, err := s.office.NewItem(v.ctx(), v.by(), v.c.Param("code"), kind)
	if err != nil {
		return err
	}
	return v.show(v.itemPage(d, 0, 0))
}

// saveItem keeps what was typed as a version, or only shows it. Whatever is wrong with it,
// or whoever was faster: what was typed stays.
func (s *Site) saveItem(v *visit) error {
	f := office.ItemForm{Skill: v.c.Param("code"), Typed: v.typedItem()}
	if f.Typed.ID = v.c.Param("item"); f.Typed.ID == "" {
		f.Typed.ID = v.form("id")
	} else if f.Version, _ = strconv.Atoi(v.form("version")); f.Version < 1 {
		return fault.Of(fault.Invalid, "The form does not say which version was read. Open the item again.")
	}
	var refused error
	looks := v.form("do") == "look" || v.form("do") == "more"
	if !looks {
		if refused = s.office.SaveItem(v.ctx(), v.by(), f); refused == nil {
			return v.to(itemAt(f.Skill, f.Typed.ID), "It is kept. New forms ask it as it stands here.")
		}
	}
	return s.itemAgain(v, f, refused)
}

// itemAgain shows the form with what was typed: with what is wrong with it, but where only
// more rows were asked for.
func (s *Site) itemAgain(v *visit, f office.ItemForm, refused error) error {
	d, tried := s.office.TryItem(v.ctx(), v.by(), f)
	if tried != nil && fault.KindOf(tried) != fault.Invalid {
		return tried
	}
	more := 0
	if v.form("do") == "more" {
		tried, more = nil, 2
	}
	page, what := v.itemPage(d, f.Version, more), "The item is not kept."
	if refused == nil {
		refused, what = tried, "It could not be kept like this."
	}
	if refused == nil {
		return v.show(page)
	}
	var err error
	if page.Faults, err = v.wrong(refused, what, page.labels()...); err != nil {
		return err
	}
	if fault.KindOf(refused) == fault.Conflict {
		page.Changed, page.Version = d.Now.By, d.Now.Version
		page.Looks = looksOf(office.Question{Place: 1, Item: d.Now.Item, Shown: d.Now.Item.Shown("")}, d)
	}
	page.fill(d.Typed, more)
	return v.again(page)
}

// typedItem is what was typed into the form of an item.
func (v *visit) typedItem() knowledge.Typed {
	t := knowledge.Typed{Kind: knowledge.Kind(v.form("kind")), Critical: v.ticked("critical"), Difficulty: v.form("difficulty"), Source: oneLine(v.form("source")), NoSource: v.ticked("no-source"),
		Unit: oneLine(v.form("unit")), Units: oneLine(v.form("units")), Low: v.form("low"), High: v.form("high"), Said: map[string]knowledge.TypedText{}}
	for _, r := range v.c.PostFormArray("right") {
		n, _ := strconv.Atoi(r)
		t.Right = append(t.Right, n)
	}
	for _, l := range wording.Languages {
		at := "-" + string(l)
		said := knowledge.TypedText{Ask: oneLine(v.form("ask" + at)), Teach: oneLine(v.form("teach" + at))}
		for row := range knowledge.Rows {
			field := "-" + strconv.Itoa(row+1) + at
			said.Options = append(said.Options, oneLine(v.form("option"+field)))
			said.Pairs = append(said.Pairs, oneLine(v.form("pair"+field)))
		}
		t.Said[string(l)] = said
	}
	return t
}

// itemPage is the page of an item, with some rows more than are filled.
func (v *visit) itemPage(d office.ItemView, version, more int) ItemPage {
	code := d.Skill.Code
	page := ItemPage{Frame: v.frame("checklists"), Skill: d.Skill.Title, Kind: string(d.Typed.Kind), Sort: itemKinds[d.Typed.Kind], Back: checksAt + "/" + code, Version: version, Gone: d.Now.Retired}
	if version == 0 {
		page.Action = checksAt + "/" + code + "/new-item"
		for _, k := range knowledge.Kinds {
			page.Kinds = append(page.Kinds, Link{Text: itemKinds[k], Href: page.Action + "?kind=" + string(k)})
		}
	} else {
		page.ID = d.Now.Item.ID
		page.stands(d, v)
		if v.may(assessment.EditChecks) {
			page.Action = itemAt(code, page.ID)
			page.Retire = page.Action + "/retirement"
		}
	}
	if d.Look != nil {
		page.Looks = looksOf(*d.Look, d)
	} else if page.Kind != "" && len(d.Levels) > 0 {
		page.Looks = levelsOf(d)
	}
	page.fill(d.Typed, more)
	return page
}

// stands says which version it is, which were before, and how it was answered.
func (p *ItemPage) stands(d office.ItemView, v *visit) {
	for n, b := range d.Versions {
		says := fmt.Sprintf("Version %d, %s, %s", b.Version, b.By, instant(b.At, v.zone()))
		if b.Retired {
			says += ": not asked any more"
		}
		if n == 0 {
			p.Stands = says
		} else {
			p.Before = append(p.Before, says+": "+b.Item.In("en").Ask)
		}
	}
	stands := d.Now
	stands.Before = nil // each has its own place here
	line := checkItem(stands, v)
	p.Says = append([]string{line.Says}, line.Also...)
	p.Tells = tellsApart(d.Now.Stands.Tally)
	for _, q := range d.Now.Before {
		if q.Asked > 0 {
			p.Asked = append(p.Asked, AskedBefore{questionBefore(q, v), answeredWords(q.Tally), tellsApart(q.Tally)})
		}
	}
}

// tellsApart says how well an item tells those who know the rest from those who do not.
func tellsApart(r knowledge.Tally) string {
	switch {
	case r.Asked < knowledge.FewSittings:
		return fmt.Sprintf("Asked in %s: too few to say how well it tells apart those who know the rest. %d are needed.", count(r.Asked, "check", "checks"), knowledge.FewSittings)
	case r.Tells == nil:
		return "All who were asked it did alike: it tells nobody apart."
	case *r.Tells < 0:
		return fmt.Sprintf("Those who know the rest miss it more often (point-biserial correlation %.2f). Look at its words, and at what is called right.", *r.Tells)
	}
	return fmt.Sprintf("Point-biserial correlation with the share of other questions that were right: %.2f. The nearer to 1, the better it tells apart those who know the rest.", *r.Tells)
}

// looksOf is an item as it is asked, in each language.
func looksOf(q office.Question, d office.ItemView) []ItemLook {
	var all []ItemLook
	for _, l := range wording.Languages {
		_, written := q.Item.Texts[string(l)]
		w := wording.In(l)
		look := ItemLook{Tag: string(l), Dir: w.Dir(), Tongue: l.Own(), Only: !written, Level: lessonLevel(d.Levels[string(l)])}
		if written {
			t := q.Item.In(string(l))
			look.Ask, look.Teach, look.Right = t.Ask, t.Teach, q.RightAnswer(string(l))
			look.How, look.Fields = askedIn(w, Faults{Form: "look-" + string(l)}, q)
		}
		all = append(all, look)
	}
	return all
}

// levelsOf tells how hard it is to read what cannot be asked as it is.
func levelsOf(d office.ItemView) []ItemLook {
	var all []ItemLook
	for _, l := range wording.Languages {
		if level := lessonLevel(d.Levels[string(l)]); level.Grade != "" {
			all = append(all, ItemLook{Tag: string(l), Dir: wording.In(l).Dir(), Tongue: l.Own(), Level: level})
		}
	}
	return all
}

package web

import (
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) homePapers(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.homePapersPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) homePapersPage(v *visit, id assessment.ClientID) (HomePapersPage, error) {
	d, err := s.office.HomePapers(v.ctx(), v.by(), id)
	if err != nil {
		return HomePapersPage{}, err
	}
	at, words := "/clients/"+string(id), v.words()
	page := HomePapersPage{Frame: v.frame("children"), Client: d.FirstName, Code: d.Code, Missing: len(d.Missing(assessment.EmergencyCard)), Back: at}
	for _, paper := range assessment.HomePapers {
		line := HomePaperLine{Name: words.Of(paper.Phrase()), Anybody: paper == assessment.PowerLetter || paper == assessment.FireLetter}
		for _, open := range d.Missing(paper) {
			line.Open = append(line.Open, words.Of(open))
		}
		for _, l := range ownFirst(words.Language()) {
			line.Files = append(line.Files, Tongue{Own: l.Own(), Tag: string(l), Href: at + "/home-papers/" + string(paper) + "?language=" + string(l)})
		}
		page.Papers = append(page.Papers, line)
	}
	for i, c := range d.Calls() {
		call := HomeCall{Turn: i + 1, Office: words.Of(c.Role.Phrase()), Telephone: c.Telephone, Dial: dialled(c.Telephone)}
		if c.Name != "" {
			call.Office = words.Say("%s: %s", call.Office, c.Name)
		}
		page.Calls = append(page.Calls, call)
	}
	if d.KitPlace != (phrase.Own{}) {
		page.Kit = words.Own(d.KitPlace)
	}
	if v.may(assessment.EditClients) {
		page.Form = homeRecordForm(d, at+"/home-papers")
	}
	return page, nil
}

// ownFirst are the languages that papers are in, the reader's own before the others.
func ownFirst(own wording.Language) []wording.Language {
	all := []wording.Language{own}
	for _, l := range wording.Languages {
		if l != own {
			all = append(all, l)
		}
	}
	return all
}

// dialled is a number as a telephone dials it (RFC 3966); nothing where there is more in it
// than one number.
func dialled(telephone string) string {
	var b strings.Builder
	for i, r := range telephone {
		switch {
		case r >= '0' && r <= '9', r == '+' && i == 0:
			b.WriteRune(r)
		case !strings.ContainsRune(" ().-/", r):
			return ""
		}
	}
	return b.String()
}

func homeRecordForm(d office.HomeView, at string) HomeRecordForm {
	form := HomeRecordForm{Action: at, Version: d.Version, Kit: d.KitPlace.English, KitSpanish: d.KitPlace.Spanish, CheckedBy: []Option{{Text: "not said"}}, CheckedWhen: []Option{{Text: "not said"}}}
	for _, by := range assessment.CheckedBys {
		form.CheckedBy = append(form.CheckedBy, Option{Value: string(by), Text: by.Phrase().String()})
	}
	for _, when := range assessment.CheckedWhens {
		form.CheckedWhen = append(form.CheckedWhen, Option{Value: string(when), Text: when.Phrase().String()})
	}
	for _, role := range assessment.ContactRoles {
		c := d.Contact(role)
		row := ContactRow{Title: role.Phrase().String(), NameField: office.HomeField("name", string(role)), PhoneField: office.HomeField("telephone", string(role)), Name: c.Name, Phone: c.Telephone}
		if role.OnTheCard() {
			row.TurnField = office.HomeField("place", string(role))
			if c.Place > 0 {
				row.Turn = strconv.Itoa(c.Place)
			}
		}
		form.Contacts = append(form.Contacts, row)
	}
	for _, e := range d.Equipment {
		form.Suppliers = append(form.Suppliers, SupplierRow{Kind: e.Kind, NameField: office.HomeField("supplier", e.Kind), PhoneField: office.HomeField("supplier-telephone", e.Kind),
			ByField: office.HomeField("checked-by", e.Kind), WhenField: office.HomeField("checked-when", e.Kind), Name: e.Supplier, Phone: e.Telephone, By: string(e.CheckedBy), When: string(e.CheckedWhen)})
	}
	return form
}

func (s *Site) setHomeRecord(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	f := homeRecordSent(v)
	_, refused := s.office.SetHomeRecord(v.ctx(), v.by(), id, f)
	if refused == nil {
		return v.to("/clients/"+string(id)+"/home-papers", "It is written down. Print the papers anew, and take the old ones away.")
	}
	page, err := s.homePapersPage(v, id)
	if err != nil {
		return err
	}
	if fault.KindOf(refused) == fault.Conflict {
		page.Form.Changed = page.Form.differences(f)
	} else { // what the form was read from stays what it was read from
		page.Form.Version = f.Version
	}
	page.Form.typed(f)
	if err := v.take(&page.Faults, refused, "Nothing was written down.", page.Form.labels()...); err != nil {
		return err
	}
	return v.again(page)
}

// homeRecordSent is the form as it was sent.
func homeRecordSent(v *visit) office.HomeForm {
	f := office.HomeForm{Version: v.form("version"), KitPlace: v.form("kit_place"), KitPlaceSpanish: v.form("kit_place_spanish")}
	for _, role := range assessment.ContactRoles {
		r := string(role)
		f.Contacts = append(f.Contacts, office.ContactForm{Role: r, Name: v.form(office.HomeField("name", r)), Telephone: v.form(office.HomeField("telephone", r)), Place: v.form(office.HomeField("place", r))})
	}
	for _, kind := range v.c.PostFormArray("kind") {
		f.Suppliers = append(f.Suppliers, office.SupplierForm{Kind: kind, Supplier: v.form(office.HomeField("supplier", kind)), Telephone: v.form(office.HomeField("supplier-telephone", kind)),
			CheckedBy: v.form(office.HomeField("checked-by", kind)), CheckedWhen: v.form(office.HomeField("checked-when", kind))})
	}
	return f
}

// differences say what stands now where something else was typed: whoever sends the form
// again has read them.
func (f HomeRecordForm) differences(sent office.HomeForm) []string {
	var all []string
	differs := func(field, now, typed string) {
		if now == typed {
			return
		}
		if now == "" {
			now = "nothing"
		}
		all = append(all, field+": "+now)
	}
	differs("Where the kit is", f.Kit, sent.KitPlace)
	differs("The same in Spanish", f.KitSpanish, sent.KitPlaceSpanish)
	for i, c := range sent.Contacts {
		now := f.Contacts[i]
		differs(now.Title+": name", now.Name, c.Name)
		differs(now.Title+": telephone", now.Phone, c.Telephone)
		differs(now.Title+": turn", now.Turn, c.Place)
	}
	for _, s := range sent.Suppliers {
		i := slices.IndexFunc(f.Suppliers, func(r SupplierRow) bool { return r.Kind == s.Kind })
		if i < 0 {
			all = append(all, s.Kind+": the child has none any more")
			continue
		}
		now := f.Suppliers[i]
		differs(s.Kind+": supplier", now.Name, s.Supplier)
		differs(s.Kind+": telephone", now.Phone, s.Telephone)
		differs(s.Kind+": checked by", now.By, s.CheckedBy)
		differs(s.Kind+": checked when", now.When, s.CheckedWhen)
	}
	return all
}

// typed puts back what was typed.
func (f *HomeRecordForm) typed(sent office.HomeForm) {
	f.Kit, f.KitSpanish = sent.KitPlace, sent.KitPlaceSpanish
	for i, c := range sent.Contacts {
		f.Contacts[i].Name, f.Contacts[i].Phone, f.Contacts[i].Turn = c.Name, c.Telephone, c.Place
	}
	for _, s := range sent.Suppliers {
		if i := slices.IndexFunc(f.Suppliers, func(r SupplierRow) bool { return r.Kind == s.Kind }); i >= 0 {
			f.Suppliers[i].Name, f.Suppliers[i].Phone, f.Suppliers[i].By, f.Suppliers[i].When = s.Supplier, s.Telephone, s.CheckedBy, s.CheckedWhen
		}
	}
}

// labels name the fields for the summary of what is wrong.
func (f HomeRecordForm) labels() []FieldFault {
	all := []FieldFault{label("kit_place", "Where the kit is"), label("kit_place_spanish", "The same in Spanish")}
	for _, c := range f.Contacts {
		all = append(all, label(c.NameField, c.Title+": name"), label(c.PhoneField, c.Title+": telephone"), label(c.TurnField, c.Title+": turn"))
	}
	for _, s := range f.Suppliers {
		all = append(all, label(s.NameField, s.Kind+": supplier"), label(s.PhoneField, s.Kind+": telephone"), label(s.ByField, s.Kind+": checked by"), label(s.WhenField, s.Kind+": checked when"))
	}
	return all
}

// homePaper hands a paper out in the language that is asked for, else in the reader's.
func (s *Site) homePaper(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	paper, err := assessment.ParseHomePaper(v.c.Param("paper"))
	if err != nil {
		return err
	}
	in := v.language()
	if asked := v.query("language"); asked != "" {
		if in = known(asked); in == "" {
			return fault.Of(fault.Invalid, "There is no paper in this language. Choose one of those on the page.")
		}
	}
	body, name, err := s.opt.Papers.HomePaper(v.ctx(), v.by(), id, paper, in)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

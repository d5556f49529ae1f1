package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func (e *edge) homePapers(ctx context.Context, by caller, in *ByID) (*answer[HomePapers], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.HomePapers(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(homePapers(v)), nil
}

type homeRecordBody struct {
	ByID
	Body HomeRecord
}

func (e *edge) setHomeRecord(ctx context.Context, by caller, in *homeRecordBody) (*answer[HomePapers], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.SetHomeRecord(ctx, by.Actor, id, in.Body.form())
	if err != nil {
		return nil, renamed(err, in.Body.place)
	}
	return shown(homePapers(v)), nil
}

type homePaperQuery struct {
	ByID
	Paper    string `path:"paper" doc:"Which paper: emergency-card, go-bag-list, equipment-list, power-letter or fire-letter."`
	Language string `query:"language" enum:"en,es" default:"en" doc:"Of the paper. Left out: English."`
}

func (e *edge) homePaper(ctx context.Context, by caller, in *homePaperQuery) (*file, error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	which, err := assessment.ParseHomePaper(in.Paper)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.HomePaper(ctx, by.Actor, id, which, wording.Language(in.Language))
	return drawn(pdf, body, name, err)
}

func (r HomeRecord) form() office.HomeForm {
	f := office.HomeForm{Version: r.Version}
	if r.KitPlace != nil {
		f.KitPlace, f.KitPlaceSpanish = r.KitPlace.English, r.KitPlace.Spanish
	}
	for _, c := range r.Contacts {
		turn := ""
		if c.Turn > 0 {
			turn = strconv.Itoa(c.Turn)
		}
		f.Contacts = append(f.Contacts, office.ContactForm{Role: c.Office, Name: c.Name, Telephone: c.Telephone, Place: turn})
	}
	for _, s := range r.Suppliers {
		f.Suppliers = append(f.Suppliers, office.SupplierForm{Kind: s.Kind, Supplier: s.Supplier, Telephone: s.Telephone, CheckedBy: s.CheckedBy, CheckedWhen: s.CheckedWhen})
	}
	return f
}

// place says where in the body a field of the office's form stands.
func (r HomeRecord) place(field string) string {
	for i, c := range r.Contacts {
		for name, at := range map[string]string{"name": "name", "telephone": "telephone", "place": "turn"} {
			if office.HomeField(name, c.Office) == field {
				return "contacts[" + strconv.Itoa(i) + "]." + at
			}
		}
	}
	for i, s := range r.Suppliers {
		for name, at := range map[string]string{"supplier": "supplier", "supplier-telephone": "telephone", "checked-by": "checked_by", "checked-when": "checked_when"} {
			if office.HomeField(name, s.Kind) == field {
				return "suppliers[" + strconv.Itoa(i) + "]." + at
			}
		}
	}
	switch field {
	case "kit_place":
		return "kit_place.english"
	case "kit_place_spanish":
		return "kit_place.spanish"
	}
	return field
}

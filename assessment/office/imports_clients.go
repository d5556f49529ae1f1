package office

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

func itoa(n int) string { return strconv.Itoa(n) }

// inOrderOf is words in the order of the alphabet, with "and" before the last.
func inOrderOf(words []string) string {
	slices.Sort(words)
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// planClients finds out which children of a list are new. The code says which child it is.
func (o *Office) planClients(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *importPlan) error {
	byCode, err := clientsByCode(ctx, tx)
	if err != nil {
		return err
	}
	rows := map[string]int{}
	for i := range p.Rows {
		r := &p.Rows[i]
		n, err := ClientForm{Code: r.Cells["code"], FirstName: r.Cells["first name"]}.read()
		if err := p.take(r, err, map[string]string{"first_name": "first name"}); err != nil {
			return err
		}
		if n.SinceOn = p.day(r, "start"); !n.SinceOn.IsZero() && n.SinceOn.Sub(now.Today) > 2*366 {
			p.wrong(r, "start", "This is more than two years ahead. Check the year.")
		}
		if rows[n.Code] != 0 && n.Code != "" {
			p.wrong(r, "code", "Row %d has this code already. Keep one of the two rows, or give each child their own.", rows[n.Code])
		}
		rows[n.Code] = r.Number
		if r.Does == ImportFault {
			continue
		}
		if known, here := byCode[n.Code]; here {
			p.saw(r, "there", known.ID)
			p.clientThere(r, n, known)
			continue
		}
		p.saw(r, "new")
		p.keep = append(p.keep, func() error {
			if n.ID, err = newID[assessment.ClientID](o, now.At); err != nil {
				return err
			}
			if err := tx.Clients.Add(ctx, n, now.At); err != nil {
				return err
			}
			return o.note(ctx, tx, now, by, assessment.EditClients, "child", string(n.ID))
		})
	}
	return nil
}

func (p *importPlan) clientThere(r *ImportRow, n, known postgres.Client) {
	switch like := intake.NewName(n.FirstName).Like(intake.NewName(known.FirstName)); {
	case like < intake.Alike:
		p.wrong(r, "first name", "The code %s is %s's here. Write that name, or give this child another code.", n.Code, known.FirstName)
	case like == intake.Alike || n.SinceOn != known.SinceOn && !n.SinceOn.IsZero():
		r.there("%s is here; the file writes the name or the start otherwise, and what is known stays", known.FirstName)
	default:
		r.there("")
	}
}

func clientsByCode(ctx context.Context, tx *postgres.Tx) (map[string]postgres.Client, error) {
	all, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
	if err != nil {
		return nil, err
	}
	byCode := map[string]postgres.Client{}
	for _, c := range all {
		byCode[c.Code] = c
	}
	return byCode, nil
}

// day is a day in a cell, or none.
func (p *importPlan) day(r *ImportRow, column string) civil.Date {
	if r.Cells[column] == "" {
		return civil.Date{}
	}
	d, err := intake.Day(r.Cells[column])
	if err != nil {
		p.wrong(r, column, "%s.", sentence(err))
	}
	return d
}

// client is the child whose code stands in a cell.
func (p *importPlan) client(r *ImportRow, byCode map[string]postgres.Client) (postgres.Client, bool) {
	written := r.Cells["client"]
	c, here := byCode[strings.ToUpper(written)]
	if !here && written != "" {
		p.wrong(r, "client", "There is no child with the code %s here. Write the code as it stands under Children, or bring in the list of children first.", written)
	}
	return c, here
}

// sentence begins with a capital letter, as what is read does.
func sentence(err error) string {
	s := err.Error()
	return strings.ToUpper(s[:1]) + s[1:]
}

package web

import (
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const tokensAt = "/tokens"

func (s *Site) tokens(v *visit) error {
	page, err := s.tokensPage(v)
	if err != nil {
		return err
	}
	page.Days = strconv.Itoa(assessment.TokenDays)
	return v.show(page)
}

func (s *Site) tokensPage(v *visit) (TokensPage, error) {
	page := TokensPage{Frame: v.frame("people")}
	d, err := s.office.Tokens(v.ctx(), v.by())
	for _, t := range d.Tokens {
		line := v.tokenLine(t)
		if line.Ended == "" {
			page.Working = append(page.Working, line)
		} else {
			page.Ended = append(page.Ended, line)
		}
	}
	for _, act := range d.Grant {
		o := Option{Value: string(act), Text: strings.ToUpper(string(act[:1])) + string(act[1:])}
		if !act.Reads() {
			o.Hint = "changes what is kept"
		}
		page.Acts = append(page.Acts, o)
	}
	return page, err
}

func (v *visit) tokenLine(t office.TokenView) TokenLine {
	line := TokenLine{Name: t.Name, Acts: actWords(t.Acts), Made: t.MadeBy.Name + ", " + v.instant(t.MadeAt), Until: v.instant(t.ExpiresAt)}
	if t.UsedAt != nil {
		line.Used = v.instant(*t.UsedAt)
	}
	switch t.Dead {
	case "":
	case assessment.TokenRevoked:
		line.Ended = "Revoked by " + t.RevokedBy.Name + ", " + v.instant(*t.RevokedAt) + "."
	case assessment.TokenRunOut:
		line.Ended = "Its time has run out."
	default:
		line.Ended = t.MadeBy.Name + " may no longer make tokens, so it does not work. If the role comes back, it works again: revoke it if it must not."
	}
	if t.RevokedAt == nil {
		line.Revoke = tokensAt + "/" + string(t.ID) + "/revocation"
	}
	return line
}

func actWords(acts []assessment.Act) string {
	var all []string
	for _, a := range acts {
		all = append(all, string(a))
	}
	return strings.Join(all, ", ")
}

// makeToken makes a token and shows it this once.
func (s *Site) makeToken(v *visit) error {
	f := office.TokenForm{Name: v.form("name"), Acts: v.c.PostFormArray("acts"), Reading: v.ticked("reading"), Days: v.form("days")}
	made, refused := s.office.MakeToken(v.ctx(), v.by(), f)
	if refused == nil {
		return v.show(TokenMadePage{Frame: v.frame("people"), Name: made.Name, Secret: made.Secret, Acts: actWords(made.Acts), Until: v.instant(made.ExpiresAt)})
	}
	page, err := s.tokensPage(v)
	if err != nil {
		return err
	}
	page.Name, page.Reading, page.Days = f.Name, f.Reading, f.Days
	for i := range page.Acts {
		page.Acts[i].Chosen = slices.Contains(f.Acts, page.Acts[i].Value)
	}
	if err := v.take(&page.Faults, refused, "No token is made.", label("name", "Program"), label("acts", "It may"), label("days", "Days")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) revokeToken(v *visit) error {
	id, err := pathID[assessment.TokenID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.RevokeToken(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(tokensAt, "The token is revoked. Whatever used it is shut out.")
}

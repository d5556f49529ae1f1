package demo

import (
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

// carryIn has two nurses bring old papers along, which count for nothing here, and leaves a list of
// new people waiting that asks about one name.
func (s *story) carryIn() {
	s.at(s.hour(s.ago(2), 14, 5), func() error {
		var nurses []*learner
		for _, l := range s.learners {
			if l.kind == assessment.Nurse && l.left.IsZero() {
				nurses = append(nurses, l)
			}
		}
		if len(nurses) < 2 {
			return nil
		}
		rows := []string{"person,skill,client,observed on,valid through,signed by,where"}
		for i, l := range nurses[len(nurses)-2:] {
			shown := s.ago(200 + 40*i)
			rows = append(rows, fmt.Sprintf("%s,bagging,,%s,%s,\"H. Vance, RN\",Alder Creek Home Nursing", l.email, shown, shown.AddDays(365)))
		}
		return s.bringIn(intake.CarriedIn, "old papers.csv", rows)
	})
	s.at(s.hour(s.ago(0), 6, 40), func() error {
		by := s.coordinate[0].Actor
		name := strings.ToUpper(s.learners[len(s.learners)-1].Name)
		_, err := s.office.SendList(s.ctx, by, intake.People, "new in december.csv", []byte("name;kind\nOdalys Finch;nurse\n"+name+";nurse\n"))
		return err
	})
}

func (s *story) bringIn(kind intake.Kind, name string, rows []string) error {
	by := s.coordinate[0].Actor
	id, err := s.office.SendList(s.ctx, by, kind, name, []byte(strings.Join(rows, "\n")))
	if err != nil {
		return err
	}
	v, err := s.office.Import(s.ctx, by, id, nil)
	if err != nil {
		return err
	}
	_, _, err = s.office.CarryOutImport(s.ctx, by, office.ImportForm{ID: id, Version: v.Version})
	return err
}

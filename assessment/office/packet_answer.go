package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// packetAnswer says in words what the packet comes to.
func (o *Office) packetAnswer(ctx context.Context, tx *postgres.Tx, b *packetBook) (PacketAnswer, error) {
	switch b.Kind {
	case PacketOfIncident:
		return o.incidentAnswer(ctx, tx, b)
	case PacketOfPerson:
		return b.personAnswer(), nil
	case PacketOfClient:
		return b.teamAnswer("who looked after " + childInWords(b.names.clients[b.PacketQuestion.Client])), nil
	}
	return b.teamAnswer("in the agency of whom anything was required"), nil
}

func dayInWords(d civil.Date) string {
	y, m, day := d.Civil()
	return fmt.Sprintf("%d %s %d", day, m, y)
}

func childInWords(c ClientRef) string { return c.FirstName + ", " + c.Code }

// nightInWords names what is asked about: a day, or a shift.
func (b *packetBook) nightInWords() string {
	if b.Shift == "" {
		return "On " + dayInWords(b.From)
	}
	i := slices.IndexFunc(b.night.shifts, func(s assessment.Shift) bool { return s.ID == b.Shift })
	s := b.night.shifts[i]
	return "On the shift from " + b.instant(s.Starts) + " to " + b.instant(s.Ends)
}

func (s PacketStanding) forWhom() string {
	if s.Client.ID == "" {
		return s.Skill.Title
	}
	return s.Skill.Title + " for " + childInWords(s.Client)
}

// incidentAnswer: was this person current in this skill on that night? Only if they were
// on every day of it, by each of the three ways to tell it.
func (o *Office) incidentAnswer(ctx context.Context, tx *postgres.Tx, b *packetBook) (PacketAnswer, error) {
	who := b.names.people[b.PacketQuestion.Person].Name
	told := b.told[b.PacketQuestion.Person]
	a := PacketAnswer{Held: true}
	failed := told[0]
	for _, s := range slices.Backward(told) {
		if !s.Held() {
			a.Held, failed = false, s
		}
	}
	if !a.Held {
		a.Finding = fmt.Sprintf("%s, %s was NOT current in %s: %s.", b.nightInWords(), who, failed.forWhom(), failed.inOneWord())
		why, err := o.whyNot(ctx, tx, b, failed)
		a.Because = append(b.onTheRoster(), why...)
		return a, err
	}
	a.Finding = fmt.Sprintf("%s, %s was current in %s.", b.nightInWords(), who, failed.forWhom())
	a.Because = b.onTheRoster()
	last := told[len(told)-1]
	for _, id := range slices.Backward(last.Then.Because) {
		d, err := tx.Demonstrations.Get(ctx, assessment.DemonstrationID(id))
		if err != nil {
			return a, fmt.Errorf("read what a standing rests on: %w", err)
		}
		v, err := o.viewDemonstration(ctx, tx, b.now, d)
		if err != nil {
			return a, err
		}
		a.Records = append(a.Records, d.ID)
		if len(a.Records) == 1 {
			a.Because = append(a.Because, b.byRecord(b.record(v)))
		}
	}
	if n := len(a.Records) - 1; n > 0 {
		a.Because = append(a.Because, fmt.Sprintf("It rests on %s besides, shown below.", countedWords(n, "earlier record", "earlier records")))
	}
	a.Because = append(a.Because, fmt.Sprintf("It held through %s, as was known then.", dayInWords(last.Then.Through)))
	return a, nil
}

// byRecord names the record that a standing rests on, with its signatures.
func (b *packetBook) byRecord(r PacketRecord) string {
	var signed []string
	for _, s := range r.Signatures {
		signed = append(signed, fmt.Sprintf("%s (%s), as %s, on %s", s.PrintedName, s.Licence, s.Part, b.instant(s.SignedAt)))
	}
	return fmt.Sprintf("By the record of %s, observed by %s and signed by %s.", dayInWords(civil.DayOf(r.PerformedAt, b.now.Zone)), r.Observer, strings.Join(signed, " and by "))
}

// inOneWord is the standing that stands, with whose telling it is.
func (s PacketStanding) inOneWord() string {
	switch {
	case !s.Then.Word.Holds():
		return string(s.Then.Word)
	case s.Left:
		return "no longer with the agency"
	case !s.Now.Word.Holds():
		return string(s.Now.Word) + ", by what was signed since"
	}
	return "what it rested on was taken back since"
}

// whyNot says what was lacking, what came too late, and what was taken back.
func (o *Office) whyNot(ctx context.Context, tx *postgres.Tx, b *packetBook, s PacketStanding) ([]string, error) {
	var why []string
	switch {
	case !s.Then.Word.Holds():
		why = append(why, fmt.Sprintf("By what had been written down and signed by %s the standing was: %s.", b.instant(b.known), s.Then.Word))
		if s.Then.Word == assessment.Lapsed && !s.Then.Through.IsZero() {
			why = append(why, "It had held through "+dayInWords(s.Then.Through)+".")
		}
		if needed := s.Then.Next.InWords(); needed != "" {
			why = append(why, "What was needed: "+needed+".")
		}
	case !s.Now.Word.Holds():
		why = append(why, fmt.Sprintf("It was known as %s then. By all that is known now the standing of that day is: %s.", s.Then.Word, s.Now.Word))
	}
	if s.Now.Word.Holds() && !s.Then.Word.Holds() {
		why = append(why, fmt.Sprintf("What came only later makes that day %s now. That was not known on that night.", s.Now.Word))
	}
	for _, m := range b.records[b.PacketQuestion.Person] {
		d, err := tx.Demonstrations.Get(ctx, m.ID)
		if err != nil {
			return why, err
		}
		v, err := o.viewDemonstration(ctx, tx, b.now, d)
		if err != nil {
			return why, err
		}
		r := b.record(v)
		if len(r.Late) > 0 && r.Formal {
			why = append(why, fmt.Sprintf("The demonstration of %s (%s) was %s.", dayInWords(civil.DayOf(r.PerformedAt, b.now.Zone)), r.Outcome, strings.Join(r.Late, ", ")))
		}
		if r.CorrectedAt != nil && r.Formal {
			why = append(why, fmt.Sprintf("The demonstration of %s counts no more: %s", dayInWords(civil.DayOf(r.PerformedAt, b.now.Zone)), strings.TrimSpace(r.Correction)))
		}
	}
	return why, nil
}

// personAnswer counts what somebody held of what was required of them.
func (b *packetBook) personAnswer() PacketAnswer {
	who := b.names.people[b.PacketQuestion.Person].Name
	a := PacketAnswer{}
	required, held := 0, 0
	var lacked, later []string
	for _, s := range b.told[b.PacketQuestion.Person] {
		if s.Differs() {
			later = append(later, s.forWhom())
		}
		if !s.Required {
			continue
		}
		required++
		if s.Held() {
			held++
			continue
		}
		lacked = append(lacked, s.forWhom()+" ("+s.inOneWord()+")")
	}
	a.Held = required > 0 && held == required
	switch {
	case required == 0:
		a.Finding = fmt.Sprintf("%s, no skill was required of %s.", b.nightInWords(), who)
	case a.Held:
		a.Finding = fmt.Sprintf("%s, %s was current in all %s that were required of them.", b.nightInWords(), who, countedWords(required, "skill", "skills"))
		if required == 1 {
			a.Finding = fmt.Sprintf("%s, %s was current in the one skill that was required of them.", b.nightInWords(), who)
		}
	default:
		a.Finding = fmt.Sprintf("%s, %s was NOT current in %d of the %s that were required of them.", b.nightInWords(), who, len(lacked), countedWords(required, "skill", "skills"))
		a.Because = append(a.Because, "Not current: "+strings.Join(lacked, "; ")+".")
	}
	if len(later) > 0 {
		a.Because = append(a.Because, "Told otherwise since: "+strings.Join(later, "; ")+". Both tellings stand in the list, and the one that withholds counts.")
	}
	return a
}

// teamAnswer counts of several people who was current in all that was required of them.
func (b *packetBook) teamAnswer(among string) PacketAnswer {
	asked, whole, later, records := 0, 0, 0, b.total()
	var lack []string
	for _, person := range b.order {
		required, held := 0, 0
		for _, s := range b.told[person] {
			later += map[bool]int{true: 1}[s.Differs()]
			if s.Required {
				required++
				held += map[bool]int{true: 1}[s.Held()]
			}
		}
		asked += min(required, 1)
		if required > 0 && held == required {
			whole++
		} else if required > 0 {
			lack = append(lack, fmt.Sprintf("%s in %d", b.names.people[person].Name, required-held))
		}
	}
	a := PacketAnswer{Held: asked > 0 && asked == whole}
	night := b.nightInWords()
	if b.Kind == PacketOfPeriod {
		night = "On " + dayInWords(b.Through) + ", the last day of the period"
	}
	a.Finding = fmt.Sprintf("%s, %d of %s %s were current in all that was required of them.", night, whole, countedWords(asked, "person", "people"), among)
	if len(lack) > 0 && len(lack) <= 12 {
		a.Because = append(a.Because, "Not current: "+strings.Join(lack, "; ")+".")
	} else if len(lack) > 0 {
		a.Because = append(a.Because, fmt.Sprintf("Not current: %d people, each named below.", len(lack)))
	}
	a.Because = append(a.Because, countedWords(records, "record is", "records are")+" shown.")
	if later > 0 {
		a.Because = append(a.Because, countedWords(later, "standing is", "standings are")+" told otherwise now than they were known then. Both tellings stand in the lists, and the one that withholds counts.")
	}
	return a
}

// countedWords is a number with its noun.
func countedWords(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

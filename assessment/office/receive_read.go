package office

import (
	"context"
	"crypto/sha256"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/written"
)

// ReceiveForm is a sheet as a device sends it.
type ReceiveForm struct {
	ID        assessment.DemonstrationID // that the device made
	Device    assessment.DeviceID
	Sheet     string // the exact text that was signed
	Signature string // r and s, base64url
	SentAt    time.Time
}

// incoming is a sheet that has been read.
type incoming struct {
	ReceiveForm
	text      written.Sheet
	sha256    [32]byte
	signature assessment.DeviceSignature
	clocks    assessment.Clocks // Received is not known yet
	learner   assessment.PersonID
	client    assessment.ClientID
	revision  assessment.RevisionID
	outcome   assessment.Outcome // by the device
	marks     []postgres.SheetMark
}

func (f ReceiveForm) read() (incoming, error) {
	in := incoming{ReceiveForm: f, sha256: sha256.Sum256([]byte(f.Sheet))}
	if _, err := assessment.MadeAt(f.ID); err != nil {
		return in, err
	}
	var err error
	if in.signature, err = assessment.ReadDeviceSignature(f.Signature); err != nil {
		return in, err
	}
	if in.text, err = written.ReadSheet(f.Sheet); err != nil {
		return in, err
	}
	if in.text.ID != string(f.ID) {
		return in, fault.Of(fault.Invalid, "This sheet was sent under another id than it has.")
	}
	if y := f.SentAt.UTC().Year(); y < 1970 || y > 9999 {
		return in, fault.Of(fault.Invalid, "Say when it was sent, by the clock of the device.")
	}
	micro := func(at time.Time) time.Time { return at.UTC().Truncate(time.Microsecond) }
	in.clocks = assessment.Clocks{Performed: micro(in.text.PerformedAt), Finished: micro(in.text.FinishedAt), Sent: micro(f.SentAt)}
	if at, err := assessment.MadeAt(in.text.Pack); err == nil { // the office made it, by its own clock
		in.clocks.Packed = at
	}
	if err := in.readIDs(); err != nil {
		return in, err
	}
	return in, in.readMarks()
}

func (in *incoming) readIDs() error {
	var err error
	if in.learner, err = assessment.ParseID[assessment.PersonID](in.text.Learner); err != nil {
		return err
	}
	if in.revision, err = assessment.ParseID[assessment.RevisionID](in.text.Revision); err != nil {
		return err
	}
	if in.text.Client != "" {
		if in.client, err = assessment.ParseID[assessment.ClientID](in.text.Client); err != nil {
			return err
		}
	}
	in.outcome = assessment.Outcome(in.text.Outcome.Outcome)
	if !slices.Contains([]assessment.Outcome{assessment.Competent, assessment.NotYetCompetent, assessment.StoppedForSafety}, in.outcome) {
		return fault.Of(fault.Invalid, "This sheet says an outcome that there is not.")
	}
	if s := in.text.Outcome.Score; s != nil {
		_, err = assessment.ParseNumber(*s)
	}
	return err
}

// readMarks takes the words of a sheet as they are kept in the record: what cannot be
// seen or printed is left out there; the text itself is kept as it was signed.
func (in *incoming) readMarks() error {
	var faults form
	in.text.Place = faults.line("place", placeLine(in.text.Place), mostPlace, "The sheet does not say where it was shown.")
	for _, words := range []*string{&in.text.StopReason, &in.text.TalkedOver.Note, &in.text.TalkedOver.Practise} {
		*words = faults.words("words", printed(*words), 2000)
	}
	for i := range in.text.TakenBack {
		in.text.TakenBack[i].Reason = faults.words("words", printed(in.text.TakenBack[i].Reason), 2000)
	}
	for _, m := range in.text.Marks {
		mark := postgres.SheetMark{Step: m.Step, Mark: assessment.Mark(m.Mark), NotApplicable: m.NotApplicable, MarkedAt: m.MarkedAt.UTC().Truncate(time.Microsecond),
			Reason: faults.words("words", printed(m.Reason), 2000), Note: faults.words("words", printed(m.Note), 2000), Readings: map[string]postgres.Reading{}}
		for name, r := range m.Readings {
			mark.Readings[name] = postgres.Reading{Value: r.Value, Unit: r.Unit}
		}
		in.marks = append(in.marks, mark)
	}
	return faults.Err()
}

const mostPlace = 200 // characters

// placeLine is a place as a record has it. Nobody can type it again on a finished sheet,
// so what is unseen or too long is cut and is no reason to refuse what was seen there.
func placeLine(text string) string {
	line := strings.Join(strings.Fields(printed(text)), " ")
	if hides(line) {
		line = strings.Map(func(r rune) rune {
			if unseen(r) {
				return -1
			}
			return r
		}, line)
	}
	if all := []rune(line); len(all) > mostPlace {
		line = string(all[:mostPlace])
	}
	return strings.TrimSpace(line)
}

func printed(text string) string {
	return strings.Map(func(r rune) rune {
		if unprintable(r) || r == '\u2028' || r == '\u2029' {
			return -1
		}
		return r
	}, strings.ReplaceAll(text, "\r\n", "\n"))
}

// undone is what stood against the learner on the device and was taken back there.
func (in incoming) undone() []postgres.Undone {
	var all []postgres.Undone
	for _, t := range in.text.TakenBack {
		all = append(all, postgres.Undone{At: t.At, Step: t.Step, Reason: t.Reason})
	}
	return all
}

// differs reports whether the device made something else of the marks.
func (in incoming) differs(r assessment.Result) bool {
	said := in.text.Outcome
	if in.outcome != r.Outcome || (said.Score == nil) != (r.Score == nil) || len(said.Reasons) != len(r.Reasons) {
		return true
	}
	if r.Score != nil {
		if n, err := assessment.ParseNumber(*said.Score); err != nil || n.Cmp(*r.Score) != 0 {
			return true
		}
	}
	for i, why := range r.Reasons {
		if said.Reasons[i] != (written.SheetReason{Rule: string(why.Rule), Step: why.Step, Of: why.Of}) {
			return true
		}
	}
	return false
}

// sheetReceived is what a sheet is about, if it can be a record at all. Who may observe
// and what comes first is asked of a pass only, later.
func (o *Office) sheetReceived(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, in incoming) (postgres.Sheet, *assessment.Checklist, error) {
	s := postgres.Sheet{ID: in.ID, LearnerID: in.learner, ObserverID: by.Person, RevisionID: in.revision, ClientID: in.client, Place: in.text.Place,
		RealClient: in.text.Real, Formal: in.text.Formal, Stopped: in.text.Stopped, StopReason: in.text.StopReason, OpenedAt: now.At}
	switch {
	case in.text.Agency != now.Agency.Code:
		return s, nil, fault.Of(fault.Refused, "This sheet was filled in for another agency. Sign in there to send it.")
	case in.learner == by.Person:
		return s, nil, fault.Of(fault.Refused, "You cannot observe yourself. Ask another observer.")
	}
	if err := namedOn(ctx, tx, by, &s); err != nil {
		return s, nil, err
	}
	revision, err := tx.Checklists.Revision(ctx, in.revision)
	if err != nil {
		return s, nil, err
	}
	skill, err := tx.Checklists.Skill(ctx, revision.SkillID)
	if err != nil {
		return s, nil, err
	}
	s.SkillID, s.Revision, s.Title = skill.ID, revision.Number, revision.Title
	switch {
	case skill.Code != in.text.Skill:
		return s, nil, fault.Of(fault.Invalid, "This sheet names a skill and the checklist of another one.")
	case skill.Scope == assessment.ClientSpecific && in.client == "":
		return s, nil, fault.Of(fault.Invalid, "This skill is held for one child and that child's equipment, and the sheet names no child.")
	case revision.InForceAt == nil:
		return s, nil, fault.Of(fault.Refused, "The checklist of this sheet is a draft that was never in force.")
	}
	list, err := o.listOf(ctx, tx, revision)
	return s, list, err
}

// namedOn fills in the names that a record prints.
func namedOn(ctx context.Context, tx *postgres.Tx, by assessment.Actor, s *postgres.Sheet) error {
	learner, err := tx.People.Get(ctx, s.LearnerID)
	if err != nil {
		return err
	}
	observer, err := tx.People.Get(ctx, by.Person)
	if err != nil {
		return err
	}
	s.Learner, s.Observer = learner.Name, observer.Name
	if s.ClientID == "" {
		return nil
	}
	client, err := tx.Clients.Get(ctx, s.ClientID)
	s.Client = client.FirstName + ", " + client.Code
	return err
}

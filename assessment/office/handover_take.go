package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/handover"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// TakeInForm carries in what a neighbour's file says of somebody.
type TakeInForm struct {
	Person assessment.PersonID
	Client assessment.ClientID // which child of ours the one child in the file is; empty: nobody here, and what was shown for one child is left out
	Same   bool                // whoever takes it in says that the file is about this person
	Named  string              // the name in the file, typed by them where it is not the person's here
	File   []byte
}

// TakenIn says what was carried in of a file, and what was not.
type TakenIn struct {
	From       string // what the neighbour is called here
	New, There int
	Left       []string // titles of what was held there and is not carried in: no such skill here, or for a child
}

// TakeInHandover carries in what somebody held by an unchanged file of a neighbour, with the
// file itself as its paper. No standing comes of it. The same file twice adds nothing.
func (o *Office) TakeInHandover(ctx context.Context, by assessment.Actor, f TakeInForm) (TakenIn, error) {
	var done TakenIn
	if err := by.May(assessment.TakeIn); err != nil {
		return done, err
	}
	v := openHandover(f.File)
	err := o.as(ctx, by, assessment.TakeIn, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Get(ctx, f.Person)
		switch {
		case err != nil:
			return err
		case len(v.Changed) > 0:
			return faultAt("page", "This file was changed, so nothing of it was taken in. "+v.Changed[0].Phrase().String())
		case !f.Same:
			return faultAt("same", "Say that the file is about this person. It names "+v.Opened.Handover.About.Person.Name+".")
		}
		if err := tx.Neighbours.Lock(ctx); err != nil { // so that none is ended meanwhile, and of two that send it one is first
			return err
		}
		n, err := neighbourOf(ctx, tx, v)
		if err != nil {
			return err
		}
		if gone(p.LeftOn, now.Today) {
			return fault.Of(fault.Refused, "%s is no longer with the agency.", p.Name)
		}
		if err := f.ofThem(v.Opened.Handover.About.Person.Name, p.Name); err != nil {
			return err
		}
		if f.Client != "" {
			if _, err := tx.Clients.Get(ctx, f.Client); err != nil {
				return faultAt("client", "Choose the child again.")
			}
		}
		done = TakenIn{From: n.Name}
		if err := o.takeIn(ctx, tx, now, by, f, v.Opened, n, &done); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.TakeIn, "proof from elsewhere", string(f.Person))
	})
	return done, err
}

// ofThem refuses somebody else's file: a tick is soon set. Where the names differ, as after a
// wedding, the other one is typed.
func (f TakeInForm) ofThem(inFile, here string) error {
	theirs := intake.NewName(inFile)
	if like := theirs.Like(intake.NewName(here)); like == intake.SameName || like == intake.Alike {
		return nil
	}
	if like := theirs.Like(intake.NewName(f.Named)); f.Named != "" && (like == intake.SameName || like == intake.Alike) {
		return nil
	}
	return faultAt("named", "The file is about "+inFile+", and this is "+here+". If they are one person, type the name that the file has.")
}

// neighbourOf is the known neighbour whose file it is.
func neighbourOf(ctx context.Context, tx *postgres.Tx, v CheckedHandover) (postgres.Neighbour, error) {
	house, err := assessment.ParseID[string](v.Opened.Handover.About.Agency.ID)
	if err != nil {
		return postgres.Neighbour{}, faultAt("page", "The file names no agency.")
	}
	found, err := tx.Neighbours.ByKey(ctx, v.Opened.Key, house)
	switch {
	case err != nil:
		return postgres.Neighbour{}, err
	case len(found) == 0:
		return postgres.Neighbour{}, faultAt("page", "This file is unchanged, but its key is not known here, so anybody may have made it. An administrator enters the agency as a neighbour, and a second person agrees. Its fingerprint is "+v.Fingerprint+".")
	case found[0].EndedAt != nil:
		return postgres.Neighbour{}, faultAt("page", "This file is signed by a key of "+found[0].Name+" that is not trusted here any more: "+found[0].EndReason)
	}
	return found[0], nil
}

func (o *Office) takeIn(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f TakeInForm, file handover.Opened, n postgres.Neighbour, done *TakenIn) error {
	lines, err := o.linesOf(ctx, tx, f, file, n, done)
	if err != nil {
		return err
	}
	if len(lines) == 0 {
		return nothingIn(done.Left)
	}
	kept, err := tx.CarriedIn.Of(ctx, f.Person)
	if err != nil {
		return err
	}
	var shows []assessment.RecordID
	for _, l := range lines {
		if i := slices.IndexFunc(kept, func(k postgres.CarriedLine) bool { return sameLine(k, l) }); i >= 0 {
			shows = append(shows, kept[i].ID)
			done.There++
			continue
		}
		if l.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		l.BroughtBy, l.BroughtAt = by.Person, now.At
		if err := tx.CarriedIn.Add(ctx, l); err != nil {
			return fmt.Errorf("carry in what a neighbour says: %w", err)
		}
		kept = append(kept, l)
		shows = append(shows, l.ID)
		done.New++
	}
	return o.keepFile(ctx, tx, now, by, f, shows)
}

// nothingIn says why a file has nothing to carry in, and names what was held there.
func nothingIn(left []string) error {
	if len(left) == 0 {
		return faultAt("page", "Nothing was held on the day of this file, so there is nothing to carry in.")
	}
	return faultAt("page", "Nothing in this file can be carried in. Your agency does not have these skills, or they were shown for one child whom you did not choose: "+strings.Join(left, ", ")+".")
}

// sameLine leaves out through when it holds there: a newer file may say a later day.
func sameLine(a, b postgres.CarriedLine) bool {
	return a.SkillID == b.SkillID && a.ClientID == b.ClientID && a.ObservedOn == b.ObservedOn && a.Signer == b.Signer && a.Place == b.Place
}

// keepFile attaches the file, to the byte, to what it shows.
func (o *Office) keepFile(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f TakeInForm, shows []assessment.RecordID) error {
	papers, err := tx.CarriedIn.Papers(ctx, f.Person)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(f.File)
	there := slices.ContainsFunc(papers, func(p postgres.CarriedPaper) bool { return slices.Equal(p.SHA256, sum[:]) })
	if !there && len(papers) >= MostCarriedPapers {
		return fault.Of(fault.Refused, "At most %d old papers are kept of one person. Take off what is no longer needed.", MostCarriedPapers)
	}
	paper := postgres.CarriedPaper{PersonID: f.Person, MediaType: SignedFile, Content: f.File, Sheets: 1, AttachedBy: by.Person, AttachedAt: now.At}
	if paper.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
		return err
	}
	return tx.CarriedIn.Attach(ctx, paper, shows)
}

// SignedFile is the media type of a neighbour's file among old papers.
const SignedFile = "application/json"

func hashText(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

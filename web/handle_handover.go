package web

import (
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/handover"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

const (
	checkPath  = "/check"
	takeInPath = "/people/:id/carried-in/files"
)

func handoverAt(id assessment.PersonID) string { return "/people/" + string(id) + "/handover" }

// handover is how somebody takes their proof along.
func (s *Site) handover(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	who, err := s.office.HandoverDesk(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	page := HandoverPage{Frame: v.frame(""), Name: who.Name, Own: id == v.by().Person, File: handoverAt(id) + ".json", Transcript: transcriptOf(id, ""), CheckAt: checkPath, Back: "/people/" + string(id)}
	return v.show(page)
}

// handoverFile hands the signed file out.
func (s *Site) handoverFile(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.Handover(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	v.asFile(name)
	v.c.Data(http.StatusOK, office.SignedFile, body)
	return nil
}

// sentFile is a signed file that was sent.
func (v *visit) sentFile() ([]byte, error) {
	if v.tooLarge {
		return nil, office.PageTooLarge()
	}
	header, err := v.c.FormFile("page")
	if err != nil {
		return nil, fault.Of(fault.Invalid, "Nothing was sent. Choose the file first.")
	}
	file, err := header.Open()
	if err != nil {
		return nil, fmt.Errorf("open the file that was sent: %w", err)
	}
	defer file.Close()
	sent, err := io.ReadAll(io.LimitReader(file, handover.MostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read the file that was sent: %w", err)
	}
	return sent, nil
}

// checkFile answers anybody who holds a file. Nothing of it is kept.
func (s *Site) checkFile(v *visit) error {
	sent, err := v.sentFile()
	if err != nil {
		page := CheckPage{Frame: v.frame("")}
		if err := v.take(&page.FileFaults, err, v.say("The file was not checked.")); err != nil {
			return err
		}
		return v.again(page)
	}
	c, err := s.office.CheckHandover(v.ctx(), sent)
	if err != nil {
		return err
	}
	page := HandoverCheckPage{Frame: v.frame("")}
	page.answer(v.words(), c)
	return v.show(page)
}

func (p *HandoverCheckPage) answer(w wording.Words, c office.CheckedHandover) {
	for _, f := range c.Changed {
		p.Changed = append(p.Changed, w.Of(f.Phrase()))
	}
	if p.Answer = c.Answer(); len(c.Changed) > 0 {
		return
	}
	for _, k := range c.KnownBy {
		if k.Ended.IsZero() {
			p.Knows = append(p.Knows, w.Say("%s knows this key as that of %s.", k.Agency, k.As))
		} else {
			p.Knows = append(p.Knows, w.Say("%s knew this key as that of %s, and has not trusted it since %s.", k.Agency, k.As, w.ShortDay(k.Ended)))
		}
	}
	b := c.Opened.Handover
	p.Fingerprint, p.SHA256, p.Of, p.Who, p.Invented, p.Gone, p.Erased = c.Fingerprint, c.SHA256, b.About.Agency.Name, b.About.Person.Name, b.About.Demo, c.Gone, c.Erased
	p.Frame.Demo = p.Frame.Demo || b.About.Demo
	p.Day, p.Made = fileDay(w, b.About.Day), fileInstant(w, b.About)
	for _, d := range c.Later {
		p.Later = append(p.Later, w.ShortDay(d))
	}
	for _, h := range b.Held {
		p.Held = append(p.Held, handoverHeld(w, h))
	}
	for i, e := range b.Entries {
		line := handoverEntry(w, i+1, e)
		if i < len(c.Since) {
			line.Since = sinceWords(w, c.Since[i])
		}
		p.Entries = append(p.Entries, line)
	}
}

// takeInHandover carries in what a neighbour's file says.
func (s *Site) takeInHandover(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	client, err := formID[assessment.ClientID](v, "client")
	if err != nil {
		return err
	}
	sent, err := v.sentFile()
	var done office.TakenIn
	if err == nil {
		done, err = s.office.TakeInHandover(v.ctx(), v.by(), office.TakeInForm{Person: id, Client: client, Same: v.ticked("same"), Named: v.form("named"), File: sent})
	}
	if err == nil {
		return v.to(carriedAt(id), takenInWords(done))
	}
	faults, unknown := v.wrong(err, "Nothing was taken in.", label("page", "File"), label("client", "The one child in the file is"), label("same", "About this person"), label("named", "Name in the file"))
	if unknown != nil {
		return unknown
	}
	page, err := s.carriedInPage(v)
	if err != nil {
		return err
	}
	page.FileFaults, page.Client, page.Same, page.Named = faults, string(client), v.ticked("same"), v.form("named")
	return v.again(page)
}

func takenInWords(t office.TakenIn) string {
	said := "From " + t.From + ": " + count(t.New, "line is", "lines are") + " carried in"
	if t.There > 0 {
		said += ", " + strconv.Itoa(t.There) + " stood here before"
	}
	if n := len(t.Left); n > 0 {
		said += ". Left out: " + count(n, "skill that your agency does not have, or that was", "skills that your agency does not have, or that were") + " shown for a child you did not choose: " + strings.Join(t.Left, ", ")
	}
	return said + ". It makes nobody current."
}

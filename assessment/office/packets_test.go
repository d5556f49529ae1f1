package office_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// drawer writes a packet as plain text. Before each person it does what the test says.
type drawer struct {
	bytes.Buffer
	before func() error
}

func (d *drawer) Begin(p office.Packet) error {
	fmt.Fprintln(d, p.Kind, p.AskedAt.UTC(), p.Answer.Finding, p.Head.Size)
	return nil
}

func (d *drawer) Person(p office.PacketPerson) error {
	fmt.Fprintln(d, p.Person.Name, len(p.Standings), len(p.Records))
	return d.before()
}

func (d *drawer) End(t office.PacketTail) error {
	fmt.Fprintln(d, len(t.Observers), len(t.Revisions))
	return nil
}

func (d *drawer) Finish() ([]byte, []byte, int, error) { return []byte("a paper"), d.Bytes(), 3, nil }

// packetWard is a ward that makes packets, in which before is done before each person.
func packetWard(t *testing.T, before func() error) (*ward.Ward, assessment.ClientID, assessment.Actor) {
	t.Helper()
	w := ward.New(t, func(o *office.Options) {
		o.Packet = func() office.PacketDrawer { return &drawer{before: before} }
	})
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	newRevision(t, w, "humidifier", oneIsEnough, "")
	w.Join(nan, mira)
	w.Demonstrate(nan, "humidifier", mira)
	return w, mira, nan
}

// working has the house do what was put off until the answer is yes.
func working(t *testing.T, w *ward.Ward, programs int, so func() bool) {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, programs)
	for range programs {
		go func() { done <- w.Office.Work(ctx) }()
	}
	for range 1200 {
		if so() {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	stop()
	for range programs {
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	if !so() {
		t.Fatal("waited in vain")
	}
}

func state(t *testing.T, w *ward.Ward, by assessment.Actor, id assessment.PacketID) office.PacketView {
	t.Helper()
	return must(w.Office.PacketState(t.Context(), by, id))(t)
}

// A packet that is asked for is made beside, by however many programs work, and there is
// one; asked for again under the same id there is still one. It is deleted when its time
// is over.
func TestAPacketIsMadeOnce(t *testing.T) {
	t.Parallel()
	var begun atomic.Int32
	w, _, nan := packetWard(t, func() error { begun.Add(1); return nil })
	f := office.PacketForm{ID: ward.NewID(w.Now()), Kind: "person", Person: nan.Person}
	v := must(w.Office.AskPacket(t.Context(), w.Coordinator, f))(t)
	if again := must(w.Office.AskPacket(t.Context(), w.Coordinator, f))(t); again.ID != v.ID || v.State != postgres.PacketWaiting {
		t.Errorf("%+v, %+v", v, again)
	}
	if _, _, _, err := w.Office.PacketFiles(t.Context(), w.Coordinator, v.ID); fault.KindOf(err) != fault.Conflict {
		t.Errorf("before it is made: %v", err)
	}
	_, err := w.Office.AskPacket(t.Context(), w.Admin, f)
	wantRefusal(t, err, fault.Conflict, "another packet under this id")
	working(t, w, 2, func() bool { return state(t, w, w.Coordinator, v.ID).Ready() })
	got := state(t, w, w.Coordinator, v.ID)
	_, pdf, data, err := w.Office.PacketFiles(t.Context(), w.Coordinator, v.ID)
	if err != nil || string(pdf) != "a paper" || !bytes.Contains(data, []byte("Nan Orme")) || got.Done != 1 || got.Total != 1 || got.Pages != 3 {
		t.Errorf("%v: %+v\n%s", err, got, data)
	}
	if n := begun.Load(); n != 1 {
		t.Errorf("begun %d times", n)
	}
	w.Pass((office.PacketDays - 1) * 24 * time.Hour)
	wantNone(t, w.Office.Clean(t.Context()))
	state(t, w, w.Coordinator, v.ID)
	w.Pass(25 * time.Hour)
	wantNone(t, w.Office.Clean(t.Context()))
	if _, err := w.Office.PacketState(t.Context(), w.Coordinator, v.ID); fault.KindOf(err) != fault.NotFound {
		t.Errorf("after its time: %v", err)
	}
}

// A program that is killed while it makes a packet leaves nothing behind: another one makes
// it anew, as all was known when it was asked for.
func TestAPacketOfAKilledProgramIsMadeAnew(t *testing.T) {
	t.Parallel()
	killed, dying := make(chan bool), errors.New("killed")
	var tries atomic.Int32
	w, mira, nan := packetWard(t, func() error {
		if tries.Add(1) == 1 {
			close(killed)
			return dying
		}
		return nil
	})
	v := must(w.Office.AskPacket(t.Context(), w.Coordinator, office.PacketForm{Kind: "person", Person: nan.Person}))(t)
	working(t, w, 1, func() bool {
		select {
		case <-killed:
			return true
		default:
			return false
		}
	})
	if s := state(t, w, w.Coordinator, v.ID); s.State != postgres.PacketMaking {
		t.Errorf("%+v", s)
	}
	w.Pass(3 * time.Minute)
	w.Demonstrate(nan, "humidifier", mira) // since it was asked for
	working(t, w, 2, func() bool { return state(t, w, w.Coordinator, v.ID).Ready() })
	_, _, data, err := w.Office.PacketFiles(t.Context(), w.Coordinator, v.ID)
	if err != nil || !bytes.Contains(data, []byte("Nan Orme 1 1\n")) || tries.Load() != 2 {
		t.Errorf("%v, %d tries:\n%s", err, tries.Load(), data)
	}
}

// What cannot be made says why, and asking has an end.
func TestAPacketThatCannotBeMadeSaysWhy(t *testing.T) {
	t.Parallel()
	w, _, nan := packetWard(t, func() error { return fault.Of(fault.Refused, "This packet would have too many pages.") })
	v := must(w.Office.AskPacket(t.Context(), w.Coordinator, office.PacketForm{Kind: "person", Person: nan.Person}))(t)
	for range 4 {
		must(w.Office.AskPacket(t.Context(), w.Coordinator, office.PacketForm{Kind: "person", Person: nan.Person}))(t)
	}
	_, err := w.Office.AskPacket(t.Context(), w.Coordinator, office.PacketForm{Kind: "person", Person: nan.Person})
	wantRefusal(t, err, fault.Refused, "5 packets that you asked for are not made yet")
	working(t, w, 1, func() bool { return state(t, w, w.Coordinator, v.ID).Over() })
	if s := state(t, w, w.Coordinator, v.ID); s.State != postgres.PacketRefused || s.Refused != "This packet would have too many pages." {
		t.Errorf("%+v", s)
	}
	for what, f := range map[string]office.PacketForm{
		"nothing":         {},
		"nobody":          {Kind: "person"},
		"a day to come":   {Kind: "person", Person: nan.Person, On: "2031-01-01"},
		"a period turned": {Kind: "period", From: "2026-01-05", Through: "2026-01-04"},
		"too long":        {Kind: "period", From: "2024-01-01", Through: "2026-01-04"},
		"no child":        {Kind: "incident", Person: nan.Person, Skill: "humidifier"},
		"no such skill":   {Kind: "incident", Person: nan.Person, Skill: "juggling"},
	} {
		if _, err := w.Office.AskPacket(t.Context(), w.Coordinator, f); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// Whoever has left, or lost the role, before a packet of theirs is made does not get it, and
// is not waited for.
func TestAPacketOfWhoeverMayNotHaveItAnyMore(t *testing.T) {
	t.Parallel()
	w, _, nan := packetWard(t, func() error { return nil })
	other := w.Educator("Tove Lind")
	v := must(w.Office.AskPacket(t.Context(), other, office.PacketForm{Kind: "person", Person: nan.Person}))(t)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, other.Person, w.Today()))
	working(t, w, 1, func() bool { return state(t, w, w.Coordinator, v.ID).Over() })
	if s := state(t, w, w.Coordinator, v.ID); s.State != postgres.PacketRefused || s.Attempt != 1 {
		t.Errorf("%+v", s)
	}
}

// A surveyor who was let in for a child finds their own packets alone, and what was made
// under one access is not handed out under another.
func TestASurveyorsPacketsAreTheirOwn(t *testing.T) {
	t.Parallel()
	w, mira, nan := packetWard(t, func() error { return nil })
	ask := func(by assessment.Actor) assessment.PacketID {
		return must(w.Office.AskPacket(t.Context(), by, office.PacketForm{Kind: "child", Client: mira}))(t).ID
	}
	theirs := ask(w.Coordinator)
	sam := w.LetIn(w.Unseeing("Sam Reed"), office.AccessForm{Clients: []assessment.ClientID{mira}})
	own := ask(sam)
	working(t, w, 1, func() bool {
		return state(t, w, w.Coordinator, theirs).Ready() && state(t, w, sam, own).Ready()
	})
	if _, err := w.Office.PacketState(t.Context(), sam, theirs); fault.KindOf(err) != fault.NotFound {
		t.Errorf("another's: %v", err)
	}
	d := must(w.Office.PacketDesk(t.Context(), sam))(t)
	if len(d.Asked) != 1 || d.Asked[0].ID != own || len(d.People) != 1 || d.People[0].ID != nan.Person || len(d.Clients) != 1 || d.Whole {
		t.Errorf("%+v", d)
	}
	if d := must(w.Office.PacketDesk(t.Context(), w.Coordinator))(t); len(d.Asked) != 2 || !d.Whole {
		t.Errorf("%+v", d)
	}
	other := sam
	other.Survey = &assessment.Survey{Clients: []assessment.ClientID{w.Client("3B", "Ivo")}}
	_, _, _, err := w.Office.PacketFiles(t.Context(), other, own)
	wantRefusal(t, err, fault.Refused, "has changed since you asked")
}

package ward

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// WithPackets has surveyors' packets made, as plain text.
func WithPackets(o *office.Options) {
	o.Packet = func() office.PacketDrawer { return &plainPacket{} }
}

// plainPacket tells the answer, and of each person how much there is.
type plainPacket struct{ bytes.Buffer }

func (p *plainPacket) Begin(v office.Packet) error {
	fmt.Fprintln(p, v.Answer.Finding)
	return nil
}

func (p *plainPacket) Person(v office.PacketPerson) error {
	fmt.Fprintln(p, v.Person.Name, len(v.Standings), len(v.Records))
	return nil
}

func (p *plainPacket) End(t office.PacketTail) error {
	fmt.Fprintln(p, len(t.Observers), len(t.Revisions))
	return nil
}

func (p *plainPacket) Finish() (pdf, data []byte, pages int, err error) {
	return append([]byte("%PDF-1.4\n"), p.Bytes()...), append(fmt.Appendf(nil, "{\"told\":%q}", p.String()), '\n'), 1, nil
}

// Packet asks for a packet and has it made.
func (w *Ward) Packet(by assessment.Actor, f office.PacketForm) assessment.PacketID {
	w.tb.Helper()
	id := must(w.Office.AskPacket(w.tb.Context(), by, f))(w.tb).ID
	w.Work(func() bool {
		return must(w.Office.PacketState(w.tb.Context(), by, id))(w.tb).Over()
	})
	return id
}

// Work does what was put off until so says yes; a minute is for ever.
func (w *Ward) Work(so func() bool) {
	w.tb.Helper()
	ctx, stop := context.WithCancel(w.tb.Context())
	done := make(chan error)
	go func() { done <- w.Office.Work(ctx) }()
	for range 1200 {
		if so() {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	stop()
	if err := <-done; err != nil {
		w.tb.Fatal(err)
	}
	if !so() {
		w.tb.Fatal("waited in vain for what was put off")
	}
}

package reports

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"wellshown/assessment/office"
)

// packetJSON writes a packet's data piece by piece, as the office hands it over: it
// never holds more than one person. The same packet gives the same bytes.
type packetJSON struct {
	out    io.Writer
	head   office.Packet
	people int
}

const packetStatement = "Held is said only where the skill was held by what was known then, by what is known now, and without what was taken back since. " +
	"This supports and never replaces the child’s orders, the maker’s instructions, local rules and licensed practice."

func (w *packetJSON) Begin(p office.Packet) error {
	w.head = p
	return w.piece(`{"format":"`+PacketFormat+`","version":1,`+"\n"+`"packet":`, dataHead(p), ",\n\"people\":[")
}

func (w *packetJSON) Person(p office.PacketPerson) error {
	before := "\n"
	if w.people > 0 {
		before = ",\n"
	}
	w.people++
	return w.piece(before, w.person(p), "")
}

func (w *packetJSON) End(t office.PacketTail) error {
	return w.piece("],\n\"common\":", w.common(t), "}\n")
}

func (w *packetJSON) piece(before string, what any, after string) error {
	var text bytes.Buffer
	text.WriteString(before)
	enc := json.NewEncoder(&text)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(what); err != nil {
		return fmt.Errorf("write a packet's data: %w", err)
	}
	text.Truncate(text.Len() - 1) // the encoder's line end
	text.WriteString(after)
	if _, err := w.out.Write(text.Bytes()); err != nil {
		return fmt.Errorf("write a packet's data: %w", err)
	}
	return nil
}

// ReadPacketData reads a packet's data as strictly as it is written: a field that is not
// known, another format or another version is refused.
func ReadPacketData(text []byte) (PacketData, error) {
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	var p PacketData
	if err := dec.Decode(&p); err != nil {
		return p, fmt.Errorf("read a packet's data: %w", err)
	}
	if p.Format != PacketFormat || p.Version != PacketVersion {
		return p, fmt.Errorf("this is %q, version %d, and no packet of version %d", p.Format, p.Version, PacketVersion)
	}
	if _, err := dec.Token(); err != io.EOF {
		return p, fmt.Errorf("something comes after the packet's data")
	}
	return p, nil
}

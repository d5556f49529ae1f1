package reports

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// MostPacketData is how large the data of a packet is at most, in bytes.
const MostPacketData = 192 << 20

// packetDrawing draws a packet: its data first, and then its paper, which names the hash
// of the data.
type packetDrawing struct {
	both
	data  *packetBytes
	paper *packetPaper
}

// NewPacket begins to draw a packet.
func NewPacket() office.PacketDrawer {
	data := &packetBytes{sum: sha256.New()}
	paper := &packetPaper{most: MostPacketPages, digest: func() string { return hex.EncodeToString(data.sum.Sum(nil)) }}
	return &packetDrawing{both{&packetJSON{out: data}, paper}, data, paper}
}

// Finish is both files. The same packet gives the same bytes.
func (d *packetDrawing) Finish() (pdf, data []byte, pages int, err error) {
	if d.paper.paper == nil {
		return nil, nil, 0, errors.New("draw a packet: it never began")
	}
	if pdf, err = d.paper.bytes(); err != nil {
		return nil, nil, 0, fmt.Errorf("draw a packet: %w", err)
	}
	return pdf, d.data.Bytes(), len(d.paper.pages), nil
}

// Packet works a packet out and hands it over at once, in one of PacketFormats.
func (r *Reports) Packet(ctx context.Context, by assessment.Actor, f office.PacketForm, format string) ([]byte, string, error) {
	d := NewPacket()
	if err := r.office.WritePacket(ctx, by, f, office.PacketMoment{}, d, nil); err != nil {
		return nil, "", fmt.Errorf("make a packet: %w", err)
	}
	pdf, data, _, err := d.Finish()
	if err != nil {
		return nil, "", err
	}
	head, err := ReadPacketData(data)
	if err != nil {
		return nil, "", err
	}
	at, err := time.Parse(time.RFC3339, head.Packet.AskedAt)
	if err != nil {
		return nil, "", fmt.Errorf("read when a packet was asked for: %w", err)
	}
	return r.handOut(ctx, by, packetExport(f.Kind, f.Person, f.Client))(asPacket(pdf, data, format, f.Kind, at))
}

// PacketFile hands over a packet that was made, in one of PacketFormats.
func (r *Reports) PacketFile(ctx context.Context, by assessment.Actor, id assessment.PacketID, format string) ([]byte, string, error) {
	v, pdf, data, err := r.office.PacketFiles(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("hand out a packet: %w", err)
	}
	return r.handOut(ctx, by, packetExport(v.Kind, v.PersonID, v.ClientID))(asPacket(pdf, data, format, v.Kind, v.AskedAt))
}

// packetExport is what the journal has of a packet that leaves: whom it is about.
func packetExport(kind string, person assessment.PersonID, client assessment.ClientID) office.Export {
	about := string(person)
	if kind == string(office.PacketOfClient) {
		about = string(client)
	}
	return office.Export{Act: assessment.AskPacket, Paper: "surveyor's packet", Subject: about}
}

// PacketFormats are the forms that a packet is handed out in.
var PacketFormats = []string{"pdf", "json", "zip"}

// asPacket is a packet in one form, with a name for its file.
func asPacket(pdf, data []byte, format, kind string, at time.Time) ([]byte, string, error) {
	name := fileName(format, "packet", kind, at.UTC().Format("2006-01-02"))
	switch format {
	case "pdf":
		return pdf, name, nil
	case "json":
		return data, name, nil
	case "zip":
		all, err := zipped(pdf, data, at)
		return all, name, err
	}
	return nil, "", fault.Of(fault.Invalid, "A packet comes as PDF, as JSON, or as both in one ZIP file.")
}

// both hands each piece of a packet to its data first, and then to its paper, which names
// the hash of the data.
type both struct{ data, paper office.PacketWriter }

func (b both) Begin(p office.Packet) error {
	if err := b.data.Begin(p); err != nil {
		return err
	}
	return b.paper.Begin(p)
}

func (b both) Person(p office.PacketPerson) error {
	if err := b.data.Person(p); err != nil {
		return err
	}
	return b.paper.Person(p)
}

func (b both) End(t office.PacketTail) error {
	if err := b.data.End(t); err != nil {
		return err
	}
	return b.paper.End(t)
}

// packetBytes collects a packet's data and its hash, up to MostPacketData.
type packetBytes struct {
	bytes.Buffer
	sum hash.Hash
}

func (b *packetBytes) Write(piece []byte) (int, error) {
	if b.Len()+len(piece) > MostPacketData {
		return 0, fault.Of(fault.Refused, "This packet would hold more than %d million bytes of data. Ask for a shorter period, or for one person or one child.", MostPacketData>>20)
	}
	b.sum.Write(piece)
	return b.Buffer.Write(piece)
}

// zipped puts both files into one, the same bytes for the same files.
func zipped(pdf, data []byte, at time.Time) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, file := range []struct {
		name string
		body []byte
	}{{"packet.pdf", pdf}, {"packet.json", data}} {
		w, err := z.CreateHeader(&zip.FileHeader{Name: file.name, Method: zip.Deflate, Modified: at.UTC()})
		if err != nil {
			return nil, fmt.Errorf("put %s into the archive: %w", file.name, err)
		}
		if _, err := w.Write(file.body); err != nil {
			return nil, fmt.Errorf("put %s into the archive: %w", file.name, err)
		}
	}
	if err := z.Close(); err != nil {
		return nil, fmt.Errorf("finish the archive: %w", err)
	}
	return out.Bytes(), nil
}

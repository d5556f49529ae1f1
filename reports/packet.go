package reports

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// MostPacketData is how large the data of a packet is at most, in bytes.
const MostPacketData = 96 << 20

// PacketFiles are the two files of a packet.
type PacketFiles struct {
	PDF, Data []byte
	Pages     int
}

// MakePacket works a packet out and draws it. The same question with the same moment
// gives the same bytes. Nothing is handed out by it: whoever hands the files over does that.
func (r *Reports) MakePacket(ctx context.Context, by assessment.Actor, f office.PacketForm, m office.PacketMoment, told func(done, total int) error) (PacketFiles, error) {
	data := &packetBytes{sum: sha256.New()}
	paper := &packetPaper{most: MostPacketPages, digest: func() string { return hex.EncodeToString(data.sum.Sum(nil)) }}
	if err := r.office.WritePacket(ctx, by, f, m, both{&packetJSON{out: data}, paper}, told); err != nil {
		return PacketFiles{}, fmt.Errorf("make a packet: %w", err)
	}
	pdf, err := paper.bytes()
	if err != nil {
		return PacketFiles{}, fmt.Errorf("draw a packet: %w", err)
	}
	return PacketFiles{PDF: pdf, Data: data.Bytes(), Pages: len(paper.pages)}, nil
}

// PacketFormats are the forms that a packet is handed out in.
var PacketFormats = []string{"pdf", "json", "zip"}

// Packet works a packet out and hands it over at once, in one of PacketFormats.
func (r *Reports) Packet(ctx context.Context, by assessment.Actor, f office.PacketForm, format string) ([]byte, string, error) {
	var at time.Time
	files, err := r.MakePacket(ctx, by, f, office.PacketMoment{}, nil)
	if err != nil {
		return nil, "", err
	}
	if head, err := ReadPacketData(files.Data); err != nil {
		return nil, "", err
	} else if at, err = time.Parse(time.RFC3339, head.Packet.AskedAt); err != nil {
		return nil, "", fmt.Errorf("read when a packet was asked for: %w", err)
	}
	return r.handOut(ctx, by, packetExport(f))(files.as(format, f.Kind, at))
}

// packetExport is what the journal has of a packet that leaves: whom it is about.
func packetExport(f office.PacketForm) office.Export {
	about := string(f.Person)
	if f.Kind == string(office.PacketOfClient) {
		about = string(f.Client)
	}
	return office.Export{Act: assessment.AskPacket, Paper: "surveyor's packet", Subject: about}
}

// as is the packet in one form, with a name for its file.
func (f PacketFiles) as(format, kind string, at time.Time) ([]byte, string, error) {
	name := fileName(format, "packet", kind, at.Format("2006-01-02"))
	switch format {
	case "pdf":
		return f.PDF, name, nil
	case "json":
		return f.Data, name, nil
	case "zip":
		all, err := zipped(f, at)
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
func zipped(f PacketFiles, at time.Time) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, file := range []struct {
		name string
		body []byte
	}{{"packet.pdf", f.PDF}, {"packet.json", f.Data}} {
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

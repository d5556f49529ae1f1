package reports

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

// asked is a packet as files, made twice: the same question gives the same bytes.
func (p papers) asked(t *testing.T, f office.PacketForm) (packetFiles, PacketData) {
	t.Helper()
	if _, err := p.Office.LedgerHead(t.Context(), p.Coordinator); err != nil {
		t.Fatal(err)
	}
	head, err := p.Office.LedgerHead(t.Context(), p.Coordinator)
	if err != nil {
		t.Fatal(err)
	}
	m := office.PacketMoment{ID: "019ab000-0000-7000-8000-000000000001", At: p.Now(), Size: head.Size}
	files := p.made(t, f, m)
	p.Pass(time.Hour)
	p.Demonstrate(p.nurse, "humidifier", p.child)
	again := p.made(t, f, m)
	if !bytes.Equal(files.Data, again.Data) || !bytes.Equal(files.PDF, again.PDF) {
		t.Error("worked out anew, after an hour and another record, it differs")
	}
	if *look != "" {
		name := filepath.Join(*look, "packet-"+f.Kind)
		if err := os.WriteFile(name+".pdf", files.PDF, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name+".json", files.Data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	data, err := ReadPacketData(files.Data)
	if err != nil {
		t.Fatal(err)
	}
	return files, data
}

type packetFiles struct{ PDF, Data []byte }

func (p papers) made(t *testing.T, f office.PacketForm, m office.PacketMoment) packetFiles {
	t.Helper()
	d := NewPacket()
	if err := p.Office.WritePacket(t.Context(), p.Coordinator, f, m, d, nil); err != nil {
		t.Fatal(err)
	}
	pdf, data, _, err := d.Finish()
	if err != nil {
		t.Fatal(err)
	}
	return packetFiles{pdf, data}
}

func TestPackets(t *testing.T) {
	p := openPapers(t)
	t.Run("incident", p.incidentPacket)
	t.Run("not held", p.notHeldPacket)
	t.Run("person", p.personPacket)
	t.Run("child", p.childPacket)
	t.Run("period", p.periodPacket)
	t.Run("carried in", p.carriedPacket)
}

func (p papers) incidentPacket(t *testing.T) {
	files, data := p.asked(t, office.PacketForm{Kind: "incident", Person: p.mother.Person, Skill: "circuit-change", Client: p.child, On: p.Today().String()})
	path := filed(t, files.PDF)
	sound(t, "packet", path)
	says(t, path, "Nguyễn Thị Lan was current in Single-limb heated-humidified ventilator circuit change for Mira, 7K", "By the record of", "signed by Edda Lorne (",
		"Checklists and policies in force then", "The standing above rests on it")
	if !data.Packet.Answer.Held || len(data.People) != 1 || len(data.People[0].Records) != 3 {
		t.Errorf("%+v", data.Packet.Answer)
	}
	contentsAreTrue(t, path, data)
	sameNumbers(t, path, data)
	if n := provenAlone(t, data); n < 12 {
		t.Errorf("only %d entries are proven", n)
	}
	for _, r := range data.Common.Revisions {
		if r.Two == nil || r.Two.ProposedBy.Name != r.InForceBy || r.Two.AgreedBy.ID == r.Two.ProposedBy.ID {
			t.Fatalf("%s came in force by %+v", r.Title, r.Two)
		}
		says(t, path, "Proposed by "+r.Two.ProposedBy.Name+" on", "and agreed to by "+r.Two.AgreedBy.Name+" on")
	}
}

func (p papers) notHeldPacket(t *testing.T) {
	files, data := p.asked(t, office.PacketForm{Kind: "incident", Person: p.nurse.Person, Skill: "circuit-change", Client: p.child, On: p.Today().String()})
	says(t, filed(t, files.PDF), "Łucja Żak was NOT current in", ": learning", "What was needed: 3 competent demonstrations", "Critical step 21 was not shown well enough")
	if data.Packet.Answer.Held || data.People[0].Standings[0].Held {
		t.Errorf("%+v", data.Packet.Answer)
	}
}

func (p papers) personPacket(t *testing.T) {
	files, data := p.asked(t, office.PacketForm{Kind: "person", Person: p.nurse.Person, On: p.Today().String()})
	path := filed(t, files.PDF)
	sound(t, "packet", path)
	says(t, path, "Łucja Żak was NOT current in 1 of the 1 skill")
	contentsAreTrue(t, path, data)
	sameNumbers(t, path, data)
	provenAlone(t, data)
}

func (p papers) childPacket(t *testing.T) {
	files, data := p.asked(t, office.PacketForm{Kind: "child", Client: p.child, On: p.Today().String()})
	path := filed(t, files.PDF)
	sound(t, "packet", path)
	says(t, path, "1 of 2 people who looked after Mira, 7K were current", "ventilator", "model one")
	contentsAreTrue(t, path, data)
	sameNumbers(t, path, data)
}

func (p papers) periodPacket(t *testing.T) {
	files, data := p.asked(t, office.PacketForm{Kind: "period", From: "2026-01-01", Through: p.Today().String()})
	path := filed(t, files.PDF)
	sound(t, "packet", path)
	says(t, path, "1 of 2 people in the agency of whom anything was required were current", "not held")
	contentsAreTrue(t, path, data)
	provenAlone(t, data)
}

// contentsAreTrue follows every line of the contents to the page it names: what the line
// says stands there as a heading. There are as many lines as there are people, records
// and parts, and a bookmark for each.
func contentsAreTrue(t *testing.T, path string, data PacketData) {
	t.Helper()
	pages := strings.Split(strings.TrimSuffix(tool(t, "pdftotext", "-layout", path, "-"), "\f"), "\f")
	want := len(data.People) + 3
	if data.Packet.Kind != "period" {
		want++
		for _, person := range data.People {
			want += len(person.Records)
		}
	}
	line := regexp.MustCompile(`^\s*(\S.*\S)\s{2,}(\d+)$`)
	_, after, ok := strings.Cut(strings.Join(pages, "\n"), "What comes")
	listed := 0
	for _, l := range strings.Split(after, "\n") {
		m := line.FindStringSubmatch(l)
		if m == nil || listed == want {
			continue
		}
		listed++
		number, _ := strconv.Atoi(m[2])
		title := strings.Fields(strings.TrimSuffix(m[1], "…"))
		title = title[:min(len(title), 6)] // headings break later than that
		if number < 1 || number > len(pages) || !strings.Contains(strings.Join(strings.Fields(pages[number-1]), " "), strings.Join(title, " ")) {
			t.Errorf("the contents say that “%s” is on page %s of %d", m[1], m[2], len(pages))
		}
	}
	if bookmarks := strings.Count(outline(t, path), `"title"`); !ok || listed != want || bookmarks < want {
		t.Errorf("%d lines of contents, %d bookmarks, and there are %d things to list", listed, bookmarks, want)
	}
}

// outline is the list of bookmarks as qpdf reads it.
func outline(t *testing.T, path string) string {
	t.Helper()
	return tool(t, "qpdf", "--json", "--json-key=outlines", path)
}

// sameNumbers holds what the paper says to its data: the score, the day and the signatures
// of each record, and each place in the ledger.
func sameNumbers(t *testing.T, path string, data PacketData) {
	t.Helper()
	text := strings.Join(strings.Fields(said(t, path)), " ")
	for _, person := range data.People {
		for _, r := range person.Records {
			want := []string{r.ID, r.SignedHash, "Score " + r.Percent + " %, pass mark " + r.PassMark + " %."}
			for _, s := range r.Signatures {
				at, err := time.Parse(time.RFC3339, s.At)
				if err != nil {
					t.Fatal(err)
				}
				want = append(want, s.Name, at.Format("2 Jan 2006, 15:04"))
			}
			for _, proof := range r.Proofs {
				for _, e := range proof.Entries {
					want = append(want, fmt.Sprintf("%d (%s)", e.Position, proof.Kind))
				}
			}
			for _, w := range want {
				if !strings.Contains(strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(w, " ", "")) {
					t.Errorf("record %s: the paper does not say %q", r.ID, w)
				}
			}
		}
	}
}

// What was shown elsewhere is told as that, and nothing rests on it.
func (p papers) carriedPacket(t *testing.T) {
	day := p.Today()
	ask := office.PacketForm{Kind: "person", Person: p.nurse.Person, On: day.String()}
	_, before := p.asked(t, ask)
	list := "person,skill,client,observed on,valid through,signed by,where\nŁucja Żak,circuit-change,7K,2025-06-04,2099-06-04,\"A. Roe, RN\",Old Town Homecare\n"
	id, err := p.Office.SendList(t.Context(), p.Coordinator, intake.CarriedIn, "old.csv", []byte(list))
	if err != nil {
		t.Fatal(err)
	}
	v, err := p.Office.Import(t.Context(), p.Coordinator, id, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, v, err = p.Office.CarryOutImport(t.Context(), p.Coordinator, office.ImportForm{ID: id, Version: v.Version}); err != nil {
		t.Fatal(err, v.Faults)
	}
	p.Pass(24 * time.Hour)
	files, data := p.asked(t, ask)
	path := filed(t, files.PDF)
	says(t, path, "Carried in: shown elsewhere, by old papers", "no standing rests on it", "signed by A. Roe, RN", "Old Town Homecare")
	sameNumbers(t, path, data)
	provenAlone(t, data)
	c := data.People[0].Carried
	if len(c) != 1 || c[0].Late || c[0].Child == nil || c[0].Skill.Code != "circuit-change" || c[0].ObservedOn.String() != "2025-06-04" || data.Packet.Answer.Held || len(before.People[0].Carried) != 0 {
		t.Errorf("%+v", c)
	}
	ask.On = day.AddDays(-1).String()
	if _, data = p.asked(t, ask); len(data.People[0].Carried) != 1 || !data.People[0].Carried[0].Late {
		t.Errorf("of the night before: %+v", data.People[0].Carried)
	}
}

// provenAlone checks every proof by the published algorithm (RFC 9162, section 2.1.3.2),
// written down here once more, and the head by the standard library's Ed25519 over the
// text of the note. It calls nothing of ours.
func provenAlone(t *testing.T, data PacketData) int {
	t.Helper()
	size, root := headAlone(t, data.Packet.Ledger)
	n := 0
	check := func(all []DataProof) {
		for _, p := range all {
			for _, e := range p.Entries {
				n++
				if !leadsTo(e, size, root) {
					t.Fatalf("%s %s at %d does not lead to the root", p.Kind, p.Subject, e.Position)
				}
				forged := e
				forged.Leaf = json.RawMessage(bytes.Replace(e.Leaf, []byte(p.Kind), []byte("x"+p.Kind), 1))
				if leadsTo(forged, size, root) {
					t.Fatal("a leaf that was changed leads to the root as well")
				}
			}
		}
	}
	entered := func(all []DataProof, kinds ...string) {
		check(all)
		for i, kind := range kinds {
			if len(all) != len(kinds) || all[i].Kind != kind || len(all[i].Entries) == 0 {
				t.Fatalf("the ledger is to have %v, and it is %+v", kinds, all)
			}
		}
	}
	for _, person := range data.People {
		for _, r := range person.Records {
			check(r.Proofs)
		}
		for _, c := range person.Carried {
			entered(c.Proofs, "carried_in")
		}
	}
	for _, r := range data.Common.Revisions {
		check(r.Proofs)
		if r.Two != nil {
			entered(r.Two.Proofs, "force_proposal", "force_proposal_end")
		}
		if sum := sha256.Sum256([]byte(r.Text)); hex.EncodeToString(sum[:]) != r.SHA256 {
			t.Errorf("the text of %s is not what its hash says", r.ID)
		}
	}
	for _, e := range data.Common.Equipment {
		check(e.Proofs)
	}
	for _, o := range data.Common.Observers {
		for _, l := range o.Licences {
			check(l.Proofs)
		}
	}
	return n
}

func leadsTo(e DataEntry, size int64, root []byte) bool {
	leaf := sha256.Sum256(append([]byte{0}, e.Leaf...))
	hash := leaf[:]
	inner := func(l, r []byte) []byte {
		sum := sha256.Sum256(append(append([]byte{1}, l...), r...))
		return sum[:]
	}
	fn, sn := e.Position, size-1
	for _, p := range e.Path {
		if sn == 0 {
			return false
		}
		if fn&1 == 1 || fn == sn {
			hash = inner(p, hash)
			for fn&1 == 0 && fn != 0 {
				fn, sn = fn>>1, sn>>1
			}
		} else {
			hash = inner(hash, p)
		}
		fn, sn = fn>>1, sn>>1
	}
	return sn == 0 && bytes.Equal(hash, root)
}

// headAlone reads a signed note: its text up to the blank line, and the signature after
// the four bytes of the key's hash.
func headAlone(t *testing.T, h *DataHeadRef) (int64, []byte) {
	t.Helper()
	text, signed, ok := strings.Cut(h.Head, "\n\n")
	lines, words := strings.Split(text, "\n"), strings.Fields(signed)
	if !ok || len(lines) != 4 || len(words) != 3 {
		t.Fatalf("this is no signed head: %q", h.Head)
	}
	key := h.Keys[len(h.Keys)-1]
	public, err := base64.StdEncoding.DecodeString(key[strings.LastIndex(key, "+")+1:])
	if err != nil || len(public) != 33 {
		// the last part may hold a plus sign itself: name+hash+key
		parts := strings.SplitN(key, "+", 3)
		if public, err = base64.StdEncoding.DecodeString(parts[2]); err != nil || len(public) != 33 {
			t.Fatalf("this is no key: %q", key)
		}
	}
	sig, err := base64.StdEncoding.DecodeString(words[2])
	if err != nil || !ed25519.Verify(public[1:], []byte(text+"\n"), sig[4:]) {
		t.Fatalf("the head's signature does not hold: %v", err)
	}
	size, err := strconv.ParseInt(lines[1], 10, 64)
	if err != nil || size != h.Size {
		t.Fatal(err)
	}
	root, err := base64.StdEncoding.DecodeString(lines[2])
	if err != nil {
		t.Fatal(err)
	}
	return size, root
}

// A packet's data is read strictly: what is not known is refused, and so is what follows.
func TestPacketDataIsReadStrictly(t *testing.T) {
	good := `{"format":"wellshown.packet","version":1,"packet":{},"people":[],"common":{}}`
	if _, err := ReadPacketData([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for what, text := range map[string]string{
		"another format":   strings.Replace(good, "wellshown.packet", "wellshown.other", 1),
		"another version":  strings.Replace(good, `"version":1`, `"version":2`, 1),
		"an unknown field": strings.Replace(good, `"people"`, `"more":1,"people"`, 1),
		"something behind": good + `{}`,
		"half":             good[:40],
	} {
		if _, err := ReadPacketData([]byte(text)); err == nil {
			t.Errorf("%s is taken", what)
		}
	}
}

// What would be too much for one document is refused in plain words.
func TestAPacketHasAnEnd(t *testing.T) {
	d := &packetPaper{most: 1}
	refused := d.Begin(office.Packet{PacketQuestion: office.PacketQuestion{Kind: office.PacketOfPeriod, From: theDay, Through: theDay}, Agency: office.AgencyView{Name: "Larkmoor Home Nursing"},
		Zone: denver(t), AskedAt: issued, KnownAt: issued, People: make([]office.PacketIndex, 200)})
	if fault.KindOf(refused) != fault.Refused || !strings.Contains(refused.Error(), "Ask for a shorter period") {
		t.Errorf("%v", refused)
	}
	b := &packetBytes{sum: sha256.New()}
	if _, err := b.Write(make([]byte, MostPacketData+1)); fault.KindOf(err) != fault.Refused {
		t.Errorf("%v", err)
	}
}

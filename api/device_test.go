package api_test

import (
	"bytes"
	"encoding/json"
	"net/http"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/browser"
	"wellshown/integration/ward"
)

// deviceDoes is what the modules of the bedside made, run by Node.
type deviceDoes struct {
	Key        string
	IDs        []string
	Signatures []string
	Sheet      struct{ ID, Text, Signature string }
}

func askNode(t *testing.T, asked map[string]any) deviceDoes {
	t.Helper()
	src, err := json.Marshal(asked)
	if err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	cmd := exec.CommandContext(t.Context(), browser.Found(t, "node"), filepath.Join("..", "integration", "browser", "signed.mjs"))
	cmd.Stdin, cmd.Stderr = bytes.NewReader(src), &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	var does deviceDoes
	if err := json.Unmarshal(out, &does); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return does
}

// What another implementation signs by ECDSA on P-256 with SHA-256 (Web Cryptography API,
// section 23; Node's is OpenSSL's) verifies here, and its ids are of version 7 (RFC 9562,
// section 5.7) with the instant of appendix A.6.
func TestWebCryptoSignsWhatVerifiesHere(t *testing.T) {
	t.Parallel()
	texts := []string{"sample", "", `{"version":1,"place":"zu Hause, 家, \u2028"}`, strings.Repeat("ß", 200_000)}
	does := askNode(t, map[string]any{"now": 0x017F22E279B0, "texts": texts})
	key, err := assessment.ReadDeviceKey(does.Key)
	if err != nil {
		t.Fatal(err)
	}
	for i, text := range texts {
		s, err := assessment.ReadDeviceSignature(does.Signatures[i])
		if err != nil || !key.Signed(text, s) || key.Signed(text+" ", s) {
			t.Errorf("the signature of %.20q does not verify, or of more: %v", text, err)
		}
		if at, err := assessment.MadeAt(does.IDs[i]); err != nil || at.UnixMilli() != 0x017F22E279B0 {
			t.Errorf("%s is of %v: %v", does.IDs[i], at, err)
		}
	}
}

// What the page of the bedside writes from a pack is taken in, scored the same, and
// counts once it is signed.
func TestWhatThePageWritesIsTakenIn(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	child := d.Client("7K", "Mira")
	nan, owner := d.Nurse("Nan Orme"), d.Educators[0]
	first := d.Device(owner)
	packed := d.get(path("/bedside/pack?device=%s", first.ID), owner).is(http.StatusOK)
	v, err := d.Office.Pack(t.Context(), owner, first.ID)
	d.need(err)
	var marks []map[string]any
	for _, s := range v.Skills {
		if s.Code != "go-bag" {
			continue
		}
		for _, step := range s.Checklist.Steps() {
			f := ward.Form(t, step, parametersOf(v.Clients[0].Parameters, *s.Checklist), assessment.Independent)
			marks = append(marks, map[string]any{"step": step.No, "mark": f.Mark, "readings": f.Readings})
		}
	}
	does := askNode(t, map[string]any{"now": d.Now().UnixMilli(), "texts": []string{"x"}, "pack": json.RawMessage(packed.body), "learner": nan.Person, "skill": "go-bag", "client": child, "marks": marks})
	device := api.DeviceForm{ID: does.IDs[0], Name: "By Node", PublicKey: does.Key}
	d.post("/bedside/devices", owner, device).is(http.StatusCreated)
	d.Pass(time.Hour)
	var got api.SheetReceived
	d.put("/bedside/sheets/"+does.Sheet.ID, owner, api.SheetSent{Device: device.ID, Sheet: does.Sheet.Text, Signature: does.Sheet.Signature, SentAt: d.Now()}).into(http.StatusOK, &got)
	if got.Demonstration.Outcome != "competent" || got.Differs || got.Demonstration.Score.Exact != "1" {
		t.Errorf("taken in: %+v", got)
	}
	var r api.Demonstration
	for _, by := range []struct {
		who  assessment.Actor
		part string
	}{{owner, "observer"}, {nan, "learner"}} {
		d.post(path("/demonstrations/%s/signatures", does.Sheet.ID), by.who, api.SignatureForm{Part: by.part, Signing: api.Signing{Password: ward.Password}}).into(http.StatusCreated, &r)
	}
	if len(r.Signatures) != 2 || r.Bedside.TalkedOver != "Calm. “Good” & <clear>." || len(r.Bedside.Drawn) != 1 || r.Bedside.NameChecked == "" {
		t.Errorf("signed: %+v, %+v", r.Signatures, r.Bedside)
	}
}

// parametersOf are a child's values with the defaults of a checklist.
func parametersOf(ordered assessment.Parameters, c assessment.Checklist) assessment.Parameters {
	known := assessment.Parameters{}
	for _, p := range c.Parameters {
		if p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	for name, q := range ordered {
		known[name] = q
	}
	return known
}

package office_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// bedside is a ward where one demonstration is enough, with a device of its educator.
type bedside struct {
	*ward.Ward
	t      *testing.T
	child  assessment.ClientID
	nurse  assessment.Actor
	device ward.Device
}

func atBedside(t *testing.T, skills ...string) *bedside {
	t.Helper()
	w, mira, nan := quick(t, skills...)
	return &bedside{w, t, mira, nan, w.Device(w.Educators[0])}
}

// send has a sheet filled in now and sent half an hour later, by a right clock.
func (b *bedside) send(skill string, ways ...ward.Way) (office.DemonstrationView, ward.OfflineSheet) {
	b.t.Helper()
	s := b.Fill(b.device, b.nurse, skill, b.child, b.Now(), ways...)
	b.Pass(30 * time.Minute)
	return must(b.Office.Receive(b.t.Context(), b.device.Owner, b.device.Send(s, b.Now())))(b.t), s
}

func (b *bedside) refused(f office.ReceiveForm, kind fault.Kind, says string) {
	b.t.Helper()
	_, err := b.Office.Receive(b.t.Context(), b.device.Owner, f)
	wantRefusal(b.t, err, kind, says)
}

// records counts what was recorded.
func (b *bedside) records() int {
	b.t.Helper()
	return len(must(b.Office.Demonstrations(b.t.Context(), b.Coordinator, postgres.DemonstrationFilter{}))(b.t).Items)
}

// A sheet that comes from a device becomes a record with all that the device kept of it,
// counts once both have signed, and is proven (the issue's own rules, no other source).
func TestASheetFromADevice(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	begun := b.Now()
	v, s := b.send("humidifier")
	if v.Outcome != assessment.Competent || !v.PerformedAt.Equal(begun) || !v.RecordedAt.Equal(b.Now()) || v.Bedside == nil || v.Learner != b.nurse.Name {
		t.Fatalf("received: %+v", v.Demonstration)
	}
	d := v.Bedside
	if d.Name != "The grey tablet" || d.Differs || d.Gap != 0 || d.GapWords() != "" || d.Outcome != assessment.Competent || !d.NameChecked.Equal(begun) || len(d.Bursts) != 0 {
		t.Errorf("of the device: %+v", d)
	}
	if at := v.MarkedAt[2]; at != begun.Add(20*time.Second).Format("2006-01-02T15:04:05.000000Z") {
		t.Errorf("step 2 was marked at %s", at)
	}
	var kept struct{ Device map[string]any }
	wantNone(t, json.Unmarshal([]byte(v.Body), &kept))
	for _, name := range []string{"id", "name", "sheet_sha256", "claimed_performed_at", "sent_at", "received_at", "clock_gap_s", "outcome", "score", "differs", "name_checked_at"} {
		if _, there := kept.Device[name]; !there {
			t.Errorf("the body lacks device.%s: %v", name, kept.Device)
		}
	}
	if word(t, b.Ward, b.nurse, "humidifier", b.child).Holds() {
		t.Error("current before anybody has signed")
	}
	b.Sign(b.device.Owner, v.ID, office.PartObserver)
	signed := b.Sign(b.nurse, v.ID, office.PartLearner)
	if signed.Certificate == nil || !word(t, b.Ward, b.nurse, "humidifier", b.child).Holds() {
		t.Errorf("signed by both: %+v", signed.Certificate)
	}
	again := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now().Add(time.Hour))))(t)
	if string(again.BodySHA256) != string(v.BodySHA256) || again.Bedside.Gap != 0 || b.records() != 1 {
		t.Errorf("sent again, later, signed anew: %+v", again.Bedside)
	}
	indexIsRight(t, b.Ward)
	must(b.Office.SealAll(t.Context()))(t)
	if found := verified(t, b.Office); found.Found != 0 {
		t.Errorf("verify found %s", listed(found))
	}
}

// One record, however many send the same at once (RFC 9110, section 9.2.2: PUT is
// idempotent).
func TestTheSameSheetManyTimesAtOnce(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
	b.Pass(time.Hour)
	form := b.device.Send(s, b.Now())
	hashes := make([]string, 32)
	atOnce(len(hashes), func(i int) {
		v, err := b.Office.Receive(t.Context(), b.device.Owner, form)
		if err != nil {
			t.Errorf("one of many: %v", err)
		}
		hashes[i] = string(v.BodySHA256)
	})
	for _, h := range hashes {
		if h != hashes[0] || h == "" {
			t.Error("not all got the same answer")
		}
	}
	if n := b.records(); n != 1 {
		t.Errorf("%d records", n)
	}
}

// What is talked over, what was drawn and what was taken back stand in the record; marks
// made in one go are named (common practice, no source).
func TestWhatADeviceKeepsBesideTheMarks(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
	for i := range s.Marks {
		s.Marks[i].MarkedAt = ward.ByDevice(b.Now().Add(time.Duration(i) * time.Second))
	}
	s.TalkedOver = map[string]string{"note": "Calm hands.", "practise": "The alarm\u202e of the heater."}
	s.Drawn = map[string][][]int{"learner": {{0, 0, 500, 1000}, {10, 20, 30, 40}}}
	s.TakenBack = []ward.OfflineTakenBack{{At: ward.ByDevice(b.Now()), Step: 3}, {At: ward.ByDevice(b.Now()), Reason: "Coughed."}}
	b.Pass(time.Hour)
	v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now())))(t)
	d := v.Bedside
	if d.TalkedOver != "Calm hands." || d.Practise != "The alarm of the heater." || len(d.Drawn) != 2 || len(v.TakenBack) != 2 || v.TakenBack[0].Step != 3 || v.TakenBack[1].Reason != "Coughed." {
		t.Errorf("kept: %+v, taken back %+v", d, v.TakenBack)
	}
	if len(d.Bursts) != 1 || d.Bursts[0].Steps != len(s.Marks) {
		t.Errorf("bursts: %+v of %d marks", d.Bursts, len(s.Marks))
	}
}

// Whatever is wrong is refused in words, nothing of it is kept, and what is mended is
// then taken in.
func TestSheetsThatAreRefused(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	edda, other := b.Educators[0], b.Educators[1]
	foreign, lost := b.Device(other), b.Device(edda)
	s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
	b.Pass(time.Hour)
	good := b.device.Send(s, b.Now())
	changed := func(change func(*ward.OfflineSheet)) office.ReceiveForm {
		n := s
		change(&n)
		return b.device.Send(n, b.Now())
	}
	forged, tampered, another := good, good, foreign.Send(s, b.Now())
	forged.Signature = foreign.Sign(good.Sheet)
	tampered.Sheet = strings.Replace(good.Sheet, `"mark":"independent"`, `"mark":"cued"`, 1)
	b.refused(forged, fault.Refused, "not signed by the key of this device")
	b.refused(tampered, fault.Refused, "text was changed")
	b.refused(another, fault.NotFound, "not enrolled for you")
	unknown := good
	unknown.Device = assessment.DeviceID(ward.NewID(b.Now()))
	b.refused(unknown, fault.NotFound, "not enrolled for you")
	wantNone(t, b.Office.RevokeDeviceOf(t.Context(), b.Coordinator, edda.Person, lost.ID))
	b.refused(lost.Send(s, b.Now()), fault.Forbidden, "was revoked on 1 February 2026")
	_, err := b.Office.Pack(t.Context(), edda, lost.ID)
	wantRefusal(t, err, fault.Forbidden, "gets no pack")
	_, err = b.Office.Pack(t.Context(), edda, foreign.ID)
	wantRefusal(t, err, fault.NotFound, "not enrolled for you")
	b.refused(changed(func(n *ward.OfflineSheet) { n.ID = "919108f7-52d1-4320-9bac-f847db4148a8" }), fault.Invalid, "version 7")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Agency = "larkmoor" }), fault.Refused, "another agency")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Learner = string(edda.Person) }), fault.Refused, "observe yourself")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Learner = ward.NewID(b.Now()) }), fault.NotFound, "no such record")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Client = "" }), fault.Invalid, "names no child")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Skill = "bagging" }), fault.Invalid, "the checklist of another")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Marks = n.Marks[1:] }), fault.Refused, "Step 1 is still open")
	b.refused(changed(func(n *ward.OfflineSheet) {
		n.Marks = append([]ward.OfflineMark{}, n.Marks...)
		n.Marks[0].Step = 999
	}), fault.Invalid, "no step 999")
	b.refused(changed(func(n *ward.OfflineSheet) {
		n.Marks = append([]ward.OfflineMark{}, n.Marks...)
		n.Marks[0].Note = strings.Repeat("x", 2001)
	}), fault.Invalid, "mending")
	b.refused(changed(func(n *ward.OfflineSheet) { n.TalkedOver = map[string]string{"note": strings.Repeat("x", 300<<10)} }), fault.Invalid, "too large")
	b.refused(changed(func(n *ward.OfflineSheet) { n.TalkedOver = map[string]string{"score": "1"} }), fault.Invalid, "unknown")
	b.refused(changed(func(n *ward.OfflineSheet) { n.Outcome.Outcome = "splendid" }), fault.Invalid, "outcome that there is not")
	open := opened(t, b.Ward, b.nurse, "humidifier", b.child)
	n := s
	n.ID = string(open.ID)
	b.refused(b.device.Send(n, b.Now()), fault.Conflict, "still being marked")
	_, err = b.Office.Receive(t.Context(), other, foreign.Send(n, b.Now()))
	wantRefusal(t, err, fault.Conflict, "another demonstration")
	if b.records() != 0 {
		t.Error("something was kept of what was refused")
	}
	must(b.Office.Receive(t.Context(), edda, good))(t)
	b.refused(changed(func(n *ward.OfflineSheet) { n.Place = "elsewhere" }), fault.Conflict, "Another text")
	_, err = b.Office.Receive(t.Context(), other, foreign.Send(s, b.Now()))
	wantRefusal(t, err, fault.Conflict, "another demonstration")
	if b.records() != 1 {
		t.Errorf("%d records", b.records())
	}
}

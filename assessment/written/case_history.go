package written

import (
	"sort"
	"strings"

	"wellshown/assessment"
)

// entryFields says which fields each kind of entry has beside its kind and id,
// and how they are read.
var entryFields = map[assessment.EntryKind]struct {
	names []string
	read  func(caseFields, *assessment.Entry)
}{
	assessment.DemonstrationEntry: {
		[]string{"performed_at", "outcome", "observer", "real", "formal", "revision", "observer_signed_at", "learner_signed_at"},
		readDemonstration,
	},
	assessment.WithdrawalEntry: {[]string{"at", "until"}, func(f caseFields, e *assessment.Entry) {
		e.At, e.Until = f.instant("at"), oneOf(f, "until", assessment.Redemonstrated, assessment.Reinstated)
	}},
	assessment.ReinstatementEntry: {[]string{"of", "at"}, func(f caseFields, e *assessment.Entry) {
		e.Of, e.At = f.word("of"), f.instant("at")
	}},
	assessment.WaiverEntry: {[]string{"from", "through"}, func(f caseFields, e *assessment.Entry) {
		e.On, e.Through = f.day("from"), f.day("through")
	}},
	assessment.RecheckEntry: {[]string{"revision", "by", "at"}, func(f caseFields, e *assessment.Entry) {
		e.Revision, e.By, e.At = f.whole("revision"), f.day("by"), f.instant("at")
	}},
	assessment.PracticeEntry: {[]string{"on"}, func(f caseFields, e *assessment.Entry) { e.On = f.day("on") }},
	assessment.TeachingEntry: {[]string{"on"}, func(f caseFields, e *assessment.Entry) { e.On = f.day("on") }},
	assessment.CorrectionEntry: {[]string{"of", "at"}, func(f caseFields, e *assessment.Entry) {
		e.Of, e.At = f.word("of"), f.instant("at")
	}},
}

func readHistoryEntry(v any, path string, first *error) assessment.Entry {
	var e assessment.Entry
	o, ok := v.(caseObject)
	if !ok {
		openCase(v, path, first)
		return e
	}
	kind := caseFields{path: path, values: o.values, first: first}
	e.Kind = assessment.EntryKind(kind.text("kind"))
	shape, known := entryFields[e.Kind]
	if !known {
		kind.refuse("kind", "%q is no kind of entry: known are %s", string(e.Kind), entryKinds())
		return e
	}
	f := openCase(v, path, first, append([]string{"kind", "id"}, shape.names...)...)
	e.ID = f.word("id")
	shape.read(f, &e)
	return e
}

// readDemonstration: a signature that is left out, or null, has not been made.
func readDemonstration(f caseFields, e *assessment.Entry) {
	e.At = f.instant("performed_at")
	e.Outcome = oneOf(f, "outcome", assessment.Competent, assessment.NotYetCompetent, assessment.StoppedForSafety)
	e.Observer, e.Real, e.Formal, e.Revision = f.word("observer"), f.yes("real"), f.yes("formal"), f.whole("revision")
	e.ObserverSigned, e.LearnerSigned = f.instantOr("observer_signed_at"), f.instantOr("learner_signed_at")
}

func entryKinds() string {
	var names []string
	for k := range entryFields {
		names = append(names, string(k))
	}
	sort.Strings(names)
	return strings.Join(names, ", ")
}

package web

import (
	"net/url"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// The two lists of records that lack a signature: everybody's, and one's own.
const (
	allWaits = "/waiting?of=all"
	myWaits  = "/waiting"
)

// waitingForSignature lists every record that lacks a signature, page by page.
func (s *Site) waitingForSignature(v *visit) error {
	everybody, at := v.query("of") == "all", myWaits
	if everybody {
		at = allWaits
	}
	w, err := s.office.Waiting(v.ctx(), v.by(), everybody, v.query("after"))
	if err != nil {
		return err
	}
	page := WaitingPage{Frame: v.frame(""), Everybody: everybody, All: w.All, Records: v.waiting(w), First: v.query("after") == ""}
	page.Proposals, _ = v.proposalLines(w.Proposals)
	if !everybody && v.may(assessment.ReadReports) {
		page.Others = allWaits
	}
	if w.Next != "" {
		mark := "?"
		if everybody {
			mark = "&"
		}
		page.Next = at + mark + "after=" + url.QueryEscape(w.Next)
	}
	if !page.First {
		page.Start = at
	}
	return v.show(page)
}

// moreWaits is the page of all that wait, where not all of them are on this one.
func moreWaits(w office.Waiting, at string) string {
	if w.Next == "" {
		return ""
	}
	return at
}

// waiting are records that lack a signature, for the reader.
func (v *visit) waiting(w office.Waiting) []WaitingRecord {
	var all []WaitingRecord
	for _, r := range w.Records {
		all = append(all, WaitingRecord{Href: "/demonstrations/" + string(r.ID), Learner: r.Learner, Skill: r.Title, Client: r.Client,
			Seen: v.words().ShortDay(r.PerformedOn), Lacks: v.words().List(r.Lacks), Mine: r.Mine, Counts: r.Counts, Failed: r.Outcome != assessment.Competent})
	}
	return all
}

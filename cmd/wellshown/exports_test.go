package main

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// A taken line is one of the journal about a file that left.
type taken struct{ ID, Actor, Kind, Subject string }

// TestEveryFileThatLeavesIsWrittenDown asks every route that reads, of pages and of the
// API: one whose answer is a paper, a table or a workbook leaves exactly one line in the
// journal of who took what, about whom; everything else leaves none, and so does what is
// refused and what is only asked for its head (RFC 9110, section 9.3.2). A new route of
// that kind is found by its answer and fails here if it leaves no line.
func TestEveryFileThatLeavesIsWrittenDown(t *testing.T) {
	w := newWalk(t)
	own, _ := casefile(t, w.own, "go-bag", "7K", "Mira")
	foreign, _ := casefile(t, ward.Beside(t, w.own, withPaper), "go-bag", "5P", "Ilse")
	surveyor := w.own.Surveyor("Halina Wren")
	found := 0
	for _, r := range w.routes {
		if r.method != http.MethodGet {
			continue
		}
		who := w.own.Educators[0] // may do all that makes a file
		if surveyor.Reach(r.act) != assessment.Nothing {
			who = surveyor // who may only read may take away what they read
		}
		path, _ := w.filled(r, own)
		isFile := w.leaves(r, who, path, own)
		if isFile {
			found++
			w.leavesNone(r, who, own, foreign)
		}
		if named := strings.Contains(path, ".pdf") || strings.Contains(path, ".csv") || strings.Contains(path, ".xlsx"); named && !isFile {
			t.Errorf("%s %s gave no file, so nothing was tried: give it what it needs in `sends`", r.method, r.path)
		}
	}
	if found < 18 {
		t.Errorf("only %d routes gave a file", found)
	}
}

// leaves asks a route and reports whether a file was given. It must be so exactly
// where one line was written.
func (w walk) leaves(r walked, who assessment.Actor, path string, th things) bool {
	w.t.Helper()
	before := w.taken()
	a := w.ask(r, who, path, th)
	isFile := a.status == http.StatusOK && (strings.Contains(a.kind, "pdf") || strings.Contains(a.kind, "csv") || strings.Contains(a.kind, "spreadsheetml") || strings.Contains(r.path, "/packet.") || strings.HasSuffix(r.path, "/handover.json") || strings.Contains(a.kind, "text/calendar") || a.kind == "image/jpeg")
	lines := since(before, w.taken())
	held := strings.Contains(r.path, "held.json") || strings.HasSuffix(r.path, "/me/held")
	switch {
	case isFile && (len(lines) != 1 || lines[0].Actor != string(who.Person) || !strings.HasPrefix(lines[0].Kind, "export made: ")):
		w.t.Errorf("%s %s gave a file, and the journal has %v", r.method, r.path, lines)
	case isFile && lines[0].Subject != w.subject(r, th):
		w.t.Errorf("%s %s was about %q, and the journal says %q", r.method, r.path, w.subject(r, th), lines[0].Subject)
	case held && len(lines) != 1, !isFile && !held && len(lines) != 0:
		w.t.Errorf("%s %s gave %d %s, and the journal has %v", r.method, r.path, a.status, a.kind, lines)
	}
	return isFile
}

// subject is the one thing that stands in the address of a route.
func (w walk) subject(r walked, th things) string {
	if strings.HasSuffix(r.path, "/lessons/:code/paper.pdf") || r.path == "/learn/:code/lesson.pdf" {
		return th["lesson-in-force"] // its address names the skill, the line which lesson of it was printed
	}
	if strings.HasSuffix(r.path, "/checks/:code/questions.pdf") {
		return th["asked-skill"] // its address names the code
	}
	_, inPath := w.filled(r, th)
	_, _, _, inQuery := w.sent(r, th, "")
	for _, kind := range append(inPath, inQuery...) {
		if kind == "packet" || kind == "sitting-handed" { // about whom it is: a packet itself is deleted before long, and a check is its taker's
			kind = "person"
		}
		return th[kind]
	}
	return ""
}

// leavesNone asks for the head alone, as nobody, and about another agency's things.
func (w walk) leavesNone(r walked, who assessment.Actor, own, foreign things) {
	w.t.Helper()
	before := w.taken()
	path, _ := w.filled(r, own)
	head := r
	head.method = http.MethodHead
	if a := w.ask(head, who, path, own); a.status >= 500 || a.refused() != "" {
		w.t.Errorf("HEAD %s: %d", path, a.status)
	}
	w.ask(r, assessment.Actor{}, path, own)
	if there, _ := w.filled(r, foreign); w.subject(r, foreign) != "" && there != path {
		w.ask(r, who, there, foreign)
	}
	if lines := since(before, w.taken()); len(lines) != 0 {
		w.t.Errorf("%s: nothing left, and the journal has %v", path, lines)
	}
}

// taken are the lines of both agencies about files that left.
func (w walk) taken() []taken {
	w.t.Helper()
	c := got(pgx.Connect(w.t.Context(), w.own.DB.OwnerURL))(w.t)
	defer c.Close(w.t.Context())
	rows := got(c.Query(w.t.Context(), `select id::text, coalesce(actor_id::text, ''), kind, coalesce(subject::text, '') from journal where kind like 'export made%'`))(w.t)
	return got(pgx.CollectRows(rows, pgx.RowToStructByPos[taken]))(w.t)
}

// since are the lines that were not there before. The clock of these tests stands
// still, so that no order tells.
func since(before, after []taken) []taken {
	return slices.DeleteFunc(after, func(l taken) bool { return slices.Contains(before, l) })
}

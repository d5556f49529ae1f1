// Package crowd is an invented agency of many people for tests and benchmarks: hundreds
// of caregivers with years of records. What decides is made through the office (the
// agency, its checklists, the index of standings); the rows of the many are drawn from a
// seed and copied into the tables as the owner, for the office would take hours. They
// are what the office writes: records with their text and its hash, signed by whoever
// signs, withdrawals, waivers, cards, teams and requirements. They do not count the
// readings of a step. The same seed and size give the same agency.
package crowd

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Size says how large an agency is.
type Size struct {
	Caregivers, Children int
	Skills               int  // the starter checklists, and copies of them under other codes beyond twelve
	Thin                 bool // records tell their first step only: for benchmarks that never open one
	Entered              bool // every row goes through the tables' triggers: checked, and entered into the ledger
}

// The sizes that are asked about: an agency as many are, and a large one.
var (
	Usual = Size{Caregivers: 500, Children: 150, Skills: 12}
	Large = Size{Caregivers: 2000, Children: 600, Skills: 30, Thin: true}
)

// Opened is the day on which the agency began, Now the day that the clock shows.
var (
	Opened = civil.MustParse("2024-01-02")
	Now    = civil.MustParse("2026-03-17")
)

// Crowd is the agency. What a ward has is there too: an administrator, a coordinator,
// two educators who may observe today.
type Crowd struct {
	*ward.Ward
	Size
	Caregivers []Caregiver
	Children   []Child
	Skills     []Skill
	Rows       map[string]int // how many were written, by table

	observers []observer
	random    *rand.Rand
	made      uint64 // ids given out
	tables    tables
}

// Skill is a checklist that is in force.
type Skill struct {
	assessment.Checklist
	ID       assessment.SkillID
	Revision assessment.RevisionID
	SHA256   string // of its text
}

// New makes an agency of a size in a database of its own.
func New(tb testing.TB, size Size, seed uint64) *Crowd {
	tb.Helper()
	c := &Crowd{Ward: ward.NewAt(tb, Opened.In(zone(tb)).Add(10*time.Hour)), Size: size,
		random: rand.New(rand.NewPCG(seed, 5)), tables: tables{}, Rows: map[string]int{}}
	c.moreSkills(tb)
	c.readSkills(tb)
	c.addChildren()
	c.addObservers()
	c.addCaregivers()
	c.require()
	c.write(tb)
	c.At(Now.In(c.Zone).Add(7 * time.Hour))
	if _, err := c.Office.Rebuild(tb.Context()); err != nil {
		tb.Fatalf("make the index of the crowd's standings: %v", err)
	}
	return c
}

func zone(tb testing.TB) *time.Location {
	tb.Helper()
	there, err := time.LoadLocation(ward.Zone)
	if err != nil {
		tb.Fatalf("load the crowd's zone: %v", err)
	}
	return there
}

// moreSkills puts copies of starter checklists in force, as many as the size asks for.
func (c *Crowd) moreSkills(tb testing.TB) {
	tb.Helper()
	starters := catalog.Codes()
	for i := len(starters); i < c.Size.Skills; i++ {
		code := starters[i%len(starters)]
		source, err := catalog.Source(code)
		if err != nil {
			tb.Fatalf("read a starter: %v", err)
		}
		other := fmt.Sprintf("%s-%d", code, i/len(starters)+1)
		draft, err := c.Office.AddChecklist(tb.Context(), c.Ward.Educators[0], other+".yaml", strings.Replace(string(source), "code: "+code, "code: "+other, 1))
		if err != nil {
			tb.Fatalf("copy the starter %s: %v", code, err)
		}
		c.PutInForce(office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "A copy for another unit."})
	}
}

// readSkills reads what is in force, the first skills only where fewer are asked for;
// of them all, no requirement is made.
func (c *Crowd) readSkills(tb testing.TB) {
	tb.Helper()
	all, _, err := c.Office.Skills(tb.Context(), c.Coordinator)
	if err != nil {
		tb.Fatalf("read the crowd's skills: %v", err)
	}
	for _, s := range all[:min(c.Size.Skills, len(all))] {
		v, err := c.Office.Checklist(tb.Context(), c.Coordinator, s.Revisions[0].ID)
		if err != nil {
			tb.Fatalf("read a checklist: %v", err)
		}
		c.Skills = append(c.Skills, Skill{v.Checklist, s.ID, v.RevisionView.ID, v.Version})
	}
}

func (c *Crowd) codes() []string {
	var codes []string
	for _, s := range c.Skills {
		codes = append(codes, s.Code)
	}
	return codes
}

// id is the next id, of the form of version 7 (RFC 9562): the day the agency opened, then
// a count, so that it says nothing and is the same each time.
func (c *Crowd) id() string {
	c.made++
	return fmt.Sprintf("018cc8e6-%04x-7000-8000-%012x", c.made>>32&0xffff, c.made&0xffffffff)
}

// one in n.
func (c *Crowd) one(n int) bool { return c.random.IntN(n) == 0 }

// between picks a whole number from low through high.
func (c *Crowd) between(low, high int) int { return low + c.random.IntN(high-low+1) }

// dayBetween picks a day from a through b, or a where b is before it.
func (c *Crowd) dayBetween(a, b civil.Date) civil.Date {
	return a.AddDays(c.random.IntN(max(b.Sub(a), 0) + 1))
}

// at is an instant of a day between nine and five on the agency's clocks.
func (c *Crowd) at(d civil.Date) time.Time {
	return d.In(c.Zone).Add(9*time.Hour + time.Duration(c.random.IntN(8*60))*time.Minute)
}

// Connect opens a connection as the owner of all tables, whom row security does not bind.
func (c *Crowd) Connect(tb testing.TB) *pgx.Conn {
	tb.Helper()
	conn, err := pgx.Connect(tb.Context(), c.DB.OwnerURL)
	if err != nil {
		tb.Fatalf("connect as the owner: %v", err)
	}
	tb.Cleanup(func() { conn.Close(tb.Context()) })
	return conn
}

// day is a date as the database takes it; none is null.
func day(d civil.Date) any {
	if d.IsZero() {
		return nil
	}
	return d.In(time.UTC)
}

// orNull is a text as the database takes it; empty is null.
func orNull[T ~string](s T) any {
	if s == "" {
		return nil
	}
	return string(s)
}

// earliest is the first of several days, none of them zero.
func earliest(days ...civil.Date) civil.Date {
	first := days[0]
	for _, d := range days[1:] {
		if cmp.Compare(d.Sub(first), 0) < 0 {
			first = d
		}
	}
	return first
}

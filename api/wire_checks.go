package api

import (
	"fmt"
	"time"

	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Checks is which knowledge checks are asked, and where the reader stands.
type Checks struct {
	Own []OwnCheck     `json:"own" doc:"The reader's own."`
	All []CheckSummary `json:"all" doc:"How each is asked, for those who keep them; else empty."`
}

// CheckRule is how a check is asked and judged.
type CheckRule struct {
	Asked     string `json:"asked" enum:"not asked,to learn,before it is shown"`
	Length    int    `json:"length" doc:"Questions of a form."`
	PassMark  string `json:"pass_mark" doc:"The share that must be right, as an exact fraction; every critical item besides." example:"9/10"`
	Months    int    `json:"months" doc:"How long a pass holds. 0: without end."`
	WaitHours int    `json:"wait_hours" doc:"From a try that was not passed to the next."`
	Tries     int    `json:"tries" doc:"In a row, before somebody teaches again. 0: as many as they like."`
	Open      int    `json:"open_minutes" doc:"From beginning to handing in. What is handed in later is no pass."`
}

// CheckRuleForm sets it.
type CheckRuleForm struct {
	Asked     string `json:"asked" enum:"not asked,to learn,before it is shown"`
	Length    int    `json:"length" minimum:"1" maximum:"100"`
	PassMark  string `json:"pass_mark" maxLength:"20" doc:"Such as 9/10 or 90 %." example:"9/10"`
	Months    int    `json:"months" minimum:"0" maximum:"120"`
	WaitHours int    `json:"wait_hours" minimum:"0" maximum:"720"`
	Tries     int    `json:"tries" minimum:"0" maximum:"20"`
	Open      int    `json:"open_minutes,omitempty" minimum:"10" maximum:"1440" doc:"From beginning to handing in. Left out: 240."`
}

// OwnCheck is where somebody stands with the check of one skill.
type OwnCheck struct {
	Skill    SkillRef   `json:"skill"`
	Rule     CheckRule  `json:"rule"`
	Open     string     `json:"open,omitempty" format:"uuid" doc:"A sitting that goes on."`
	EndsAt   *time.Time `json:"ends_at,omitempty" doc:"Of the sitting that goes on: what is handed in later is no pass."`
	Waits    bool       `json:"waits_for_presence" doc:"Passed by somebody who could read what is asked: it counts once an educator other than them says that a trainer was there."`
	PassedOn string     `json:"passed_on,omitempty" format:"date" doc:"Of the newest pass that holds. Left out: none holds."`
	Through  string     `json:"through,omitempty" format:"date" doc:"Its last day. Left out: without end, or none holds."`
	NextFrom *time.Time `json:"next_from,omitempty" doc:"From when on they may try again. Left out: at any time."`
	Teach    bool       `json:"teach" doc:"Somebody teaches them before the next try."`
	Tries    []CheckTry `json:"tries" doc:"The newest first."`
}

// CheckTry is a sitting that was handed in.
type CheckTry struct {
	ID     string `json:"id" format:"uuid"`
	On     string `json:"on" format:"date"`
	Right  int    `json:"right"`
	Of     int    `json:"of"`
	Passed bool   `json:"passed"`
}

// CheckSummary is the check of one skill for those who keep it.
type CheckSummary struct {
	Skill  SkillRef  `json:"skill"`
	Rule   CheckRule `json:"rule"`
	Items  int       `json:"items" doc:"In use."`
	Handed int       `json:"handed_in"`
	Passed int       `json:"passed"`
}

// CheckBank is a check with its items and results.
type CheckBank struct {
	Skill  SkillRef      `json:"skill"`
	Rule   CheckRule     `json:"rule"`
	Items  []CheckItem   `json:"items"`
	People []CheckPerson `json:"people"`
	Text   string        `json:"text" doc:"The items in use, as YAML."`
}

// CheckItem is an item with how it was answered.
type CheckItem struct {
	ID         string        `json:"id"`
	Kind       string        `json:"kind" enum:"single,multiple,order,numeric,match"`
	Critical   bool          `json:"critical"`
	Difficulty int           `json:"difficulty" minimum:"1" maximum:"3"`
	Source     string        `json:"source"`
	Ask        string        `json:"ask" doc:"In English."`
	Version    int           `json:"version"`
	Retired    bool          `json:"retired"`
	Asked      int           `json:"asked" doc:"As it stands, in checks that were handed in. What it asked before is counted apart."`
	Answered   int           `json:"answered"`
	Right      int           `json:"right" doc:"Below 20 answers a share says little."`
	Before     []AskedBefore `json:"before" doc:"What it asked before, the newest first."`
}

// AskedBefore is how an item was answered while it said something else.
type AskedBefore struct {
	First    int       `json:"first_version" doc:"Versions that follow each other and say the same are one question."`
	Last     int       `json:"last_version"`
	From     time.Time `json:"from"`
	Until    time.Time `json:"until" doc:"From then on it said something else."`
	Asked    int       `json:"asked"`
	Answered int       `json:"answered"`
	Right    int       `json:"right"`
}

// CheckPerson is where somebody stands.
type CheckPerson struct {
	Person PersonRef `json:"person"`
	Check  OwnCheck  `json:"check"`
}

// ItemsAdded is how many items were new or changed.
type ItemsAdded struct {
	Added int `json:"added"`
}

// ItemsForm is items as YAML.
type ItemsForm struct {
	Items string `json:"items" maxLength:"200000"`
}

// BeginCheckForm says in which language somebody takes a check.
type BeginCheckForm struct {
	Language string `json:"language" enum:"en,es"`
}

// AnswerForm is an answer. Nothing at all: it was not answered.
type AnswerForm struct {
	Chosen []int  `json:"chosen,omitempty" maxItems:"8" doc:"Options by the places at which they are shown, from 1: the right ones; of order the first first; of match one for each of the left."`
	Value  string `json:"value,omitempty" maxLength:"40" doc:"A number, as it was typed."`
	Unit   string `json:"unit,omitempty" maxLength:"40"`
}

// PresenceForm says whether a trainer was there.
type PresenceForm struct {
	Present bool `json:"present"`
}

// Sitting is one try at a check.
type Sitting struct {
	ID         string     `json:"id" format:"uuid"`
	Person     Named      `json:"person"`
	Skill      SkillRef   `json:"skill"`
	Language   string     `json:"language" enum:"en,es"`
	BegunAt    time.Time  `json:"begun_at"`
	HandedInAt *time.Time `json:"handed_in_at,omitempty" doc:"Left out: it goes on."`
	EndsAt     *time.Time `json:"ends_at,omitempty" doc:"What is handed in later is no pass. Left out: from before checks had an end."`
	Right      *int       `json:"right,omitempty"`
	Passed     *bool      `json:"passed,omitempty"`
	Late       *bool      `json:"late,omitempty" doc:"Handed in when its time was over."`
	Reader     bool       `json:"could_read_items" doc:"Whoever took it could read what it asks, because of their role."`
	Waits      bool       `json:"waits_for_presence" doc:"Passed, and counts once an educator other than them says that a trainer was there."`
	Present    *bool      `json:"trainer_present,omitempty" doc:"By what an educator says. Left out: not known; whether somebody helped cannot be told."`
	Questions  []Question `json:"questions"`
}

// Question is one of a form. What is right, and what it teaches, is told once it was handed in.
type Question struct {
	Place    int      `json:"place"`
	Kind     string   `json:"kind" enum:"single,multiple,order,numeric,match"`
	Ask      string   `json:"ask"`
	Left     []string `json:"left" doc:"Of match."`
	Options  []string `json:"options" doc:"In the order in which they are shown."`
	Units    []string `json:"units"`
	Chosen   []int    `json:"chosen"`
	Value    string   `json:"value,omitempty"`
	Unit     string   `json:"unit,omitempty"`
	Right    *bool    `json:"right,omitempty"`
	Critical *bool    `json:"critical,omitempty"`
	Wanted   []string `json:"wanted,omitempty" doc:"What is right, in words."`
	Teach    string   `json:"teach,omitempty"`
}

func checkRule(r postgres.KnowledgeRule) CheckRule {
	return CheckRule{string(r.Asked), r.Length, fmt.Sprintf("%d/%d", r.MarkRight, r.MarkOf), r.Months, r.WaitHours, r.Tries, int(r.Core().Open / time.Minute)}
}

func ownCheck(c office.OwnCheck) OwnCheck {
	return OwnCheck{skillRef(c.Skill), checkRule(c.Rule), string(c.Open), maybeInstant(instantOf(c.Ends)), c.Waits, c.Passed.String(), c.Through.String(), maybeInstant(instantOf(c.Next.From)), c.Next.Teach,
		each(c.Tries, func(t office.Try) CheckTry { return CheckTry{string(t.ID), t.On.String(), t.Right, t.Of, t.Passed} })}
}

func instantOf(at time.Time) *time.Time {
	if at.IsZero() {
		return nil
	}
	return &at
}

func checks(v office.ChecksView) Checks {
	return Checks{each(v.Own, ownCheck), each(v.All, func(c office.CheckSummary) CheckSummary {
		return CheckSummary{skillRef(c.Skill), checkRule(c.Rule), c.Items, c.Handed, c.Passed}
	})}
}

func checkBank(v office.BankView) CheckBank {
	return CheckBank{skillRef(v.Skill), checkRule(v.Rule), each(v.Items, func(i office.ItemResults) CheckItem {
		return CheckItem{i.Item.ID, string(i.Item.Kind), i.Item.Critical, i.Item.Difficulty, i.Item.Source, i.Item.In("en").Ask, i.Version, i.Retired, i.Stands.Asked, i.Stands.Answered, i.Stands.Right, each(i.Before, askedBefore)}
	}), each(v.People, func(p office.PersonResults) CheckPerson {
		return CheckPerson{personRef(p.Person), ownCheck(p.OwnCheck)}
	}), v.Text}
}

func askedBefore(q office.QuestionResults) AskedBefore {
	return AskedBefore{q.First, q.Last, q.From.UTC(), q.Until.UTC(), q.Asked, q.Answered, q.Right}
}

func sitting(v office.SittingView) Sitting {
	s := Sitting{ID: string(v.ID), Person: named(v.Person), Skill: skillRef(v.Skill), Language: v.Language, BegunAt: v.BegunAt.UTC(), EndsAt: maybeInstant(instantOf(v.Ends)), Present: v.Present, Reader: v.Reader, Waits: v.Waits}
	if !v.Open() {
		s.HandedInAt, s.Right, s.Passed, s.Late = maybeInstant(&v.HandedIn), &v.Result.Right, &v.Result.Passed, &v.Result.Late
	}
	for _, q := range v.Questions {
		s.Questions = append(s.Questions, question(v, q))
	}
	return s
}

func question(v office.SittingView, q office.Question) Question {
	t := q.Item.In(v.Language)
	out := Question{Place: q.Place, Kind: string(q.Item.Kind), Ask: t.Ask, Left: texts(t.Left), Options: texts(q.Options(v.Language)), Units: texts(q.Item.Units), Chosen: knowledge.Places(q.Shown, q.Answer.Chosen), Value: q.Answer.Value, Unit: q.Answer.Unit}
	if !v.Open() {
		out.Right, out.Critical, out.Wanted, out.Teach = &q.Right, &q.Item.Critical, q.RightAnswer(v.Language), t.Teach
	}
	return out
}

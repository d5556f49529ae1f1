package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// LearningPlan is what somebody still has to learn, worked out from what is required of them.
type LearningPlan struct {
	Person   Named             `json:"person"`
	On       string            `json:"on" format:"date"`
	Goal     string            `json:"goal" enum:"going home,first shift,other"`
	Target   string            `json:"target,omitempty" format:"date" doc:"By when. Left out: there is no day to work back from."`
	Chosen   bool              `json:"chosen" doc:"Somebody chose the day; else it is that of a shift to come."`
	Past     bool              `json:"past" doc:"The target is past."`
	Needed   int               `json:"days_needed" doc:"That are planned for all of it, one skill after the other. 0 without a target."`
	Short    int               `json:"days_short" doc:"That are missing until the target."`
	Circle   string            `json:"circle,omitempty" doc:"Why nothing of it has an order. Left out: it has."`
	Next     string            `json:"next,omitempty" doc:"What is done next, in words."`
	Lines    []LearningLine    `json:"lines" doc:"In the order of learning."`
	Held     []LearningHeld    `json:"held" doc:"What is required and held."`
	Sessions []TeachingSession `json:"sessions" doc:"The newest first. Of those in which others were taught too, their learners read nothing of the others."`
	Runs     []PracticeRun     `json:"practice" doc:"The newest first. It counts for no skill."`
}

// LearningLine is one skill that is to be learnt.
type LearningLine struct {
	Skill     SkillRef   `json:"skill"`
	Client    *ClientRef `json:"client,omitempty" doc:"Left out for skills that are held for every child."`
	Required  bool       `json:"required" doc:"False: it comes before something that is."`
	Standing  string     `json:"standing"`
	Stage     string     `json:"stage" enum:"not begun,taught,practised,check passed,shown,current" doc:"How far they are. Nothing before current makes anybody current."`
	Sessions  int        `json:"sessions" doc:"In which it was taught."`
	Practised int        `json:"practised" doc:"How often; it never counts."`
	Unseen    int        `json:"unseen" doc:"Of them, written down by themselves: nobody observed it."`
	Shown     int        `json:"shown" doc:"Competent demonstrations, signed by both, toward the award under way."`
	Of        int        `json:"of" doc:"That the award asks for."`
	By        string     `json:"by,omitempty" format:"date"`
	Chosen    bool       `json:"chosen" doc:"Somebody chose this day."`
	Late      bool       `json:"late"`
	Teacher   *Named     `json:"teacher,omitempty"`
}

// LearningHeld is a skill that is required and held.
type LearningHeld struct {
	Skill   SkillRef   `json:"skill"`
	Client  *ClientRef `json:"client,omitempty"`
	Through string     `json:"through" format:"date"`
}

// LearningTarget chooses by when somebody is ready.
type LearningTarget struct {
	Goal string `json:"goal" enum:"going home,first shift,other"`
	On   string `json:"on,omitempty" format:"date" doc:"Left out: the day of the first shift to come, or of the first one at home."`
}

// LearningChoice chooses who teaches a skill, and by when.
type LearningChoice struct {
	Skill   string `json:"skill" maxLength:"100" doc:"Its code."`
	Client  string `json:"client,omitempty" doc:"For skills that are held for one child: an id."`
	Teacher string `json:"teacher,omitempty" doc:"An educator: an id. Left out: nobody yet."`
	By      string `json:"by,omitempty" format:"date" doc:"Left out: as it is worked out."`
}

// LearningDays is how many days are planned for a skill.
type LearningDays struct {
	Skill SkillRef `json:"skill"`
	Days  int      `json:"days"`
	Set   bool     `json:"set" doc:"By the agency; else common practice."`
}

// LearningDaysForm plans them.
type LearningDaysForm struct {
	Days int `json:"days"`
}

// TeachingSession is teaching that was held. It makes nobody current.
type TeachingSession struct {
	ID        string          `json:"id" format:"uuid"`
	HeldOn    string          `json:"held_on" format:"date"`
	Minutes   int             `json:"minutes"`
	Teacher   Named           `json:"teacher"`
	Client    *ClientRef      `json:"client,omitempty"`
	Skills    []SkillRef      `json:"skills"`
	Learners  []TaughtLearner `json:"learners" doc:"None: there was no such session. Who was taught reads themselves alone."`
	Others    int             `json:"others" doc:"Who were taught as well and are not named to the reader."`
	Note      string          `json:"note,omitempty"`
	InService bool            `json:"in_service"`
	Corrects  string          `json:"corrects,omitempty" format:"uuid"`
	Corrected string          `json:"corrected,omitempty" format:"uuid" doc:"What stands in its place."`
}

// TaughtLearner is who was taught, and how.
type TaughtLearner struct {
	Person Named `json:"person"`
	TaughtHow
}

// TaughtHow is what happened with a learner.
type TaughtHow struct {
	Shown      bool `json:"shown,omitempty" doc:"The teacher did it before their eyes."`
	Explained  bool `json:"explained,omitempty"`
	Practised  bool `json:"practised,omitempty" doc:"With help."`
	TaughtBack bool `json:"taught_back,omitempty" doc:"They taught it back in their own words."`
}

// TeachingForm writes a session down.
type TeachingForm struct {
	ID        string       `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	HeldOn    string       `json:"held_on" format:"date"`
	Minutes   int          `json:"minutes" doc:"Whole ones."`
	Teacher   string       `json:"teacher" doc:"An educator: an id."`
	Client    string       `json:"client,omitempty" doc:"For skills that are held for one child: an id."`
	Skills    []string     `json:"skills" maxItems:"100" doc:"Codes."`
	Learners  []TaughtForm `json:"learners" maxItems:"200"`
	Note      string       `json:"note,omitempty" maxLength:"4000" doc:"Name no diagnosis."`
	InService bool         `json:"in_service,omitempty" doc:"Counts toward the in-service hours of aides, where a registered nurse taught (42 CFR 484.80)."`
}

// TaughtForm is who was taught, and how.
type TaughtForm struct {
	Person string `json:"person" doc:"An id."`
	TaughtHow
}

// TeachingCorrection puts another session in the place of one.
type TeachingCorrection struct {
	TeachingForm
	SignedReason
}

// PracticeRun is a checklist that somebody did to practise. It is no demonstration and counts for no skill.
type PracticeRun struct {
	ID        string         `json:"id" format:"uuid"`
	Person    Named          `json:"person"`
	Skill     SkillRef       `json:"skill"`
	Client    *ClientRef     `json:"client,omitempty"`
	DoneOn    string         `json:"done_on" format:"date"`
	Helper    *Named         `json:"helper,omitempty" doc:"Left out: nobody helped."`
	Unseen    bool           `json:"unseen" doc:"Whoever practised wrote it down: nobody observed it."`
	Says      string         `json:"says" doc:"Who was there and how the steps went, in words."`
	Marks     []PracticeMark `json:"marks"`
	Note      string         `json:"note,omitempty"`
	WrittenAt time.Time      `json:"written_at"`
	TakenBack string         `json:"taken_back,omitempty" doc:"Why. Left out: it stands."`
}

// PracticeMark is how a step went. It is no verdict.
type PracticeMark struct {
	Step int    `json:"step" minimum:"1"`
	Went string `json:"went" enum:"alone,with help,not yet"`
}

// PracticeRunForm writes practice down.
type PracticeRunForm struct {
	ID       string         `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Revision string         `json:"revision" doc:"Of the checklist: an id."`
	Client   string         `json:"client,omitempty" doc:"An id."`
	DoneOn   string         `json:"done_on" format:"date"`
	Helper   string         `json:"helper,omitempty" doc:"Who helped: an id. Whoever writes down their own practice names nobody."`
	Marks    []PracticeMark `json:"marks" maxItems:"500" doc:"Of the steps that were tried."`
	Note     string         `json:"note,omitempty" maxLength:"4000" doc:"Name no diagnosis."`
}

// WrittenDown is the id of what was written down.
type WrittenDown struct {
	ID string `json:"id" format:"uuid"`
}

func learningPlan(v office.LearningPlan) LearningPlan {
	p := LearningPlan{Person: Named{string(v.Person.ID), v.Person.Name}, On: v.Today.String(), Goal: string(v.Goal), Chosen: v.Chosen, Past: v.Dates.Past, Needed: v.Dates.Needed, Short: v.Dates.Short,
		Circle: v.Circle.String(), Next: v.Next().String(), Lines: each(v.Lines, learningLine), Sessions: each(v.Sessions, teachingSession), Runs: each(v.Runs, practiceRun)}
	p.Held = each(v.Held, func(h office.StandingView) LearningHeld {
		return LearningHeld{skillRef(h.Skill), clientRef(h.Client), h.Through.String()}
	})
	if v.HasTarget() {
		p.Target = v.Dates.Target.String()
	}
	return p
}

func learningLine(l office.LearningLine) LearningLine {
	return LearningLine{Skill: skillRef(l.Skill), Client: clientRef(l.Client), Required: l.Required, Standing: string(l.Word), Stage: string(l.Stage()), Sessions: l.Sessions, Practised: l.Runs, Unseen: l.Alone,
		Shown: l.Shown, Of: l.Of, By: l.By.String(), Chosen: l.LearningDate.Chosen, Late: l.Late, Teacher: namedPerson(l.Teacher)}
}

// namedPerson is nil for nobody.
func namedPerson(p office.PersonRef) *Named {
	if p.ID == "" {
		return nil
	}
	return &Named{string(p.ID), p.Name}
}

func teachingSession(v office.TeachingView) TeachingSession {
	return TeachingSession{ID: string(v.ID), HeldOn: v.HeldOn.String(), Minutes: v.Minutes, Teacher: Named{string(v.Teacher.ID), v.Teacher.Name}, Client: clientRef(v.Child), Skills: each(v.Taught, skillRef),
		Learners: each(v.Who, func(w office.TaughtView) TaughtLearner {
			return TaughtLearner{Named{string(w.Person.ID), w.Person.Name}, TaughtHow(w.TaughtHow)}
		}), Others: v.Others, Note: v.Note, InService: v.InService, Corrects: string(v.Corrects), Corrected: string(v.Corrected)}
}

func practiceRun(v office.PracticeRunView) PracticeRun {
	r := PracticeRun{ID: string(v.ID), Person: Named{string(v.Person), v.Who.Name}, Skill: skillRef(v.What), Client: clientRef(v.Child), DoneOn: v.DoneOn.String(), Helper: namedPerson(v.Beside), Unseen: v.ByMyself(),
		Says: v.How().String(), Marks: []PracticeMark{}, Note: v.Note, WrittenAt: v.WrittenAt.UTC(), TakenBack: v.Back}
	for i, step := range v.Steps {
		r.Marks = append(r.Marks, PracticeMark{step, string(v.Went[i])})
	}
	return r
}

func (h TaughtHow) how() assessment.TaughtHow { return assessment.TaughtHow(h) }

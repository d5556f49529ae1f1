package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func (e *edge) learningPlan(ctx context.Context, by caller, in *ByID) (*answer[LearningPlan], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.LearningPlan(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(learningPlan(v)), nil
}

type learningPaperQuery struct {
	ByID
	PaperLanguage
}

func (e *edge) learningPaper(ctx context.Context, by caller, in *learningPaperQuery) (*file, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.LearningPlan(ctx, by.Actor, id, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}

type learningTargetBody struct {
	ByID
	Body LearningTarget
}

func (e *edge) setLearningTarget(ctx context.Context, by caller, in *learningTargetBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SetLearningTarget(ctx, by.Actor, office.LearningTargetForm{Person: id, Goal: in.Body.Goal, On: in.Body.On})
}

type learningChoiceBody struct {
	ByID
	Body LearningChoice
}

func (e *edge) chooseLearning(ctx context.Context, by caller, in *learningChoiceBody) (*done, error) {
	person, client, err := whoseMaybe(in.ID, in.Body.Client)
	if err != nil {
		return nil, err
	}
	teacher, err := maybeID[assessment.PersonID](in.Body.Teacher)
	if err != nil {
		return nil, err
	}
	return nil, e.office.ChooseLearning(ctx, by.Actor, office.LearningChoiceForm{Person: person, Skill: in.Body.Skill, Client: client, Teacher: teacher, By: in.Body.By})
}

// whoseMaybe reads the id of a person, and that of a child where there is one.
func whoseMaybe(person, client string) (assessment.PersonID, assessment.ClientID, error) {
	p, err := assessment.ParseID[assessment.PersonID](person)
	if err != nil {
		return "", "", err
	}
	c, err := maybeID[assessment.ClientID](client)
	return p, c, err
}

func (e *edge) learningDays(ctx context.Context, by caller, _ *struct{}) (*answer[List[LearningDays]], error) {
	v, err := e.office.LearningDesk(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(v.Skills, func(d office.SkillDays) LearningDays {
		return LearningDays{skillRef(d.SkillRef), d.Days, d.Set}
	}, ""), nil
}

type learningDaysBody struct {
	Code string `path:"code" doc:"The code." example:"suction"`
	Body LearningDaysForm
}

func (e *edge) setLearningDays(ctx context.Context, by caller, in *learningDaysBody) (*done, error) {
	return nil, e.office.SetLearningDays(ctx, by.Actor, in.Code, strconv.Itoa(in.Body.Days))
}

type teachingBody struct{ Body TeachingForm }

func (e *edge) addTeaching(ctx context.Context, by caller, in *teachingBody) (*made[WrittenDown], error) {
	f, err := in.Body.form()
	if err != nil {
		return nil, err
	}
	id, err := e.office.LogTeaching(ctx, by.Actor, f)
	if err != nil {
		return nil, renamed(err, teachingField)
	}
	return added(WrittenDown{string(id)}, "teaching-sessions", string(id)), nil
}

func (e *edge) teaching(ctx context.Context, by caller, in *ByID) (*answer[TeachingSession], error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.TeachingSession(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(teachingSession(v.TeachingView)), nil
}

type teachingCorrectionBody struct {
	ByID
	Body TeachingCorrection
}

func (e *edge) correctTeaching(ctx context.Context, by caller, in *teachingCorrectionBody) (*made[WrittenDown], error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	f, err := in.Body.form()
	if err != nil {
		return nil, err
	}
	next, err := e.office.CorrectTeaching(ctx, by.Actor, office.TeachingCorrection{TeachingForm: f, Of: id, Reason: in.Body.Reason, Proof: in.Body.proof()})
	if err != nil {
		return nil, renamed(err, teachingField)
	}
	return added(WrittenDown{string(next)}, "teaching-sessions", string(next)), nil
}

// teachingField says by which name a field of the office's form is sent.
func teachingField(field string) string {
	if field == "trainer" {
		return "teacher"
	}
	return field
}

func (b TeachingForm) form() (office.TeachingForm, error) {
	f := office.TeachingForm{ID: b.ID, HeldOn: b.HeldOn, Minutes: strconv.Itoa(b.Minutes), Skills: b.Skills, Note: b.Note, InService: b.InService}
	var err error
	if f.Trainer, f.Client, err = whoseMaybe(b.Teacher, b.Client); err != nil {
		return f, err
	}
	for _, l := range b.Learners {
		who, err := assessment.ParseID[assessment.PersonID](l.Person)
		if err != nil {
			return f, err
		}
		f.Learners = append(f.Learners, office.TaughtForm{Person: who, TaughtHow: l.how()})
	}
	return f, nil
}

type practiceRunBody struct {
	ByID
	Body PracticeRunForm
}

func (e *edge) addPracticeRun(ctx context.Context, by caller, in *practiceRunBody) (*made[WrittenDown], error) {
	b := in.Body
	person, client, err := whoseMaybe(in.ID, b.Client)
	if err != nil {
		return nil, err
	}
	f := office.PracticeRunForm{ID: b.ID, Person: person, Client: client, DoneOn: b.DoneOn, Note: b.Note, Marks: map[int]assessment.PracticeMark{}}
	if f.Revision, err = assessment.ParseID[assessment.RevisionID](b.Revision); err != nil {
		return nil, err
	}
	if f.Helper, err = maybeID[assessment.PersonID](b.Helper); err != nil {
		return nil, err
	}
	for _, m := range b.Marks {
		f.Marks[m.Step] = assessment.PracticeMark(m.Went)
	}
	id, err := e.office.LogPracticeRun(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return added(WrittenDown{string(id)}, "practice-runs", string(id)), nil
}

func (e *edge) practiceRun(ctx context.Context, by caller, in *ByID) (*answer[PracticeRun], error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.PracticeRun(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(practiceRun(v)), nil
}

func (e *edge) takePracticeBack(ctx context.Context, by caller, in *plainReasonBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TakeBackPractice(ctx, by.Actor, id, in.Body.Reason)
}

package demo

import (
	"context"
	"fmt"
	"math/rand/v2"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// MainJob does what the whole program is for, once and as people do it: the
// educator signs in, marks what is still open on the sheet that the scenario left,
// records it, and both sign. It answers with the record and its certificate. It is
// done before the agency has its code.
func MainJob(ctx context.Context, o *office.Office, r Result, seed uint64) (office.DemonstrationView, error) {
	observer := (&story{seed: seed}).secret(r.OneMoreBy)
	_, by, err := o.SignIn(ctx, office.SignInForm{Agency: Unfinished, Email: r.OneMoreBy, Password: observer, Address: "demo"})
	if err != nil {
		return office.DemonstrationView{}, fmt.Errorf("sign in as the educator: %w", err)
	}
	sheet, err := o.Sheet(ctx, by, r.OneMoreDoc)
	if err != nil {
		return office.DemonstrationView{}, fmt.Errorf("open the sheet: %w", err)
	}
	forms, err := rest(sheet)
	if err != nil {
		return office.DemonstrationView{}, err
	}
	if _, err := o.MarkAll(ctx, by, sheet.ID, forms); err != nil {
		return office.DemonstrationView{}, fmt.Errorf("mark the rest of the sheet: %w", err)
	}
	v, err := o.Record(ctx, by, sheet.ID)
	if err != nil {
		return v, fmt.Errorf("record the demonstration: %w", err)
	}
	return signBoth(ctx, o, by, r, v, seed)
}

// rest are marks for the steps that are still open, each as it should be.
func rest(sheet office.SheetView) ([]office.MarkForm, error) {
	m := manner{chance: rand.New(rand.NewPCG(1, 2))}
	done := map[int]bool{}
	for no := range sheet.Marks {
		done[no] = true
	}
	var forms []office.MarkForm
	for _, step := range sheet.Checklist.Steps() {
		if done[step.No] {
			continue
		}
		readings, err := m.readings(step, sheet.Parameters, "", false)
		if err != nil {
			return nil, err
		}
		forms = append(forms, office.MarkForm{Step: step.No, Mark: string(assessment.Independent), Readings: readings})
	}
	return forms, nil
}

func signBoth(ctx context.Context, o *office.Office, by assessment.Actor, r Result, v office.DemonstrationView, seed uint64) (office.DemonstrationView, error) {
	learner, err := o.Person(ctx, by, v.LearnerID)
	if err != nil {
		return v, fmt.Errorf("look up the learner: %w", err)
	}
	secrets := &story{seed: seed}
	for _, sign := range []office.SignForm{
		{Demonstration: v.ID, Part: office.PartObserver, Proof: office.ByPassword(secrets.secret(r.OneMoreBy))},
		{Demonstration: v.ID, Part: office.PartLearner, Proof: office.ByPassword(secrets.secret(learner.Email))},
	} {
		if v, err = o.Sign(ctx, by, sign); err != nil {
			return v, fmt.Errorf("sign as %s: %w", sign.Part, err)
		}
	}
	return v, nil
}

// GoingHome is the code of the child who goes home soon.
const GoingHome = "7K"

package web

// A page with several forms says above all that one of them was refused, and leads
// to it: the form itself may stand far below.

// refusedIn is where the first refusal among some forms stands; nothing for none.
func refusedIn(forms ...Faults) Link {
	for _, f := range forms {
		if f.Any() {
			return Link{Text: f.What, Href: "#" + f.ID("faults")}
		}
	}
	return Link{}
}

// Refused is the form of the page that was refused.
func (p PersonPage) Refused() Link {
	return refusedIn(p.Withdraw.Faults.In("withdraw"), p.Waive.Faults.In("waive"), p.Reinstate.Faults.In("reinstate"), p.Licence.Faults.In("licence"),
		p.Card.Faults.In("card"), p.Undo.Faults.In("undo"), p.UndoPaper.Faults.In("undo-paper"), p.Log.Faults.In("log"), p.Codes.Faults.In("codes"), p.Vouch.Faults.In("vouch"), p.Leave.Faults.In("leave"))
}

// Refused is the form of the page that was refused.
func (p ClientPage) Refused() Link { return refusedIn(p.Join.Faults.In("join")) }

// Refused is the form of the page that was refused.
func (p ReadinessPage) Refused() Link {
	forms := []Faults{p.Add.Faults.In("add"), p.Plan.Faults.In("shift"), p.Days.Faults.In("days"), p.Sign.Faults.In("sign")}
	for _, lines := range [][]Criterion{p.Left, p.Waived, p.Met} {
		for _, c := range lines {
			forms = append(forms, c.Say.Faults.In(c.FormName()), c.Waive.Faults.In(c.WaiverName()), c.End.Faults.In(c.EndName()), c.Change.Faults.In(c.ChangeName()))
		}
	}
	return refusedIn(forms...)
}

// Refused is the form of the page that was refused.
func (p ReviewPage) Refused() Link {
	if p.Paper == nil {
		return Link{}
	}
	return refusedIn(p.Paper.Faults.In("paper"))
}

// Refused is the line of the page whose form was refused; the proposal stands
// above all anyway.
func (p AppointmentsPage) Refused() Link {
	var forms []Faults
	for _, lines := range [][]AppointmentLine{p.Proposed, p.Agreed, p.Ended} {
		for _, l := range lines {
			forms = append(forms, l.Faults.In(l.ID))
		}
	}
	return refusedIn(forms...)
}

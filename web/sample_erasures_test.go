package web

func erasureSamples() map[string]Page {
	frame := educatorFrame("people")
	about := []Option{{Text: "Choose whose records"}, {Value: "person p1", Text: "Wendeline Osterkamp, left 1 April 2026"}, {Value: "client c1", Text: "Thaddeus, TH7 (child), left 1 April 2026"}}
	open := []ErasureLine{
		{ID: "e1", Who: "Wendeline Osterkamp", Reason: "Asked for by letter.", Asked: "Noor Haddad, 3 Oct 2033, 10:00 MDT", Carry: "/erasures/e1/carrying-out", Drop: "/erasures/e1/dropping"},
		{ID: "e2", Who: "Thaddeus, TH7", Reason: "Asked for by the parents.", Asked: "Bodil Krane, 3 Oct 2033, 10:04 MDT", Mine: true, Drop: "/erasures/e2/dropping"},
	}
	ended := []ErasureLine{
		{ID: "e3", Who: "erased", Reason: "Asked for by letter.", Asked: "Noor Haddad, 2 Oct 2033, 10:00 MDT", Ended: "Carried out by Bodil Krane, 2 Oct 2033, 11:00 MDT: 412 rows.", Done: true},
		{ID: "e4", Who: "Ole Brandt", Reason: "A slip.", Asked: "Noor Haddad, 2 Oct 2033, 10:00 MDT", Ended: "Taken back by Noor Haddad, 2 Oct 2033, 10:01 MDT."},
	}
	refused := []ErasureLine{open[0]}
	refused[0].Faults = Faults{What: "Nothing is erased.", Next: "Look below.", Fields: []FieldFault{{"password", "Your password", "This password does not match. Nothing has been signed."}}}
	return map[string]Page{
		"erasures":       ErasuresPage{Frame: frame, Keep: "for 7 years", Limited: true, Set: "Noor Haddad, 1 Oct 2033, 09:00 MDT", Why: "State law.", Open: open, Ended: ended, About: about, Later: "Of 12 others who left the time still runs, for the first through 3 May 2034", Retention: RetentionTyped{Years: "7"}},
		"erasures-none":  ErasuresPage{Frame: frame, Keep: "for ever", About: about[:1]},
		"erasures-fault": ErasuresPage{Frame: frame, Keep: "for 7 years", Limited: true, Open: refused, About: about, Ask: ErasureAsking{About: "person p1", Reason: "Wendeline wrote."}},
		"erasures-ask":   ErasuresPage{Frame: frame, Keep: "for 7 years", Limited: true, About: about, Ask: ErasureAsking{About: "person p1", Reason: "Ms Osterkamp wrote.", Faults: Faults{What: "Nothing is asked for.", Next: "Look below.", Fields: []FieldFault{{"reason", "Why", "Leave the name out (Osterkamp): the reason stays when all the rest is gone."}}}}},
		"erasures-years": ErasuresPage{Frame: frame, Keep: "for ever", About: about[:1], Retention: RetentionTyped{Years: "5", Reason: "Less.", Faults: Faults{What: "The setting is as it was.", Next: "Look below.", Fields: []FieldFault{{"years", "Years", "Records are kept for 6 years at least."}}}}},
	}
}

package web

func tokenSamples() map[string]Page {
	frame := educatorFrame("people")
	acts := []Option{{Value: "read people", Text: "Read people", Chosen: true}, {Value: "edit people", Text: "Edit people", Hint: "changes what is kept"}}
	lines := []TokenLine{
		{Name: "Rota of the night desk", Acts: "read people, read standings", Made: "Noor Haddad, 2 Nov 2026, 09:14 MST", Until: "31 Jan 2027, 09:14 MST", Used: "today, 07:52 MST", Revoke: "/tokens/t1/revocation"},
		{Name: "Personnel list", Acts: "edit people", Made: "Noor Haddad, 3 Nov 2026, 10:00 MST", Until: "1 Feb 2027, 10:00 MST", Revoke: "/tokens/t2/revocation"},
	}
	ended := []TokenLine{
		{Name: "A trial", Acts: "read people", Made: "Noor Haddad, 2 Oct 2026, 09:14 MDT", Until: "3 Oct 2026, 09:14 MDT", Ended: "Its time has run out.", Revoke: "/tokens/t3/revocation"},
		{Name: "An older rota", Acts: "read people", Made: "Noor Haddad, 1 Oct 2026, 09:14 MDT", Until: "31 Dec 2026, 09:14 MST", Ended: "Revoked by Noor Haddad, 2 Nov 2026, 09:10 MST."},
	}
	return map[string]Page{
		"tokens":       TokensPage{Frame: frame, Working: lines, Ended: ended, Acts: acts, Days: "90"},
		"tokens-none":  TokensPage{Frame: frame, Acts: acts, Days: "90"},
		"tokens-fault": TokensPage{Frame: frame, Acts: acts, Reading: true, Days: "900", Faults: Faults{What: "No token is made.", Next: "Look below.", Fields: []FieldFault{{"name", "Program", "Enter the name of the program."}, {"acts", "It may", "Choose what the program may do."}, {"days", "Days", "A token lasts from 1 to 365 days."}}}},
		"token-made":   TokenMadePage{Frame: frame, Name: "Rota of the night desk", Secret: "wellshown_000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f91267e8a", Acts: "read people, read standings", Until: "31 Jan 2027, 09:14 MST"},
	}
}

package web

func linkSamples() []LinkLine {
	return []LinkLine{
		{"Link to set a new password, made by Ada Minton on 24 Nov 2026, 09:12 MST", "Used on 24 Nov 2026, 10:02 MST; nobody has vouched.", true},
		{"Invitation, made by Ada Minton on 3 Aug 2025, 16:40 MDT", "Used on 4 Aug 2025, 07:15 MDT; Ines Okafor vouched on 4 Aug 2025, 08:00 MDT.", true},
		{"Invitation, made by Ada Minton on 1 Aug 2025, 11:05 MDT", "Not used; a newer one took its place.", false},
	}
}

func deviceSamples(of string) []DeviceLine {
	return []DeviceLine{
		{Name: "The ward’s grey tablet", Enrolled: "3 Nov 2026, 10:00 MST", Used: "24 Nov 2026, 10:41 MST", Revoke: of + "/devices/d1/revocation"},
		{Name: "My phone", Enrolled: "24 Nov 2026, 11:40 MST", Revoke: of + "/devices/d2/revocation"},
		{Name: "The tablet that was lost on the bus", Enrolled: "2 Sep 2025, 12:10 MDT", Used: "1 Nov 2026, 09:14 MDT", Revoked: "2 Nov 2026, 08:00 MST by Ada Minton"},
	}
}

func accountSample() AccountPage {
	frame := educatorFrame("")
	frame.News = 3
	return AccountPage{Frame: frame, Email: "noor@larkmoor.example", Reads: LanguageForm{Chosen: "en", All: []Option{{Value: "en", Text: "English"}, {Value: "es", Text: "Español"}}}, Links: linkSamples(), Others: true, Devices: deviceSamples("/account"),
		Waits: "The password was set anew by a link that Ada Minton made. Before you sign, somebody else must say that it is you: ask an educator, a coordinator or an administrator other than Ada Minton to vouch for you on your page.",
		SigningPIN: PINForm{May: true, Set: "2 Sep 2025, 12:00 MDT", Shut: "23 Nov 2026, 18:31 MST", Faults: Faults{What: "Your PIN is not kept.",
			Fields: []FieldFault{{"pin", "New PIN", "This is among the first that anybody would try. Choose digits that neither repeat nor follow each other."}}}},
		Sessions: []SessionLine{{"a1", "A tablet", "24 Nov 2026, 10:03 MST", "24 Nov 2026, 11:45 MST", true}, {"b2", "A phone", "22 Nov 2026, 06:50 MST", "23 Nov 2026, 22:10 MST", false}},
		Events: []EventLine{{"24 Nov 2026, 10:03 MST", "Signed in", "Noor Haddadin", true, false}, {"24 Nov 2026, 10:03 MST", "3 failed tries to prove who you are", "", false, true},
			{"24 Nov 2026, 10:02 MST", "New password set by a link", "Noor Haddadin", true, false}, {"24 Nov 2026, 09:12 MST", "Link made to set a new password", "Ada Minton", false, true},
			{"23 Nov 2026, 18:31 MST", "PIN for signing shut after too many wrong tries", "somebody signed in as you", false, true}, {"2 Sep 2025, 12:00 MDT", "Role given: educator", "Ada Minton", false, false}}}
}

func unvouchedSample() []Unvouched {
	return []Unvouched{{Name: "Nguyễn Thị Lan", Href: "/people/p7", Issuer: "Ada Minton", May: true}, {Name: "Noor Haddadin", Href: "/people/p4", Issuer: "Ada Minton"}}
}

package web

func passkeySamples() map[string]Page {
	educator, public := educatorFrame(""), Frame{Demo: true, Passkeys: "offered"}
	educator.Passkeys = "own"
	square, err := newSquare("otpauth://totp/Wellshown%20Larkmoor:noor@larkmoor.example?secret=GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ&issuer=Wellshown%20Larkmoor&algorithm=SHA1&digits=6&period=30")
	if err != nil {
		panic(err)
	}
	keys := []Passkey{
		{ID: "k1", Name: "My phone", Added: "2 Nov 2026, 09:14 MST", Used: "today, 07:52 MST", Remove: "/account/passkeys/k1/removal"},
		{ID: "k2", Name: "The ward’s grey tablet", Added: "3 Nov 2026, 10:00 MST", Doubted: "24 Nov 2026, 22:10 MST", Remove: "/account/passkeys/k2/removal"},
	}
	removing := append([]Passkey{}, keys...)
	removing[0].Faults = Faults{What: "The passkey is still there.", Fields: []FieldFault{{"password", "Password", "This is not your password."}}}
	faults := Faults{What: "Nothing is changed.", Next: "Look below.", Fields: []FieldFault{{"password", "Password", "This is not your password."}, {"code", "Code", "This code was used already."}}}
	return map[string]Page{
		"passkeys":          PasskeysPage{Frame: educator, Keys: keys},
		"passkeys-none":     PasskeysPage{Frame: motherFrame()},
		"passkeys-not-here": PasskeysPage{Frame: motherFrame(), WhyNot: "There are no passkeys here: browsers know passkeys for a name, and the service is reached at the number 127.0.0.1."},
		"passkeys-fault":    PasskeysPage{Frame: educator, Keys: removing},
		"passkey-sign": PasskeyPage{Frame: educator, Title: "Sign with a passkey", Says: "Circuit change, shown by Tomasz Rybak on 2026-11-18: competent. “I observed and judged this.”",
			Action: "/demonstrations/d1/signature", Fields: []Hidden{{"part", "observer"}}, Options: "{}", Button: "Sign with my passkey", Signer: "Noor Haddadin, RN 40122", Now: "18 Nov 2026, 15:42 MST", BackTo: "Go back without signing"},
		"passkey-new": PasskeyPage{Frame: educator, Title: "Make the passkey", Make: true, Action: "/account/passkeys/new", Fields: []Hidden{{"name", "My phone"}}, Options: "{}",
			Button: "Make the passkey now", Back: "/account/passkeys", BackTo: "Go back without one"},
		"passkey-sign-in": PasskeyPage{Frame: public, Title: "Sign in with a passkey", Action: "/sign-in/passkey", Options: "{}", Button: "Use my passkey", Back: "/sign-in",
			BackTo: "Sign in with the password instead"},
		"codes-on":           CodesPage{Frame: educator, On: true, CanBeSetUp: true, Since: "2 Nov 2026, 09:14 MST", Left: 9},
		"codes-on-last":      CodesPage{Frame: educator, On: true, CanBeSetUp: true, Since: "2 Nov 2026, 09:14 MST"},
		"codes-off":          CodesPage{Frame: educator, CanBeSetUp: true},
		"codes-not-here":     CodesPage{Frame: educator},
		"codes-fault":        CodesPage{Frame: educator, On: true, CanBeSetUp: true, Since: "2 Nov 2026, 09:14 MST", Left: 9, Off: faults},
		"new-codes":          NewCodesPage{Frame: educator, Square: square, Secret: inGroups("GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ", 4)},
		"new-codes-fault":    NewCodesPage{Frame: educator, Faults: Faults{What: "One-time codes are not on yet.", Fields: []FieldFault{{"code", "Code", "This code is not right."}}}},
		"recovery":           RecoveryPage{Frame: educator, First: true, Codes: []string{"abcde-fghij-klmno-pqrst", "bcdef-ghijk-lmnop-qrstu"}},
		"recovery-renewed":   RecoveryPage{Frame: educator, Codes: []string{"abcde-fghij-klmno-pqrst", "bcdef-ghijk-lmnop-qrstu"}},
		"sign-in-code":       SignInCodePage{Frame: public, Next: "/"},
		"sign-in-code-fault": SignInCodePage{Frame: public, Next: "/", Faults: Faults{What: "You are not signed in.", Fields: []FieldFault{{"code", "Code", "This code is not right, or it was used already."}}}},
	}
}

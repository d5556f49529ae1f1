package web

func ledgerSamples() map[string]Page {
	frame := coordinatorFrame("papers")
	signed := "wellshown.ledger/01963f7a-0000-7000-8000-0000000000aa\n1412\nxoQ2lqgKxJ8VNb0rGkzq0y6ZC3h5v1QmU0d9mVZ8f0M=\nsealed 2026-11-25T18:04:11Z\n\n— larkmoor K8vQWnV5a2XjY1s0aZJmWcQ3x7b9d0e2f4g6h8i0k2m4o6q8s0u2w4y6\n"
	page := LedgerPage{Frame: frame, Entries: "1412 entries", Sealed: "25 Nov 2026, 11:04 MST", Signed: signed, Keys: []string{"larkmoor+2bcf5a9d+AT3h0s1dJ2x8"}, All: "/ledger/entries"}
	extends, broken, wrong := page, page, page
	extends.Answer, extends.Kept, extends.Head = "extends", "402 entries, sealed 3 May 2026, 10:00 MDT", signed
	broken.Answer, broken.Why, broken.Kept = "broken", "History was rewritten: what was in the ledger then is not what is in it now.", extends.Kept
	wrong.Head, wrong.Faults = "nothing", Faults{What: "Nothing was compared.", Fields: []FieldFault{{"head", "The head that was kept", "This is no head that this agency's ledger has signed."}}}
	lines := []EntryLine{{"1411", "25 Nov 2026, 11:04 MST", "Noor Haddadin", "sign a record", "signature", "0193a1d0-0000-7000-8000-000000000001/observer"},
		{"1410", "25 Nov 2026, 11:02 MST", "", "keep house", "journal", "0193a1d0-0000-7000-8000-000000000002"}}
	proof := ProofPage{Frame: frame, Of: "this demonstration and its signatures", Back: "/demonstrations/d1", File: "/demonstrations/d1/proof.json", Sealed: page.Sealed, Size: page.Entries,
		Entries: []ProofEntry{{"demonstration", "25 Nov 2026, 11:02 MST", Worded{Text: "observe a demonstration"}, "1402", "9f2c4be1d07a5c33e8a6b1f00d4e7782c6c5b9a1e3f4d2b8a7960c1d2e3f4a5b", true},
			{"signature of the observer", "25 Nov 2026, 11:04 MST", Worded{Text: "sign a record"}, "1411", "0d4e7782c6c5b9a1e3f4d2b8a7960c1d2e3f4a5b9f2c4be1d07a5c33e8a6b1f0", false}}}
	return map[string]Page{
		"ledger": page, "ledger-extends": extends, "ledger-broken": broken, "ledger-wrong": wrong, "ledger-empty": LedgerPage{Frame: frame},
		"entries": EntriesPage{Frame: frame, Lines: lines, Older: "/ledger/entries?after=1410"}, "entries-empty": EntriesPage{Frame: frame},
		"proof": proof, "proof-waiting": ProofPage{Frame: frame, Of: "this certificate", Back: "/certificates/x", Waiting: true},
	}
}

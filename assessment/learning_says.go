package assessment

import "wellshown/assessment/phrase"

// Says is how far somebody is, in a few words.
func (l Learnt) Says() phrase.Phrase {
	switch l.Stage() {
	case Taught:
		return phrase.Of("taught")
	case Practised:
		return l.practised()
	case CheckPassed:
		return phrase.Of("knowledge check passed")
	case Shown:
		return phrase.Of("shown %d of %d times", l.Shown, l.Of)
	case LearntByThen:
		return phrase.Of("current")
	}
	return phrase.Of("not begun")
}

func (l Learnt) practised() phrase.Phrase {
	switch {
	case l.Alone == l.Runs:
		return phrase.Count(l.Runs, "practised once by myself, not observed", "practised %d times by myself, not observed")
	case l.Alone > 0:
		return phrase.Of("practised %d times, %d of them by myself, not observed", l.Runs, l.Alone) // two runs at least
	}
	return phrase.Count(l.Runs, "practised once", "practised %d times")
}

// Tells is all that is known of somebody and one skill: how often and how it was taught,
// practice, the knowledge check, and what was shown. Only the last of it counts.
func (l Learnt) Tells() []phrase.Phrase {
	var all []phrase.Phrase
	switch {
	case l.Sessions > 0:
		all = append(all, phrase.Count(l.Sessions, "taught once: %[2]s", "taught %d times: %s", l.How.Says()))
	case l.Taught:
		all = append(all, phrase.Of("taught"))
	default:
		all = append(all, phrase.Of("not taught yet"))
	}
	if l.Runs > 0 {
		all = append(all, phrase.Of("%s: practice counts for no skill", l.practised()))
	} else {
		all = append(all, phrase.Of("not practised yet"))
	}
	switch {
	case l.Checked:
		all = append(all, phrase.Of("knowledge check passed"))
	case l.Asked:
		all = append(all, phrase.Of("knowledge check not passed yet"))
	}
	if l.Of > 0 {
		all = append(all, phrase.Of("shown and signed by both: %d of %d times", l.Shown, l.Of))
	}
	return all
}

// Says lists what happened.
func (h TaughtHow) Says() phrase.Phrase {
	var all phrase.List
	for _, one := range []struct {
		is   bool
		says phrase.Phrase
	}{{h.Shown, phrase.Of("shown how")}, {h.Explained, phrase.Of("explained")}, {h.Practised, phrase.Of("practised with help")}, {h.TaughtBack, phrase.Of("taught back")}} {
		if one.is {
			all = append(all, one.says)
		}
	}
	return phrase.Of("%s", all)
}

// And is all that happened in either.
func (h TaughtHow) And(more TaughtHow) TaughtHow {
	return TaughtHow{h.Shown || more.Shown, h.Explained || more.Explained, h.Practised || more.Practised, h.TaughtBack || more.TaughtBack}
}

// Next says what somebody does about a skill now: the first step that is not taken. A
// skill that was held before is shown again; whatever is asked first is named.
func (l Learnt) Next(title string, needed Next) phrase.Phrase {
	again := l.Word == Lapsed || l.Word == Withdrawn
	switch {
	case l.Word.Holds():
		return phrase.Phrase{}
	case again || l.Shown > 0 || l.Runs > l.Alone && (l.Checked || !l.Asked):
		if says := needed.Phrase(); !says.IsZero() {
			return phrase.Of("Show %s to an observer. Needed: %s.", title, says)
		}
		return phrase.Of("Show %s to an observer.", title)
	case !l.Taught:
		return phrase.Of("Ask your educator to teach you %s.", title)
	case l.Runs == l.Alone:
		return phrase.Of("Practise %s with somebody who can do it.", title)
	}
	return phrase.Of("Take the knowledge check of %s.", title)
}

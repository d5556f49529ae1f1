package assessment

import "wellshown/assessment/phrase"

// TubeOutSteps are the first steps when the tube has come out, in a few words for the card at
// the bedside. The lesson of the skill has all of them: none of these may say otherwise.
func (r HomeRecord) TubeOutSteps() []phrase.Phrase {
	return []phrase.Phrase{
		r.shout(),
		phrase.Of("Lay flat, with a roll under the shoulders."),
		phrase.Of("Same-size tube in. Obturator out at once."),
		phrase.Of("Hold the tube. Give breaths. See the chest rise."),
		r.notIn(),
		r.giveAir(),
		phrase.Of("No response, no normal breathing? Start CPR. Call now."),
	}
}

// BlockedSteps are those when the tube is blocked.
func (r HomeRecord) BlockedSteps() []phrase.Phrase {
	return []phrase.Phrase{
		r.shout(),
		phrase.Of("Lay flat, with a roll under the shoulders."),
		phrase.Of("Take everything off the tube."),
		phrase.Of("Pass the suction catheter to the mark, once."),
		phrase.Of("Will not pass? Cuff empty, ties undone, old tube out."),
		phrase.Of("New tube in, same size. Obturator out at once."),
		r.notIn(),
		phrase.Of("Give breaths with the bag. No chest rise? Take the tube out."),
		r.giveAir(),
		phrase.Of("No response, not breathing? Start CPR. Call now."),
	}
}

// shout is the first step: whether to call with it, the child's plan decides.
func (r HomeRecord) shout() phrase.Phrase {
	switch r.Call {
	case CallAtOnce:
		return phrase.Of("Shout for help. Call at once.")
	case CallAfterOne:
		return phrase.Of("Shout for help. Blue, limp or not breathing? Call at once.")
	}
	return phrase.Of("Shout for help. Call as the plan says. In doubt, call at once.")
}

// notIn is what comes after the first tube would not go in. Where there is no smaller one,
// the plan on the card stands in its place.
func (r HomeRecord) notIn() phrase.Phrase {
	switch {
	case r.Smallest() && r.Call == CallAfterOne:
		return phrase.Of("Will not go in? Call. Do the plan for “no smaller tube” on side 1.")
	case r.Smallest():
		return phrase.Of("Will not go in? Do the plan for “no smaller tube” on side 1.")
	case r.Call == CallAfterOne:
		return phrase.Of("Will not go in? Call. Then the smaller tube.")
	}
	return phrase.Of("Will not go in? Then the smaller tube.")
}

// giveAir is what to do where no tube goes in.
func (r HomeRecord) giveAir() phrase.Phrase {
	switch r.Air {
	case AirOpen:
		return phrase.Of("No tube in? Stop trying. Give air: cover the stoma, mask on mouth and nose. Or small mask on the stoma.")
	case AirNone:
		return phrase.Of("No tube in? Stop trying. Give air by the small mask on the stoma only.")
	}
	return phrase.Of("No tube in? Stop trying. Give air the way you were taught.")
}

// CallSays is when to call, by the child's plan; nothing where nobody has said it.
func (r HomeRecord) CallSays() phrase.Phrase {
	switch r.Call {
	case CallAtOnce:
		return phrase.Of("Call at once.")
	case CallAfterOne:
		return phrase.Of("Call after one failed attempt.")
	case CallOtherwise:
		return phrase.Of("%s", phrase.Own{English: r.CallWords})
	}
	return phrase.Phrase{}
}

// AirSays is whether air can pass through mouth and nose; nothing where nobody has said it.
func (r HomeRecord) AirSays() phrase.Phrase {
	switch r.Air {
	case AirOpen:
		return phrase.Of("Air can pass through mouth and nose.")
	case AirNone:
		return phrase.Of("No upper airway: only the stoma will do.")
	case AirOtherwise:
		return phrase.Of("%s", phrase.Own{English: r.AirWords})
	}
	return phrase.Phrase{}
}

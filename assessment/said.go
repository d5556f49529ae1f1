package assessment

import "wellshown/assessment/phrase"

// The words of the rules are said to whoever reads them in their language; each is
// known by its English text, which is what is kept.

// Phrase names the act.
func (a Act) Phrase() phrase.Phrase { return phrase.Phrase{Format: string(a)} }

// Phrase names the role.
func (r Role) Phrase() phrase.Phrase { return phrase.Phrase{Format: string(r)} }

// Phrase names the kind of caregiver.
func (k CaregiverKind) Phrase() phrase.Phrase { return phrase.Phrase{Format: string(k)} }

// Outcomes lists all outcomes.
var Outcomes = []Outcome{Competent, NotYetCompetent, StoppedForSafety}

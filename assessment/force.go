package assessment

import "wellshown/assessment/fault"

// ForceVerdict is what became of a proposal to put a revision in force.
type ForceVerdict string

// The verdicts; none yet: it waits for a second person.
const (
	ForceAgreed    ForceVerdict = "agreed"
	ForceDeclined  ForceVerdict = "declined"
	ForceTakenBack ForceVerdict = "taken back"
)

// SecondForForce refuses whoever proposed as the one who agrees: what decides who is
// competent takes two people.
func SecondForForce(proposed, agrees PersonID) error {
	if proposed == agrees {
		return fault.Of(fault.Refused, "You have proposed this yourself. It takes another licensed educator to agree to it. It is not in force.")
	}
	return nil
}

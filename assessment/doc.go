// Package assessment is the core of Wellshown: what it takes for someone to be
// shown competent. It is pure. It reads no clock, no disk and no database; every
// answer is a function of what it is given.
//
// The story it tells, in order:
//
// A skill has checklist revisions (Checklist, Revision): draft, in force,
// retired. A learner performs one in front of an observer, who fills in a Sheet:
// a Mark at each step, with the values that timed and measured steps ask for.
// Score makes an Outcome of it, always with its reasons. The record of it is a
// return demonstration; two signatures make it count (MayObserve says whose).
// All that is known of one caregiver in one skill is a history of Entry values;
// NewCase puts it in order and Case.On answers for any civil date with a
// Standing: not started, learning, current, due, lapsed, withdrawn or waived,
// and with the ids of what made it so. Needed says who must hold what, and
// Assess whether a child can go home.
//
// A Pattern makes Shift values; Coverage holds each to the standings on the civil days
// that it touches and says who could take it. What must be renewed is a Window; Visiting
// plans who goes to which home and when.
//
// One sentence shapes every rule: a negative needs one signature and acts from
// the day it was performed; a positive needs both and acts from the day of the
// later one. Where a rule is ambiguous, the reading that withholds competence is
// taken, and a vector in testdata shows it.
package assessment

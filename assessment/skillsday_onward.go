package assessment

import "slices"

// Onward is where a learner goes next.
type Onward struct {
	Station  int   // 0: nowhere
	Again    bool  // they were there, and it was not competent
	Unsigned []int // what was shown there must be signed first
}

// GoOn tells where a learner goes next, who showed some stations already, competently
// or not. A station that waits for another one is no place to go.
func GoOn(round []Visit, passed, tried map[int]bool) Onward {
	var again int
	var unsigned []int
	for _, v := range round {
		no := v.Station.No
		if v.Asking != AskedNow || len(v.Cannot) > 0 || passed[no] {
			continue
		}
		waits := false
		for _, before := range v.First {
			waits = true
			if passed[before] && !slices.Contains(unsigned, before) {
				unsigned = append(unsigned, before)
			}
		}
		switch {
		case waits:
		case !tried[no]:
			return Onward{Station: no}
		case again == 0:
			again = no
		}
	}
	return Onward{Station: again, Again: again != 0, Unsigned: unsigned}
}

package integration

import (
	"maps"
	"slices"
	"testing"
	"time"
)

// onFloor is a learner as a station's lists have them.
type onFloor struct {
	Visit  struct{ ID string }
	Open   *struct{ ID string }
	Shown  []struct{ Outcome string }
	Cannot []string
	May    bool
}

// given is what a module is given.
type given = map[string]any

// stationsGiven is a pack made at noon of 7 March in New York, of a day with a station for
// Mira's humidifier, and to it come Nan, Olu, Pia, Rui and Sol.
func stationsGiven() (pack, day, station given) {
	visit := func(id string, cannot []any, shown ...any) given {
		return given{"id": id, "name": id, "word": "learning", "first": []any{}, "cannot": cannot, "shown": append([]any{}, shown...)}
	}
	none := []any{}
	station = given{"no": 2, "skill": "humidifier", "specific": true, "client": given{"id": "mira"}, "learners": []any{
		visit("nan", none), visit("olu", none, given{"id": "s1", "outcome": "competent", "formal": true, "signed": false}), visit("pia", []any{"It was withdrawn."}),
		visit("rui", none, given{"id": "s2", "outcome": "competent", "formal": true, "taken_back": true}), visit("sol", none, given{"id": "s3", "outcome": "not yet competent", "formal": false})}}
	day = given{"id": "d", "on": "2026-03-07", "stations": []any{station}}
	pack = given{"zone": "America/New_York", "made_at": "2026-03-07T17:00:00Z", "expires_at": "2026-03-08T17:00:00Z", "skills_days": []any{day}, "skills": []any{given{"code": "humidifier"}},
		"clients": []any{given{"id": "mira"}}, "learners": []any{given{"id": "nan"}, given{"id": "olu"}, given{"id": "rui"}, given{"id": "sol"}}}
	return pack, day, station
}

// of is a sheet of a learner's on Mira's humidifier; state is its state on the device.
func of(learner, state string, change ...any) given {
	s := given{"id": "of " + learner, "state": state, "formal": true, "performed_at": "2026-03-07T18:00:00Z", "finished_at": "2026-03-07T18:20:00Z", "learner": given{"id": learner},
		"skill": given{"code": "humidifier"}, "client": given{"id": "mira"}, "answer": given{"demonstration": given{"outcome": "not yet competent"}, "received_at": "2026-03-07T19:00:00Z"}}
	for i := 0; i < len(change); i += 2 {
		s[change[i].(string)] = change[i+1]
	}
	return s
}

// A learner has shown a station's skill where the pack says so or a sheet on the device
// does: theirs, of this skill and child, of the day, formal, and none that the office has
// taken back (ours, as the office's own lists are, no source).
func TestWhoWasShownAtAStation(t *testing.T) {
	pack, day, station := stationsGiven()
	for name, c := range map[string]struct {
		sheets []any
		come   []string
		shown  []string
	}{
		"as the pack says":                 {nil, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"finished on the device":           {[]any{of("nan", "finished")}, []string{"rui", "sol"}, []string{"nan", "olu"}},
		"refused by the office":            {[]any{of("nan", "refused")}, []string{"rui", "sol"}, []string{"nan", "olu"}},
		"taken in after the pack":          {[]any{of("nan", "sent")}, []string{"rui", "sol"}, []string{"nan", "olu"}},
		"being marked, so first":           {[]any{of("sol", "open")}, []string{"sol", "nan", "rui"}, []string{"olu"}},
		"practice":                         {[]any{of("nan", "finished", "formal", false)}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"another child's":                  {[]any{of("nan", "finished", "client", given{"id": "odo"})}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"another skill":                    {[]any{of("nan", "finished", "skill", given{"code": "bagging"})}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"the evening before, there":        {[]any{of("nan", "finished", "performed_at", "2026-03-07T04:59:59Z")}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"taken back, as the pack knows":    {[]any{of("rui", "sent", "id", "s2")}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"in the pack already":              {[]any{of("olu", "sent", "id", "s1")}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"who cannot, shown all the same":   {[]any{of("pia", "finished")}, []string{"nan", "rui", "sol"}, []string{"olu", "pia"}},
		"somebody's who does not come":     {[]any{of("una", "finished")}, []string{"nan", "rui", "sol"}, []string{"olu"}},
		"older than the pack, and unknown": {[]any{of("nan", "sent", "answer", given{"demonstration": given{"outcome": "competent"}, "received_at": "2026-03-07T16:59:59Z"})}, []string{"nan", "rui", "sol"}, []string{"olu"}},
	} {
		var lists []map[string][]onFloor
		byNode(t, "call.mjs", []moduleCall{{"stations", "listsOf", []any{pack, day, station, append([]any{}, c.sheets...)}}}, &lists)
		got := map[string][]string{}
		for list, all := range lists[0] {
			for _, one := range all {
				got[list] = append(got[list], one.Visit.ID)
				if len(one.Shown) != 1 && list == "shown" {
					t.Errorf("%s: %s has shown it %d times", name, one.Visit.ID, len(one.Shown))
				}
			}
		}
		if !slices.Equal(got["come"], c.come) || !slices.Equal(got["shown"], c.shown) {
			t.Errorf("%s: %v, want %v to come and %v shown", name, got, c.come, c.shown)
		}
	}
}

// Where nothing can count it is said, each reason once, and where the pack lacks what a
// sheet needs nothing begins (the stricter reading, no source).
func TestWhatAStationCannotDo(t *testing.T) {
	pack, day, station := stationsGiven()
	var all []onFloor
	closed := maps.Clone(station)
	closed["closed"] = "No checklist is in force."
	twice := given{"id": "nan", "cannot": []any{"It was withdrawn.", closed["closed"]}, "shown": []any{}, "word": "learning"}
	childless := maps.Clone(station)
	childless["client"] = given{"id": "odo"}
	unknown := given{"id": "una", "cannot": []any{}, "shown": []any{}, "word": "learning"}
	at := func(station, visit any) moduleCall {
		return moduleCall{"stations", "known", []any{pack, given{"day": day, "station": station, "visit": visit}, []any{}}}
	}
	byNode(t, "call.mjs", []moduleCall{at(closed, twice), at(childless, twice), at(station, unknown)}, &all)
	if !slices.Equal(all[0].Cannot, []string{"No checklist is in force.", "It was withdrawn."}) || !all[0].May {
		t.Errorf("closed: %+v", all[0])
	}
	if all[1].May || all[2].May {
		t.Errorf("it may begin without its child, %v, or of somebody the pack does not have, %v", all[1].May, all[2].May)
	}
}

// A pack holds on over midnight; its skills days are those of their civil day alone.
func TestASkillsDayEndsWithItsDay(t *testing.T) {
	for at, want := range map[string]int{
		"2026-03-07T17:00:00Z": 1, "2026-03-08T04:59:59Z": 1, // 23:59:59 there
		"2026-03-08T05:00:00Z": 0, "2026-03-08T17:00:00Z": 0, "2026-03-07T04:59:59Z": 0, // the next day, run out, the evening before
	} {
		pack, _, _ := stationsGiven()
		now, err := time.Parse(time.RFC3339, at)
		if err != nil {
			t.Fatal(err)
		}
		forbidden := maps.Clone(pack)
		forbidden["may_not"] = "Your licence has ended."
		older := maps.Clone(pack)
		delete(older, "skills_days")
		var days [][]given
		byNode(t, "call.mjs", []moduleCall{{"stations", "daysOf", []any{pack, now.UnixMilli()}}, {"stations", "daysOf", []any{forbidden, now.UnixMilli()}}, {"stations", "daysOf", []any{older, now.UnixMilli()}}}, &days)
		if len(days[0]) != want || len(days[1]) != 0 || len(days[2]) != 0 {
			t.Errorf("at %s: %d days and not %d, %d for whoever may not observe, %d of an older pack", at, len(days[0]), want, len(days[1]), len(days[2]))
		}
	}
}

package assessment

import "wellshown/assessment/phrase"

// Missing says what a paper would have to leave open: each is printed as a line to fill in
// by hand.
func (r HomeRecord) Missing(p HomePaper) []phrase.Phrase {
	switch p {
	case EmergencyCard:
		return r.missingOnCard()
	case GoBagList:
		return r.missingSizes()
	case EquipmentList:
		return r.missingEquipment()
	case PowerLetter:
		var all []phrase.Phrase
		if r.Contact(PowerCompany).Name == "" {
			all = append(all, phrase.Of("the name of the power company"))
		}
		if r.BatteryMinutes == nil {
			all = append(all, phrase.Of("how long the ventilator’s battery lasts"))
		}
		return all
	}
	if r.Contact(FireService).Name == "" {
		return []phrase.Phrase{phrase.Of("the name of the fire service")}
	}
	return nil
}

// missingSizes are those of tubes and catheters.
func (r HomeRecord) missingSizes() []phrase.Phrase {
	var all []phrase.Phrase
	_, smaller := r.Smaller()
	switch {
	case r.Tube == nil:
		all = append(all, phrase.Of("the size of the tube"))
		if !smaller {
			all = append(all, phrase.Of("the size of the smaller tube"))
		}
	case smaller:
	case r.Smallest():
		if !SaysAPlan(r.NoSmallerPlan) {
			all = append(all, phrase.Of("the plan where there is no smaller tube"))
		}
	case r.SmallTube != nil:
		all = append(all, phrase.Of("the size of the smaller tube: the one on record is not smaller"))
	default:
		all = append(all, phrase.Of("the size of the smaller tube"))
	}
	if r.Catheter == nil {
		all = append(all, phrase.Of("the size of the suction catheter"))
	}
	if r.SmallCatheter == nil && !r.Smallest() {
		all = append(all, phrase.Of("the size of the catheter for the smaller tube"))
	}
	return all
}

func (r HomeRecord) missingOnCard() []phrase.Phrase {
	all := r.missingSizes()
	if r.Call == CallNotSaid {
		all = append(all, phrase.Of("when help is called"))
	}
	if r.Air == AirNotSaid {
		all = append(all, phrase.Of("whether air can pass through mouth and nose"))
	}
	for _, c := range r.Calls() {
		if c.Telephone == "" {
			all = append(all, phrase.Of("the telephone: %s", c.Role.Phrase()))
		}
	}
	if r.KitPlace.English == "" && r.KitPlace.Spanish == "" {
		all = append(all, phrase.Of("where the emergency kit is"))
	}
	return all
}

func (r HomeRecord) missingEquipment() []phrase.Phrase {
	if len(r.Equipment) == 0 {
		return []phrase.Phrase{phrase.Of("the equipment: none is on record")}
	}
	var all []phrase.Phrase
	for _, e := range r.Equipment {
		kind := EquipmentKind(e.Kind)
		if e.Supplier == "" {
			all = append(all, phrase.Of("%s: the supplier", kind))
		}
		if e.Telephone == "" {
			all = append(all, phrase.Of("%s: the supplier’s telephone", kind))
		}
		if e.CheckedBy == "" {
			all = append(all, phrase.Of("%s: who checks it", kind))
		}
		if e.CheckedWhen == "" {
			all = append(all, phrase.Of("%s: when it is checked", kind))
		}
	}
	return all
}

package web

import (
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// askedIn is how a question is answered, in words and as fields, in a language, with what was
// answered before. The faults name the form that it is in.
func askedIn(w wording.Words, in Faults, q office.Question) (how string, fields []Field) {
	language := string(w.Language())
	t := q.Item.In(language)
	options := q.Options(language)
	places := knowledge.Places(q.Shown, q.Answer.Chosen)
	switch q.Item.Kind {
	case knowledge.Single:
		fields = []Field{choice(in, "radios", w.Say("Choose one"), options, places)}
	case knowledge.Multiple:
		fields = []Field{choice(in, "checks", w.Say("Choose all that are right"), options, places)}
	case knowledge.Order:
		how = w.Say("Give each step its place: 1 comes first.")
		for i, text := range options {
			fields = append(fields, selected(in, "place", i, text, w.Say("Place"), numbersTo(len(options)), slices.Index(places, i+1)+1))
		}
	case knowledge.Match:
		how = w.Say("Choose what belongs to each.")
		for i, text := range t.Left {
			chosen := 0
			if i < len(places) {
				chosen = places[i]
			}
			fields = append(fields, selected(in, "match", i, text, w.Say("Choose"), options, chosen))
		}
	case knowledge.Numeric:
		fields = []Field{{ID: in.ID("value"), Name: "value", Label: w.Say("Number"), Kind: "number", Value: q.Answer.Value, Either: true}, unitField(w, in, q)}
	}
	return how, fields
}

func choice(in Faults, kind, label string, options []string, places []int) Field {
	f := Field{ID: in.ID("chosen"), Name: "chosen", Label: label, Kind: kind, Either: true}
	for i, text := range options {
		o := Option{Value: strconv.Itoa(i + 1), Text: text, Chosen: slices.Contains(places, i+1)}
		if o.Chosen {
			f.Value = o.Value
		}
		f.Options = append(f.Options, o)
	}
	return f
}

func selected(in Faults, name string, at int, label, none string, options []string, chosen int) Field {
	name += "-" + strconv.Itoa(at+1)
	f := Field{ID: in.ID(name), Name: name, Label: label, Kind: "select", Either: true, Options: []Option{{Text: none}}}
	for i, text := range options {
		f.Options = append(f.Options, Option{Value: strconv.Itoa(i + 1), Text: text})
	}
	if chosen > 0 {
		f.Value = strconv.Itoa(chosen)
	}
	return f
}

func numbersTo(n int) []string {
	var all []string
	for i := range n {
		all = append(all, strconv.Itoa(i+1))
	}
	return all
}

func unitField(w wording.Words, in Faults, q office.Question) Field {
	f := Field{ID: in.ID("unit"), Name: "unit", Label: w.Say("Unit"), Kind: "radios", Value: q.Answer.Unit, Either: true}
	for _, u := range q.Item.Units {
		f.Options = append(f.Options, Option{Value: u, Text: w.Of(assessment.UnitPhrase(u))})
	}
	return f
}

package integration

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"

	"wellshown/assessment/reading"
)

var place = regexp.MustCompile(`%(?:\[\d+\])?[a-z]`)

// What families read on pages is plain: by the formula of Fernández Huerta each file
// of texts has an ease of 60 at least, which is at most grade 8 (J. Fernández Huerta,
// Medidas sencillas de lecturabilidad, 1959; as lessons are measured).
func TestHouseSpanishOfPagesIsPlain(t *testing.T) {
	for _, name := range []string{"pages", "door", "account", "family", "records", "faults"} {
		src, err := fs.ReadFile(houseFS(t), "assessment/wording/es/"+name+".yaml")
		if err != nil {
			t.Fatal(err)
		}
		var texts map[string]any
		if err := yaml.Unmarshal(src, &texts); err != nil {
			t.Fatal(err)
		}
		var sentences []string
		for _, text := range texts {
			said, plain := text.(string)
			if forms, counted := text.(map[string]any); counted {
				said, plain = forms["other"].(string)
			}
			said = place.ReplaceAllString(said, "Ana")
			if plain && strings.Contains(said, " ") && strings.ContainsAny(said, ".?") { // labels are no sentences
				sentences = append(sentences, said)
			}
		}
		level := reading.Measure("es", sentences...)
		t.Logf("%s: ease %.0f, grade %v", name, level.Ease, level.Grade)
		if level.Ease < 60 {
			t.Errorf("%s is hard to read: ease %.1f", name, level.Ease)
		}
	}
}

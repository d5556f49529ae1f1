package catalog_test

import (
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/wording"
)

// Families read what a starter skill is called, and what a child's values are, in their
// language.
func TestStartersAreCalledSomethingInEveryLanguage(t *testing.T) {
	var named []string
	for _, c := range all(t) {
		named = append(named, c.Title)
	}
	for _, p := range catalog.Parameters() {
		says, _, _ := strings.Cut(p.Says, ",") // as pages say it in short
		named = append(named, says)
	}
	for _, l := range wording.Languages {
		for _, n := range named {
			if _, known := wording.In(l).Theirs(n); !known {
				t.Errorf("%q is not known in %s", n, l.Own())
			}
		}
	}
}

package catalog

import (
	"embed"
	"fmt"

	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
)

//go:embed items
var banks embed.FS

// Items reads the starter items of a skill's knowledge check. Like the checklists they
// are a draft that a licensed clinician reviews.
func Items(code string) (knowledge.Bank, error) {
	for _, known := range codes {
		if code != known {
			continue
		}
		src, err := banks.ReadFile("items/" + code + ".yaml")
		if err != nil {
			return knowledge.Bank{}, fault.Of(fault.NotFound, "There are no starter items for %q.", code)
		}
		b, err := knowledge.Read(src)
		if err != nil {
			return b, fmt.Errorf("read the starter items of %s: %w", code, err)
		}
		return b, nil
	}
	return knowledge.Bank{}, fault.Of(fault.NotFound, "There are no starter items for %q.", code)
}

package postgres

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// Page is one page of a list.
type Page[T any] struct {
	Items []T
	Next  string // where the next page begins; empty on the last
}

// usualPage is how many a page holds where nobody says.
const usualPage = 200

// paged cuts what was read, one more than was asked for, to a page.
func paged[T any](found []T, limit int, at func(T) string) Page[T] {
	if len(found) <= limit {
		return Page[T]{Items: found}
	}
	return Page[T]{Items: found[:limit], Next: at(found[limit-1])}
}

// place is where a record stands in a list: what comes first by rank, then by when
// it was performed, then by id. A page goes on after it even where the record
// itself has left the list meanwhile.
type place struct {
	rank int
	at   time.Time
	id   assessment.DemonstrationID
}

func (p place) String() string { return fmt.Sprintf("%d.%d.%s", p.rank, p.at.UnixMicro(), p.id) }

// The years that a place can lie in: 1 to 9999, in microseconds.
const firstMicro, lastMicro = -62135596800_000_000, 253402300799_999_999

func readPlace(s string) (place, error) {
	parts := strings.Split(s, ".")
	if len(parts) != 3 {
		return place{}, noPlace()
	}
	rank, badRank := strconv.Atoi(parts[0])
	micro, badMicro := strconv.ParseInt(parts[1], 10, 64)
	id, badID := assessment.ParseID[assessment.DemonstrationID](parts[2])
	if badRank != nil || badMicro != nil || badID != nil || rank < 0 || rank > 1 || micro < firstMicro || micro > lastMicro {
		return place{}, noPlace()
	}
	return place{rank, time.UnixMicro(micro).UTC(), id}, nil
}

func noPlace() error {
	return &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.",
		Fields: map[string]string{"after": "This is no place in the list. Send what the page before gave as next, unchanged."}}
}

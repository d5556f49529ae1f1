package assessment

import (
	"strconv"
	"time"

	"wellshown/assessment/fault"
)

// MadeAt is when an id says that it was made, to the millisecond: the first 48 bits
// of a UUID of version 7 (RFC 9562, section 5.7). Whoever made it may have had a
// wrong clock. What is no such id is refused.
func MadeAt[T ~string](id T) (time.Time, error) {
	s := string(id)
	if !idForm.MatchString(s) || s[14] != '7' || s[19] != '8' && s[19] != '9' && s[19] != 'a' && s[19] != 'b' {
		return time.Time{}, fault.Of(fault.Invalid, "An id that is made on a device is a UUID of version 7, in lower case.")
	}
	ms, err := strconv.ParseInt(s[:8]+s[9:13], 16, 64)
	if err != nil {
		return time.Time{}, fault.Of(fault.Invalid, "An id that is made on a device is a UUID of version 7, in lower case.")
	}
	return time.UnixMilli(ms).UTC(), nil
}

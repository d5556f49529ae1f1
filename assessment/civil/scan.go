package civil

import (
	"database/sql/driver"
	"fmt"
	"time"
)

// MarshalText writes YYYY-MM-DD; the zero Date is empty.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads YYYY-MM-DD; empty text is the zero Date.
func (d *Date) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*d = Date{}
		return nil
	}
	p, err := Parse(string(b))
	if err != nil {
		return err
	}
	*d = p
	return nil
}

// Value hands d to a date column; the zero Date is null.
func (d Date) Value() (driver.Value, error) {
	if d.IsZero() {
		return nil, nil
	}
	return d.utc(), nil
}

// Scan reads a date column; null is the zero Date.
func (d *Date) Scan(src any) error {
	switch v := src.(type) {
	case nil:
		*d = Date{}
	case time.Time:
		*d = Of(v.Date())
	case string:
		return d.UnmarshalText([]byte(v))
	default:
		return fmt.Errorf("read a day from %T", src)
	}
	return nil
}

package fault_test

import (
	"errors"
	"fmt"
	"testing"

	"wellshown/assessment/fault"
)

// RFC 9110 section 15.5: what each status says, and RFC 6585 section 4 for 429.
func TestStatus(t *testing.T) {
	for kind, status := range map[fault.Kind]int{
		fault.Invalid: 422, fault.Refused: 422, fault.NotFound: 404, fault.Conflict: 409,
		fault.Unauthenticated: 401, fault.Forbidden: 403, fault.Throttled: 429, fault.Busy: 503, 0: 500, 99: 500,
	} {
		if got := kind.Status(); got != status {
			t.Errorf("kind %d is status %d, not %d", kind, got, status)
		}
	}
}

func TestKindIsFoundInTheChain(t *testing.T) {
	err := fmt.Errorf("sign off: %w", fault.Of(fault.Refused, "step %d is critical", 3))
	if fault.KindOf(err) != fault.Refused || err.Error() != "sign off: step 3 is critical" {
		t.Errorf("%v is of kind %d", err, fault.KindOf(err))
	}
	if f, ok := fault.As(err); !ok || f.Message != "step 3 is critical" {
		t.Errorf("As finds %+v, %v", f, ok)
	}
	if other := errors.New("disk full"); fault.KindOf(other) != 0 || fault.KindOf(nil) != 0 {
		t.Error("what is no refusal has a kind")
	}
}

func TestFieldsAreShownAtOnce(t *testing.T) {
	var f fault.Fields
	if f.Err() != nil {
		t.Error("nothing was noted, and there is a fault")
	}
	f.Take("from", nil)
	if f.Err() != nil {
		t.Error("no error was noted as one")
	}
	f.Add("through", "the last day is before the first")
	if err := f.Err(); fault.KindOf(err) != fault.Invalid || err.Error() != "One thing needs mending. (through: the last day is before the first)" {
		t.Errorf("one fault reads %v", err)
	}
	f.Add("through", "a second word on the same field")
	f.Take("evidence", errors.New("say on what evidence"))
	want := "2 things need mending. (evidence: say on what evidence; through: the last day is before the first)"
	if err := f.Err(); err.Error() != want {
		t.Errorf("two faults read %v", err)
	}
	found, _ := fault.As(f.Err())
	if len(found.Fields) != 2 || found.Fields["through"] != "the last day is before the first" {
		t.Errorf("the fields are %v: the first word on a field is kept", found.Fields)
	}
}

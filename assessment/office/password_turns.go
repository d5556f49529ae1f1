package office

import (
	"context"
	"fmt"
	"hash/fnv"

	"wellshown/assessment/fault"
)

// Two passwords are hashed at once and so many more wait, so that many sign-ins
// cost time and not memory (64 MiB each), and never more time than a person waits.
const (
	hashedAtOnce = 2
	mostWaiting  = 62
)

// turns are who may have a password hashed now, and who waits for it. Those who
// sign in and those who are signed in have turns of their own: whoever is a
// stranger must not be able to keep anybody from signing.
type turns struct {
	places, slots chan struct{}
	lines         [32]chan struct{}
}

func newTurns() turns {
	t := turns{places: make(chan struct{}, hashedAtOnce+mostWaiting), slots: make(chan struct{}, hashedAtOnce)}
	for i := range t.lines {
		t.lines[i] = make(chan struct{}, 1)
	}
	return t
}

// enter takes a place, and refuses at once where all are taken. It comes before
// the try is counted: a password that was never looked at is no wrong one.
func (t turns) enter() (leave func(), err error) {
	select {
	case t.places <- struct{}{}:
		return func() { <-t.places }, nil
	default:
		return nil, fault.Of(fault.Busy, "Too many passwords are being checked just now, and yours was not looked at. Nothing was done. Try again in a minute.")
	}
}

// take waits for a turn.
func (t turns) take(ctx context.Context) (done func(), err error) {
	return wait(ctx, t.slots)
}

// inLine makes the tries of one person at one place follow each other: a try counts
// as failed until it is known to be good, and many right passwords at once would
// look like guessing.
func (t turns) inLine(ctx context.Context, person, place string) (done func(), err error) {
	hash := fnv.New32a()
	fmt.Fprint(hash, person, " ", place)
	return wait(ctx, t.lines[hash.Sum32()%uint32(len(t.lines))])
}

func wait(ctx context.Context, free chan struct{}) (done func(), err error) {
	select {
	case free <- struct{}{}:
		return func() { <-free }, nil
	case <-ctx.Done():
		return nil, fmt.Errorf("wait to hash a password: %w", ctx.Err())
	}
}

package office

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// The index of standings is written here and nowhere else, in the transaction of
// every change that a standing can depend on.

// reindexPerson writes the index of one person anew. Changes to one history take
// turns from here on, so that of two at once the later one reads both.
func (o *Office) reindexPerson(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) error {
	if err := tx.History.Lock(ctx, person); err != nil {
		return fmt.Errorf("lock a history: %w", err)
	}
	_, err := o.reindex(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{person}})
	return err
}

// reindexLocked writes the index of one person in one skill anew, where nothing
// else of theirs changed and their history is locked already. It returns what it
// read.
func (o *Office) reindexLocked(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID, skill assessment.SkillID) (*casebook, error) {
	return o.reindex(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{person}, Skill: skill})
}

// reindexSkill writes the index of everybody in one skill: its terms changed, or
// a recheck was announced.
func (o *Office) reindexSkill(ctx context.Context, tx *postgres.Tx, now Moment, skill assessment.SkillID) error {
	return o.reindexOthers(ctx, tx, now, postgres.HistoryFilter{Skill: skill})
}

// reindexClient writes the index of everybody with one client: the equipment changed.
func (o *Office) reindexClient(ctx context.Context, tx *postgres.Tx, now Moment, client assessment.ClientID) error {
	return o.reindexOthers(ctx, tx, now, postgres.HistoryFilter{Client: client})
}

// reindexOthers keeps everybody from changing anything and only then reads.
func (o *Office) reindexOthers(ctx context.Context, tx *postgres.Tx, now Moment, concerned postgres.HistoryFilter) error {
	if err := tx.History.LockAll(ctx); err != nil {
		return fmt.Errorf("lock all histories: %w", err)
	}
	_, err := o.reindex(ctx, tx, now, concerned)
	return err
}

func (o *Office) reindex(ctx context.Context, tx *postgres.Tx, now Moment, f postgres.HistoryFilter) (*casebook, error) {
	b, err := o.casebook(ctx, tx, now, f)
	if err != nil {
		return nil, err
	}
	for keys := range slices.Chunk(b.keys(), indexedAtOnce) {
		var lines []postgres.Line
		for _, key := range keys {
			c, err := b.caseOf(key)
			if err != nil {
				return nil, err
			}
			lines = append(lines, postgres.Line{Key: key, Segments: c.Timeline()})
		}
		if err := tx.Segments.Replace(ctx, lines); err != nil {
			return nil, fmt.Errorf("write the index of standings: %w", err)
		}
	}
	return b, nil
}

// indexedAtOnce is how many cases are written in one statement: enough that the way to the
// database does not count, few enough that a large agency is not held in memory twice.
const indexedAtOnce = 500

// Rebuilt is what a rebuild of the index found.
type Rebuilt struct {
	Agencies int
	Cases    int
	Wrong    []assessment.CaseKey // cases whose rows were not what the fold says
}

// Rebuild makes the index of every agency anew and says which rows were wrong.
func (o *Office) Rebuild(ctx context.Context) (Rebuilt, error) {
	var all Rebuilt
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return all, fmt.Errorf("list agencies: %w", err)
	}
	for _, id := range agencies {
		var one Rebuilt
		err := o.in(ctx, id, func(tx *postgres.Tx, now Moment) error {
			one = Rebuilt{}
			return o.rebuildOne(ctx, tx, now, &one)
		})
		if err != nil {
			return all, fmt.Errorf("rebuild the index of agency %s: %w", id, err)
		}
		all.Agencies++
		all.Cases += one.Cases
		all.Wrong = append(all.Wrong, one.Wrong...)
	}
	return all, nil
}

// CompareIndex holds what pages show of standings against what the records say, in
// every agency, and changes nothing.
func (o *Office) CompareIndex(ctx context.Context) (Rebuilt, error) {
	var all Rebuilt
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return all, fmt.Errorf("list agencies: %w", err)
	}
	for _, id := range agencies {
		err := o.reading(ctx, id, func(tx *postgres.Tx, now Moment) error { return o.compare(ctx, tx, now, &all) })
		if err != nil {
			return all, fmt.Errorf("compare the standings of agency %s: %w", id, err)
		}
		all.Agencies++
	}
	return all, nil
}

func (o *Office) compare(ctx context.Context, tx *postgres.Tx, now Moment, found *Rebuilt) error {
	stored, err := tx.Segments.All(ctx)
	if err != nil {
		return fmt.Errorf("read the index: %w", err)
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{})
	if err != nil {
		return err
	}
	for _, key := range b.keys() {
		c, err := b.caseOf(key)
		if err != nil {
			return err
		}
		line := c.Timeline()
		if len(line) > 0 {
			found.Cases++
		}
		if !slices.EqualFunc(stored[key], line, sameSegment) {
			found.Wrong = append(found.Wrong, key)
		}
		delete(stored, key)
	}
	for key := range stored { // of what nothing is known
		found.Wrong = append(found.Wrong, key)
	}
	return nil
}

// sameSegment compares what the index keeps of a segment.
func sameSegment(a, b assessment.Segment) bool {
	return a.From == b.From && a.Word == b.Word && a.Through == b.Through && a.Since == b.Since
}

func (o *Office) rebuildOne(ctx context.Context, tx *postgres.Tx, now Moment, found *Rebuilt) error {
	if err := tx.History.LockAll(ctx); err != nil { // before the first look: what changes meanwhile is not wrong
		return fmt.Errorf("lock all histories: %w", err)
	}
	before, err := tx.Segments.All(ctx)
	if err != nil {
		return fmt.Errorf("read the index: %w", err)
	}
	if err := tx.Segments.Clear(ctx); err != nil {
		return fmt.Errorf("clear the index: %w", err)
	}
	if err := o.reindexOthers(ctx, tx, now, postgres.HistoryFilter{}); err != nil {
		return err
	}
	after, err := tx.Segments.All(ctx)
	if err != nil {
		return fmt.Errorf("read the index: %w", err)
	}
	found.Cases = len(after)
	for key, line := range after {
		if !reflect.DeepEqual(before[key], line) {
			found.Wrong = append(found.Wrong, key)
		}
		delete(before, key)
	}
	for key := range before { // of what nothing is known
		found.Wrong = append(found.Wrong, key)
	}
	return nil
}

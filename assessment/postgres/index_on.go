package postgres

import (
	"context"
	"encoding/binary"
	"encoding/hex"
	"errors"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Indexed is what the index says on a day. There may be a hundred thousand rows: each says
// by number whose it is, and the ids and words that the numbers stand for are there once.
type Indexed struct {
	People  []assessment.PersonID
	Skills  []assessment.SkillID
	Clients []assessment.ClientID // the empty id among them: of general skills
	Words   []assessment.StandingWord
	Rows    []IndexedRow
}

// IndexedRow is one case.
type IndexedRow struct {
	Person, Skill, Client int32
	Word                  int32
	Through               civil.Date // zero where nothing was ever held
}

// indexOn asks for one day. Its columns all lie in one index, and its rows are those of the
// answer: what stood before and what will stand later is passed over unread.
const indexOn = `
	select person_id, skill_id, client_key, word, through_on
	from standing_segment
	where until_on >= $1 and from_on <= $1 and word <> '` + string(assessment.NotStarted) + `'`

// onlyOf narrows indexOn, where anybody is named, so that the planner can go by the key.
func onlyOf(people []assessment.PersonID) (string, []any) {
	if len(people) == 0 {
		return indexOn, nil
	}
	return indexOn + ` and person_id = any($2::uuid[])`, []any{people}
}

// Holders counts who may do a skill alone on a day, with whatever child.
func (s Segments) Holders(ctx context.Context, skill assessment.SkillID, day civil.Date) (int, error) {
	type row struct{ People int }
	var words []string
	for _, w := range []assessment.StandingWord{assessment.Current, assessment.Due} {
		if w.Holds() {
			words = append(words, string(w))
		}
	}
	r, err := get[row](ctx, s.scope, `
		select count(distinct person_id) as people from standing_segment
		where until_on >= $1 and from_on <= $1 and skill_id = $2 and word = any($3)`, day, skill, words)
	return r.People, err
}

// readIndexed reads the rows of indexOn as they come over the wire; about so many are expected.
func readIndexed(rows pgx.Rows, about int) (Indexed, error) {
	defer rows.Close()
	for _, column := range rows.FieldDescriptions()[:3] {
		if column.Format != pgx.BinaryFormatCode {
			return Indexed{}, errors.New("the index of standings came as text, which is not read here")
		}
	}
	people, skills, clients, words := numbered{}, numbered{}, numbered{}, map[string]int32{}
	all := Indexed{Rows: make([]IndexedRow, 0, about)}
	for rows.Next() {
		v := rows.RawValues()
		word, ok := words[string(v[3])]
		if !ok {
			word = int32(len(all.Words))
			words[string(v[3])], all.Words = word, append(all.Words, assessment.StandingWord(v[3]))
		}
		row := IndexedRow{Person: people.of(v[0]), Skill: skills.of(v[1]), Client: clients.of(v[2]), Word: word}
		if len(v[4]) == 4 {
			row.Through = wireEpoch.AddDays(int(int32(binary.BigEndian.Uint32(v[4]))))
		}
		all.Rows = append(all.Rows, row)
	}
	all.People, all.Skills, all.Clients = texts[assessment.PersonID](people), texts[assessment.SkillID](skills), texts[assessment.ClientID](clients)
	for i, c := range all.Clients {
		if c == noClient {
			all.Clients[i] = ""
		}
	}
	return all, rows.Err()
}

// wireEpoch is day 0 of dates in PostgreSQL's binary format.
var wireEpoch = civil.MustParse("2000-01-01")

// numbered are ids by the order in which they were first seen.
type numbered map[[16]byte]int32

func (known numbered) of(raw []byte) int32 {
	key := [16]byte(raw)
	n, ok := known[key]
	if !ok {
		n = int32(len(known))
		known[key] = n
	}
	return n
}

// texts are the ids by their numbers.
func texts[T ~string](known numbered) []T {
	all := make([]T, len(known))
	for id, n := range known {
		h := hex.EncodeToString(id[:])
		all[n] = T(h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:])
	}
	return all
}

package written_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/written"
)

// seeds are the vectors' cases.
func seeds(f *testing.F, folder string) {
	f.Helper()
	files, err := filepath.Glob(filepath.Join("..", "testdata", folder, "*.json"))
	if err != nil || len(files) == 0 {
		f.Fatalf("no vectors: %v", err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		var v struct{ Case json.RawMessage }
		if err := json.Unmarshal(data, &v); err != nil {
			f.Fatal(err)
		}
		f.Add([]byte(v.Case))
	}
}

// stable: a case that is read is written again, read back and written the same,
// and answered the same; what is not is refused as invalid. Nothing panics.
func stable[C any](t *testing.T, data []byte, decode func([]byte) (C, error), answer func([]byte) ([]byte, error)) {
	t.Helper()
	c, err := decode(data)
	if err != nil {
		if fault.KindOf(err) != fault.Invalid || err.Error() == "" {
			t.Errorf("refused without a word: %v", err)
		}
		return
	}
	once, err := json.Marshal(c)
	if err != nil {
		t.Fatalf("read and not written: %v", err)
	}
	again, err := decode(once)
	if err != nil {
		t.Fatalf("written as %s and not read back: %v", once, err)
	}
	if twice, err := json.Marshal(again); err != nil || !bytes.Equal(once, twice) {
		t.Errorf("written as %s, then as %s (%v)", once, twice, err)
	}
	first, err := answer(data)
	second, err2 := answer(once)
	if !bytes.Equal(first, second) || (err == nil) != (err2 == nil) {
		t.Errorf("answered with %s (%v), then with %s (%v)", first, err, second, err2)
	}
	if err == nil && !json.Valid(first) {
		t.Errorf("the answer is not JSON: %s", first)
	}
}

func FuzzScoreCase(f *testing.F) {
	seeds(f, "score")
	f.Add([]byte(scoreCase))
	f.Fuzz(func(t *testing.T, data []byte) { stable(t, data, written.DecodeScoreCase, written.AnswerScore) })
}

func FuzzStandingCase(f *testing.F) {
	seeds(f, "standing")
	f.Add([]byte(standingCase))
	f.Fuzz(func(t *testing.T, data []byte) { stable(t, data, written.DecodeStandingCase, written.AnswerStanding) })
}

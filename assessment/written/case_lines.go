package written

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
)

// AnswerLines answers JSON Lines: one case a line in, one answer a line out, in
// order. A line that cannot be answered gets {"error": "…", "line": n} and the rest
// go on; n counts from 1, blank lines too, which get no answer. The error returned is one of reading or writing.
func AnswerLines(in io.Reader, out io.Writer, answer func([]byte) ([]byte, error)) error {
	lines := bufio.NewReaderSize(in, 64<<10)
	w := bufio.NewWriter(out)
	for n := 1; ; n++ {
		line, err := caseLine(lines)
		if err != nil && !errors.Is(err, io.EOF) {
			return fmt.Errorf("read a case: %w", err)
		}
		if len(bytes.TrimSpace(line)) > 0 {
			if _, err := w.Write(append(answerLine(n, line, answer), '\n')); err != nil {
				return fmt.Errorf("write an answer: %w", err)
			}
		}
		if err != nil || lines.Buffered() == 0 { // nothing more is waiting: let what is answered be seen
			if err := w.Flush(); err != nil {
				return fmt.Errorf("write an answer: %w", err)
			}
		}
		if err != nil {
			return nil
		}
	}
}

func answerLine(n int, line []byte, answer func([]byte) ([]byte, error)) []byte {
	out, err := answer(line)
	if err == nil {
		return out
	}
	out, err = caseJSON(struct {
		Error string `json:"error"`
		Line  int    `json:"line"`
	}{err.Error(), n})
	if err != nil { // text always has a JSON form
		return []byte(`{"error":"the case cannot be answered"}`)
	}
	return out
}

// caseLine reads one line without its end and keeps no more of it than what
// shows that it is too long.
func caseLine(r *bufio.Reader) ([]byte, error) {
	var line []byte
	for {
		part, err := r.ReadSlice('\n')
		if len(line) <= MaxCaseBytes {
			line = append(line, part...)
		}
		if err == nil {
			return bytes.TrimSuffix(line, []byte("\n")), nil
		}
		if !errors.Is(err, bufio.ErrBufferFull) {
			return line, err
		}
	}
}

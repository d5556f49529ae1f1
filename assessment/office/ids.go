package office

import (
	"encoding/binary"
	"encoding/hex"
	"sync"
	"time"
)

// newID makes a UUID of version 7: 48 bits of milliseconds, then random. One that this
// program makes later in the same millisecond sorts later (RFC 9562, section 6.2, method 2),
// so that of two choices of one instant the one that was written later is the newest. Of two
// programs that write in the same microsecond nothing says which came first.
func newID[T ~string](o *Office, at time.Time) (T, error) {
	b, err := o.bytes(16)
	if err != nil {
		return "", err
	}
	ms := uint64(at.UnixMilli())
	o.ids.goOn(ms, b)
	for i := range 6 {
		b[i] = byte(ms >> (40 - 8*i))
	}
	b[6], b[8] = b[6]&0x0f|0x70, b[8]&0x3f|0x80
	h := hex.EncodeToString(b)
	return T(h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:]), nil
}

// lastIDs are the random parts of the newest ids of the last milliseconds.
type lastIDs struct {
	sync.Mutex
	of map[uint64]randomPart
}

// randomPart is what is random of an id: 12 bits and 62.
type randomPart struct{ high, low uint64 }

const (
	twelveBits   = 1<<12 - 1
	sixtyTwoBits = 1<<62 - 1
	mostLast     = 256 // milliseconds that are remembered: as long as a transaction may wait behind others
)

// goOn makes b, which is random, the random part of an id that sorts after the last one of
// the same millisecond, by a random distance.
func (l *lastIDs) goOn(ms uint64, b []byte) {
	l.Lock()
	defer l.Unlock()
	part := randomPart{uint64(binary.BigEndian.Uint16(b[6:])) & twelveBits, binary.BigEndian.Uint64(b[8:]) & sixtyTwoBits}
	if last, again := l.of[ms]; again {
		low := last.low + 1 + part.low&(1<<32-1)
		part = randomPart{(last.high + low>>62) & twelveBits, low & sixtyTwoBits}
	}
	if l.of == nil || len(l.of) > mostLast {
		l.of = map[uint64]randomPart{}
	}
	l.of[ms] = part
	binary.BigEndian.PutUint16(b[6:], uint16(part.high))
	binary.BigEndian.PutUint64(b[8:], part.low)
}

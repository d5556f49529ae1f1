package integration

import (
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"sync/atomic"
	"testing"
)

// counted counts what a server sends, in bytes with heads and all.
type counted struct {
	net.Listener
	sent *atomic.Int64
}

func (l counted) Accept() (net.Conn, error) {
	c, err := l.Listener.Accept()
	return countedConn{c, l.sent}, err
}

type countedConn struct {
	net.Conn
	sent *atomic.Int64
}

func (c countedConn) Write(b []byte) (int, error) {
	n, err := c.Conn.Write(b)
	c.sent.Add(int64(n))
	return n, err
}

// BenchmarkBedside measures the bedside in a browser whose CPU is slowed four times, for
// issue 4: how long after a tap its button shows that it was tapped, the device has kept
// the mark, and the button shows as chosen; how many bytes a first load sends; and with
// the network off, how long it takes from opening the page to the people, and from there
// through the name check to a first mark that is kept, with the CPU as it is and slowed. Run it alone, on a machine that
// does nothing else:
//
//	go test ./integration -run '^$' -bench Bedside -benchtime 1x
func BenchmarkBedside(b *testing.B) {
	tools := browserTools(b)
	var sent atomic.Int64
	_, task, _ := bedsideWardAt(b, "127.0.0.1", func(l net.Listener) net.Listener { return counted{l, &sent} })
	count := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, sent.Load()) }))
	b.Cleanup(count.Close)
	job := struct {
		bedsideTask
		Count    string `json:"count"` // tells how many bytes the site has sent
		Slowed   int    `json:"slowed"`
		Taps     int    `json:"taps"`
		Openings int    `json:"openings"`
	}{task, count.URL, 4, 40, 5}
	for b.Loop() {
		var came struct {
			Shown, Stored, Chosen []float64 // ms after a tap
			Bytes                 float64
			People, Mark          []float64 // ms after the page was opened

			PeopleSlowed, MarkSlowed []float64
		}
		tools.Play(b, "bedside-speed.mjs", job, &came)
		spread(b, "tap-shown", came.Shown, job.Taps)
		spread(b, "tap-stored", came.Stored, job.Taps)
		spread(b, "tap-chosen", came.Chosen, job.Taps)
		spread(b, "icon-people", came.People, job.Openings)
		spread(b, "icon-mark", came.Mark, job.Openings)
		spread(b, "icon-people-slowed", came.PeopleSlowed, job.Openings)
		spread(b, "icon-mark-slowed", came.MarkSlowed, job.Openings)
		b.ReportMetric(came.Bytes, "first-load-B")
	}
}

// spread reports the median and the worst of some times.
func spread(b *testing.B, name string, ms []float64, want int) {
	b.Helper()
	if len(ms) != want {
		b.Fatalf("%s was measured %d times, not %d", name, len(ms), want)
	}
	slices.Sort(ms)
	b.ReportMetric(ms[len(ms)/2], name+"-median-ms")
	b.ReportMetric(ms[len(ms)-1], name+"-worst-ms")
}

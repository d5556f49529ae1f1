package reports

import (
	"runtime"
	"testing"

	"wellshown/assessment/office"
	"wellshown/integration/crowd"
)

// counter counts what is written and keeps none of it.
type counter struct{ n int64 }

func (c *counter) Write(p []byte) (int, error) { c.n += int64(len(p)); return len(p), nil }

// BenchmarkPacket measures a packet of the person with the most records, whole, and of
// an agency of 500 caregivers the data of half a year and the paper of a month.
func BenchmarkPacket(b *testing.B) {
	c := crowd.New(b, crowd.Usual, 1)
	r := New(c.Office)
	b.Run("person", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := r.Packet(b.Context(), c.Coordinator, office.PacketForm{Kind: "person", Person: c.Caregivers[0].ID, On: crowd.Now.String()}, "pdf"); err != nil {
				b.Fatal(err)
			}
		}
	})
	period := office.PacketForm{Kind: "period", From: crowd.Now.AddDays(-180).String(), Through: crowd.Now.String()}
	b.Run("period data", func(b *testing.B) {
		for b.Loop() {
			var out counter
			if err := c.Office.WritePacket(b.Context(), c.Coordinator, period, office.PacketMoment{}, &packetJSON{out: &out}, nil); err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(float64(out.n)/1e6, "MB-written")
			b.ReportMetric(heap(), "MB-heap")
		}
	})
	period.From = crowd.Now.AddDays(-30).String() // half a year has more than 2,000 pages, and is refused
	b.Run("month paper", func(b *testing.B) {
		for b.Loop() {
			d := NewPacket()
			if err := c.Office.WritePacket(b.Context(), c.Coordinator, period, office.PacketMoment{}, d, nil); err != nil {
				b.Fatal(err)
			}
			pdf, _, pages, err := d.Finish()
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(float64(pages), "pages")
			b.ReportMetric(float64(len(pdf))/1e6, "MB-pdf")
			b.ReportMetric(heap(), "MB-heap")
		}
	})
}

// heap is what the program holds, in millions of bytes.
func heap() float64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapInuse) / 1e6
}

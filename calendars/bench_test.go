package calendars_test

import (
	"fmt"
	"testing"
	"time"

	"build.example/turflast/calendars"
)

// twoADay is a usual calendar: two openings on each weekday and one on
// Saturdays, over 78 weeks.
func twoADay() calendars.Hours {
	day := []calendars.Range{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 18 * 60}}
	var h calendars.Hours
	for d := time.Monday; d <= time.Friday; d++ {
		h.Weekly[d] = day
	}
	h.Weekly[time.Saturday] = []calendars.Range{{From: 8 * 60, To: 16 * 60}}
	return h
}

// benchLine is 78 weeks around the build of the demo garden.
func benchLine() Span {
	start, _ := calendars.At(time.UTC, calendars.DateOf(2026, time.October, 30), 0)
	return Span{Start: start, End: start.Plus(78 * calendars.Week)}
}

// moments are scattered over the middle of the line, as the events of a network
// are, in an order that no cache or branch predictor can learn.
func moments(line Span) []Instant {
	out := make([]Instant, 1<<12)
	x := uint32(1)
	for i := range out {
		x = x*1664525 + 1013904223 // a full-period generator, memory
		out[i] = line.Start + (line.End-line.Start)/4 + Instant(x>>8)%((line.End-line.Start)/2)
	}
	return out
}

// BenchmarkOperations times each operation on a usual calendar. The figure to
// read is ns/op: one operation, its loop and its call.
func BenchmarkOperations(b *testing.B) {
	line := benchLine()
	c := calendars.New(twoADay().Openings(time.UTC, line, nil))
	for _, op := range operations {
		b.Run(op.name, func(b *testing.B) { timeEach(b, moments(line), c, op.all) })
	}
}

// timeEach reports the time of one operation of a batch.
func timeEach(b *testing.B, at []Instant, c *calendars.Calendar, all func(*calendars.Calendar, []Instant) Instant) {
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n += len(at)
		all(c, at)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(n), "ns/op")
}

// operations run one operation at each of many moments.
var operations = []struct {
	name string
	all  func(c *calendars.Calendar, at []Instant) (sum Instant)
}{
	{"Next", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += c.Next(t)
		}
		return sum
	}},
	{"Last", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += c.Last(t)
		}
		return sum
	}},
	{"Between", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += Instant(c.Between(t, t+5000))
		}
		return sum
	}},
	{"Add", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += c.Add(t, 400)
		}
		return sum
	}},
	{"Subtract", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += c.Subtract(t, 400)
		}
		return sum
	}},
	{"Place", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			_, f := c.Place(t, 400)
			sum += f
		}
		return sum
	}},
	{"PlaceBack", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			s, _ := c.PlaceBack(t, 400)
			sum += s
		}
		return sum
	}},
	{"PlaceUntil", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			s, _ := c.PlaceUntil(t, 400)
			sum += s
		}
		return sum
	}},
	{"Fit", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += c.Fit(t, 240)
		}
		return sum
	}},
	{"FitBack", func(c *calendars.Calendar, at []Instant) (sum Instant) {
		for _, t := range at {
			sum += c.FitBack(t, 240)
		}
		return sum
	}},
}

func BenchmarkBuild(b *testing.B) {
	line := benchLine()
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		b.Fatal(err)
	}
	h := twoADay()
	spans := h.Openings(london, line, nil)
	whole := calendars.New(spans)
	short := calendars.New([]Span{{Start: line.Start + 1000, End: line.End - 1000}})
	b.Run("Openings", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			h.Openings(london, line, nil)
		}
	})
	b.Run("New", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			calendars.New(spans)
		}
	})
	b.Run("Intersect", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			calendars.Intersect(whole, short)
		}
	})
}

// BenchmarkHardCalendars times operations where buckets help least: most
// openings crowd into few of them, or all are too short to fit.
func BenchmarkHardCalendars(b *testing.B) {
	for _, n := range []int{1_000, 30_000} {
		crowd := make([]Span, n)
		for i := range crowd {
			crowd[i] = Span{Start: Instant(2 * i), End: Instant(2*i + 1)}
		}
		line := Span{Start: 0, End: Instant(2 * n)}
		c := calendars.New(append(crowd, Span{Start: 1 << 29, End: 1<<29 + 500}))
		for _, op := range operations {
			b.Run(fmt.Sprintf("crowd/%d/%s", n, op.name), func(b *testing.B) { timeEach(b, moments(line), c, op.all) })
		}
		rising := steps(n)
		line.End = rising[n-1].End
		c = calendars.New(rising)
		at := moments(line)
		b.Run(fmt.Sprintf("rising/%d/Fit", n), func(b *testing.B) {
			timeEach(b, at, c, func(c *calendars.Calendar, at []Instant) (sum Instant) {
				for _, t := range at {
					sum += c.Fit(t, Minutes(n))
				}
				return sum
			})
		})
		b.Run(fmt.Sprintf("rising/%d/FitBack", n), func(b *testing.B) {
			timeEach(b, at, c, func(c *calendars.Calendar, at []Instant) (sum Instant) {
				for _, t := range at {
					sum += c.FitBack(t, Minutes(n))
				}
				return sum
			})
		})
	}
}

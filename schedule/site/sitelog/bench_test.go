package sitelog_test

import (
	"fmt"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// many are the lines of n events, spread over a thousand tasks.
func many(n int) []byte {
	var out []byte
	for i := range n {
		e := event(sitelog.NewID(int64(i), uint32(i)), sitelog.Left, "07:00", fmt.Sprint("task-", i%1000))
		e.At, e.Written, e.Left = e.At.Plus(calendars.Minutes(i)), e.At.Plus(calendars.Minutes(i+1)), 90
		out = append(out, e.Line(london)...)
	}
	return out
}

// BenchmarkRead reads a log of 10,000 events (bar: with their replay 100 ms).
func BenchmarkRead(b *testing.B) {
	text := many(10_000)
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if events, aside := sitelog.Read(text); len(events) != 10_000 || len(aside) > 0 {
			b.Fatal(len(events), aside)
		}
	}
}

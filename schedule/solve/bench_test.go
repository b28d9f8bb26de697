package solve_test

import (
	"testing"

	"turflast/calendars"
	"turflast/schedule/internal/plans"
	"turflast/schedule/solve"
)

// BenchmarkLogic solves a plan of 1,000 tasks from the start, and again after
// one booking has moved.
func BenchmarkLogic(b *testing.B) {
	p := plans.Big(1000, 1)
	b.Run("afresh", func(b *testing.B) {
		for b.Loop() {
			s, err := solve.New(p)
			if err != nil {
				b.Fatal(err)
			}
			s.Logic()
		}
	})
	b.Run("rebooked", func(b *testing.B) {
		s, err := solve.New(p)
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			s.Rebook(p.Rebooked(0, p.Deliveries[0].Arrives.Plus(calendars.Hour))).Logic()
		}
	})
}

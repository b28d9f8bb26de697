package solve_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
	"build.example/turflast/testdata"
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

// BenchmarkCrews solves with finite hands: the built-in garden (bar: part of one
// second for the whole of `turflast plan`; its first programme within 50 ms) and
// 1,000 tasks with 20 crews (bar: 5 s and 500 MB, checked programme).
func BenchmarkCrews(b *testing.B) {
	for name, p := range map[string]*schedule.Plan{"garden": garden(b), "thousand": plans.Big(1000, 1)} {
		b.Run(name, func(b *testing.B) {
			s, err := solve.New(p)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			var first, ended time.Duration
			for b.Loop() {
				begun, told := time.Now(), false
				g := s.Crews(context.Background(), solve.Options{Progress: func(solve.Progress) {
					if !told {
						first, told = first+time.Since(begun), true
					}
				}}).Programme
				ended += time.Since(begun)
				if r := verify.Check(p, g, schedule.Crews); len(r.Rules) > 0 {
					b.Fatal(r.Rules)
				}
			}
			b.ReportMetric(float64(first.Milliseconds())/float64(b.N), "ms-to-first")
			b.ReportMetric(float64(ended.Milliseconds())/float64(b.N), "ms-search")
		})
	}
}

func garden(b *testing.B) *schedule.Plan {
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		b.Fatal(problems)
	}
	return p
}

package odds_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

// garden is the built-in garden with a crew programme.
func garden(t testing.TB) network.Case {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return s.Crews(context.Background(), solve.Options{Schedules: 200})
}

// The bar is 1,000 builds in 3 s on two cores.
func BenchmarkReplanned(b *testing.B) {
	c := garden(b)
	for b.Loop() {
		o := odds.Options{Builds: 1000, Seed: 1, Pace: odds.UsualPace, Replan: true}
		if _, err := odds.Run(context.Background(), c, o); err != nil {
			b.Fatal(err)
		}
	}
}

// The bar is 10,000 builds in a second on two cores, with the same memory for any
// number of builds.
func BenchmarkBuilds(b *testing.B) {
	c := garden(b)
	for _, builds := range []int{1_000, 10_000} {
		b.Run(map[int]string{1_000: "1000", 10_000: "10000"}[builds], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				o := odds.Options{Builds: builds, Seed: 1, Pace: odds.UsualPace}
				if _, err := odds.Run(context.Background(), c, o); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*builds), "µs/build")
		})
	}
}

// The bar is 0.3 s of work for 100,000 builds, whatever the cores: run it with
// -cpu 1.
func BenchmarkLogicBuilds(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 120))
	list := make([]odds.Activity, 120)
	for i := range list {
		likely := calendars.Minutes(60 + r.IntN(400))
		list[i] = odds.Activity{Likely: likely, Spread: &schedule.Spread{Best: likely * 3 / 4, Worst: likely * 2}}
		for range min(i, 2) {
			list[i].After = append(list[i].After, int32(max(0, i-1-r.IntN(12))))
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := odds.Logic(context.Background(), list, odds.Options{Builds: 100_000, Seed: 1}); err != nil {
			b.Fatal(err)
		}
	}
}

package mend_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

// breaking are changes that break a date of the built-in garden.
var breaking = []string{
	"spoil 20m later", "turf 1d later", "masons 2 fewer on 2027-05-04", "slate 1d later", "wet on 2027-05-04",
	"concrete 3h later",
}

// BenchmarkFirst times the search for mends until the first is known, and BenchmarkAll
// until all are.
func BenchmarkFirst(b *testing.B) {
	benchmark(b, func(r *mend.Result, stop func()) {
		if len(r.Mends) > 0 {
			stop()
		}
	})
}

func BenchmarkAll(b *testing.B) { benchmark(b, func(*mend.Result, func()) {}) }

// benchmark times the search for mends after each of the changes that break a date; soFar
// may stop it.
func benchmark(b *testing.B, soFar func(r *mend.Result, stop func())) {
	p := read(b, testdata.Demo)
	before := whole(b, p, nil)
	for _, text := range breaking {
		change, err := planfile.ParseChange(text)
		if err != nil {
			b.Fatal(err)
		}
		q, err := whatif.Apply(p, []schedule.Change{change})
		if err != nil {
			b.Fatal(err)
		}
		near := whatif.Reference(before, q)
		after := whole(b, q, near)
		b.Run(strings.ReplaceAll(text, " ", "_"), func(b *testing.B) {
			for b.Loop() {
				ctx, stop := context.WithCancel(b.Context())
				_, err := mend.Find(ctx, after, mend.Options{
					Reference: near, Held: mend.Elsewhen(p, q), Progress: func(r *mend.Result) { soFar(r, stop) },
				})
				if stop(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// whole is the crew programme of a plan, near a reference, as a command makes it.
func whole(b *testing.B, p *schedule.Plan, near *schedule.Programme) network.Case {
	b.Helper()
	s, err := solve.New(p)
	if err != nil {
		b.Fatal(err)
	}
	return s.Crews(b.Context(), solve.Options{Reference: near})
}

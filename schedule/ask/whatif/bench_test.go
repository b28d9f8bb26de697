package whatif_test

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
	"build.example/turflast/testdata"
)

// BenchmarkChange times one change of the built-in garden, from its text to a
// verified crew programme that stays near the one before.
func BenchmarkChange(b *testing.B) {
	p, problems := planfile.Read(strings.NewReader(testdata.Demo))
	if p == nil {
		b.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		b.Fatal(err)
	}
	before := s.Crews(context.Background(), solve.Options{})
	for _, text := range []string{"joiners 1 fewer on 2027-05-04", "slate 3h later", "deck 1h longer"} {
		b.Run(strings.ReplaceAll(text, " ", "_"), func(b *testing.B) {
			for b.Loop() {
				q, err := whatif.Apply(p, changes(b, text))
				if err != nil {
					b.Fatal(err)
				}
				s, err := solve.New(q)
				if err != nil {
					b.Fatal(err)
				}
				g := s.Crews(context.Background(), solve.Options{Reference: whatif.Reference(before, q)}).Programme
				if found := verify.Check(q, g, g.Scope); len(found.Rules) > 0 {
					b.Fatal(found.Rules)
				}
			}
		})
	}
}

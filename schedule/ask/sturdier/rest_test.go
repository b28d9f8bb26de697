package sturdier_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
)

// noPlace are tasks without a place for orderPlan, one that no day is long enough for
// and one that needs it.
const noPlace = `  frame: {name: Frame, zone: rear, stage: structure, crew: {planting: 1}, takes: 11h, unbroken: true, spread: {best: 10h30m, worst: 20h}}
  climb: {name: Climbers, zone: rear, stage: planting, crew: {planting: 1}, takes: 1h, after: [frame]}
`

// What has no place changes nothing for the rest: the same order is sturdier, with the
// same chances.
func TestOrderOfTheRest(t *testing.T) {
	plain := strings.Replace(orderPlan, "%s", "", 1)
	of := solved(t, plain+noPlace)
	if n := len(of.Programme.Blocked); n != 2 {
		t.Fatalf("%d activities have no place", n)
	}
	r, want := find(t, of, options(1000)), find(t, solved(t, plain), options(1000))
	checkChoices(t, "the rest", of, r)
	if len(r.Choices) != 2 || len(want.Choices) != 2 {
		t.Fatalf("%d choices, without what has no place %d", len(r.Choices), len(want.Choices))
	}
	for k := range r.Choices {
		got, plain := &r.Choices[k], &want.Choices[k]
		if got.Kind != plain.Kind || got.OnTime != plain.OnTime || !slices.Equal(got.Handed, plain.Handed) {
			t.Errorf("choice %d: %v, on time %d times; without what has no place %v, %d times",
				k, got.Kind, got.OnTime, plain.Kind, plain.OnTime)
		}
		if !sameBlocked(of, got.Case) {
			t.Errorf("choice %d: %v has no place", k, got.Programme.Blocked)
		}
	}
}

// Where nothing that is required has a place, no programme is sturdier.
func TestNothingHasAPlace(t *testing.T) {
	head, _, _ := strings.Cut(orderPlan, "deliveries:")
	blocked := solved(t, head+"tasks:\n"+noPlace)
	if _, err := sturdier.Find(ctx, blocked, options(100), nil); !errors.Is(err, odds.ErrBlocked) {
		t.Errorf("%v", err)
	}
}

// Every choice for a random plan in which something has no place is about the same rest.
func TestRandomRests(t *testing.T) {
	looked := 0
	for seed := range uint64(24) {
		p := uncertain(seed)
		never := plans.Task("never", 4000)
		never.Unbroken, never.Zones = true, p.Tasks[0].Zones
		p.Tasks = append(p.Tasks, never)
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		of := s.Crews(ctx, solve.Options{Unjudged: true})
		r, err := sturdier.Find(ctx, of, options(200), nil)
		if errors.Is(err, odds.ErrBlocked) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		checkChoices(t, plans.YAML(p), of, r)
		for k := range r.Choices {
			if !sameBlocked(of, r.Choices[k].Case) {
				t.Errorf("plan %d, choice %d: %v has no place", seed, k, r.Choices[k].Programme.Blocked)
			}
		}
		if of.Programme.Blocked != nil && len(r.Choices) > 1 {
			looked++
		}
	}
	if looked < 2 {
		t.Errorf("only %d plans with choices", looked)
	}
}

func sameBlocked(a, b network.Case) bool {
	return slices.EqualFunc(a.Programme.Blocked, b.Programme.Blocked,
		func(x, y schedule.Blocked) bool { return x.Activity == y.Activity })
}

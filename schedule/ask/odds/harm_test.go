package odds_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/ask/odds"
)

// TestHarmsInOrder: what saves most builds is first, then what costs most; days stand under all
// of them together, but where one costs as much as all.
func TestHarmsInOrder(t *testing.T) {
	harm := func(kind odds.HarmKind, builds, cost, saved int) odds.Harm {
		return odds.Harm{Kind: kind, Builds: builds, Cost: calendars.Minutes(cost), Saved: saved}
	}
	part := func(kind odds.HarmKind, builds, cost, saved int) odds.Harm {
		h := harm(kind, builds, cost, saved)
		h.Part = true
		return h
	}
	for _, x := range []struct {
		name        string
		found, want []odds.Harm
	}{
		{"nothing", nil, nil},
		{
			"saved before cost",
			[]odds.Harm{harm(odds.LongWork, 9, 900, 0), harm(odds.SlowCrew, 5, 50, 2), harm(odds.LateLorry, 5, 60, 2)},
			[]odds.Harm{harm(odds.LateLorry, 5, 60, 2), harm(odds.SlowCrew, 5, 50, 2), harm(odds.LongWork, 9, 900, 0)},
		},
		{
			"days under all, each in its kind",
			[]odds.Harm{
				harm(odds.AllRain, 9, 900, 5), harm(odds.Rain, 4, 300, 1), harm(odds.Rain, 6, 500, 3),
				harm(odds.AllWind, 8, 700, 4), harm(odds.Wind, 8, 600, 4), harm(odds.LongWork, 9, 950, 4),
			},
			[]odds.Harm{
				harm(odds.AllRain, 9, 900, 5), part(odds.Rain, 6, 500, 3), part(odds.Rain, 4, 300, 1),
				harm(odds.LongWork, 9, 950, 4), harm(odds.AllWind, 8, 700, 4), part(odds.Wind, 8, 600, 4),
			},
		},
		{
			"one day as much as all",
			[]odds.Harm{
				harm(odds.AllRain, 9, 900, 5), harm(odds.Rain, 2, 90, 1), harm(odds.Rain, 9, 900, 5),
				harm(odds.LateLorry, 5, 60, 2),
			},
			[]odds.Harm{harm(odds.Rain, 9, 900, 5), harm(odds.LateLorry, 5, 60, 2), harm(odds.Rain, 2, 90, 1)},
		},
		{
			"a day that saves more than all stays before it",
			[]odds.Harm{harm(odds.AllRain, 9, 900, 5), harm(odds.Rain, 9, 900, 6), harm(odds.Rain, 9, 890, 5)},
			[]odds.Harm{harm(odds.Rain, 9, 900, 6), harm(odds.AllRain, 9, 900, 5), part(odds.Rain, 9, 890, 5)},
		},
	} {
		if diff := cmp.Diff(x.want, odds.Listed(x.found)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", x.name, diff)
		}
	}
}

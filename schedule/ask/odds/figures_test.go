package odds_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
)

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s is %.6g, want %.6g to %.2g", what, got, want, by)
	}
}

// Rank correlations by a general reference library (scipy 1.10.1,
// stats.spearmanr); the second list is a much printed textbook example.
func TestSpearman(t *testing.T) {
	for _, c := range []struct {
		x, y []float64
		want float64
	}{
		{[]float64{3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8}, []float64{2, 7, 1, 8, 2, 8, 1, 8, 2, 8, 4, 5}, 0.1415796863640157},
		{[]float64{106, 100, 86, 101, 99, 103, 97, 113, 112, 110},
			[]float64{7, 27, 2, 50, 28, 29, 20, 12, 6, 17}, -0.17575757575757575},
		{[]float64{1, 1, 1, 2, 2, 3, 0, 0, 5, 0}, []float64{10, 20, 20, 30, 10, 40, 0, 0, 0, 5}, 0.4412898548690202},
		{[]float64{1, 2, 3}, []float64{10, 20, 90}, 1},
		{[]float64{1, 2, 3}, []float64{3, 2, 1}, -1},
		{[]float64{1, 1, 1}, []float64{3, 2, 1}, 0},
		{nil, nil, 0},
	} {
		near(t, "the rank correlation", odds.Spearman(c.x, c.y), c.want, 1e-12)
	}
}

// Intervals by a general reference library (scipy 1.10.1, binomtest with method
// wilson); 81 of 263, 15 of 148 and 1 of 29 are the examples of a paper that
// compares seven methods (1998), which prints 0.2553 to 0.3662, 0.0624 to 0.1605
// and 0.0061 to 0.1718.
func TestWilson(t *testing.T) {
	for _, c := range []struct {
		hits, tries int
		low, high   float64
	}{
		{0, 10, 0, 0.27753279986288926},
		{10, 10, 0.7224672001371109, 1},
		{7, 10, 0.39677814746114526, 0.892208732593699},
		{81, 263, 0.2552885198782742, 0.36620957698280004},
		{15, 148, 0.06238639953073629, 0.16048724172330803},
		{1, 29, 0.006113214292762667, 0.17175521879320282},
		{9000, 10000, 0.8939656314740893, 0.9057271698293695},
	} {
		low, high := odds.Wilson(c.hits, c.tries)
		near(t, "the low end", low, c.low, 1e-12)
		near(t, "the high end", high, c.high, 1e-12)
	}
}

// A chain with the chance a of a wet day after a dry one and b after a wet one is
// wet on a/(1+a-b) of days in the long run, from the first day on when it begins
// there; its wet spells last 1/(1-b) days in the mean, its dry ones 1/a (geometric
// spells: Gabriel and Neumann, 1962).
func TestWetDays(t *testing.T) {
	for _, w := range []schedule.WetDays{{AfterDry: 0.25, AfterWet: 0.5},
		{AfterDry: 0.3, AfterWet: 0.55}, {AfterDry: 0.1, AfterWet: 0.8}} {
		share := w.AfterDry / (1 + w.AfterDry - w.AfterWet)
		near(t, "the long-run share", odds.LongRun(&w), share, 1e-15)
		const builds, days = 4000, 100
		wetOn := make([]float64, days)
		var wet, wetSpells, drySpells float64
		for k := range uint64(builds) {
			is := odds.Days(w, k, days)
			for d, now := range is {
				if now {
					wet++
					wetOn[d]++
				}
				if d > 0 && now != is[d-1] {
					if now {
						wetSpells++
					} else {
						drySpells++
					}
				}
			}
		}
		all := float64(builds * days)
		near(t, "the share of wet days", wet/all, share, 0.01)
		for _, d := range []int{0, 1, days - 1} {
			near(t, "the share on one day", wetOn[d]/builds, share, 0.03)
		}
		// Spells by those that begin after the first day.
		near(t, "the mean wet spell", share*all*(days-1)/days/wetSpells, 1/(1-w.AfterWet), 0.1/(1-w.AfterWet))
		near(t, "the mean dry spell", (1-share)*all*(days-1)/days/drySpells, 1/w.AfterDry, 0.1/w.AfterDry)
	}
	if odds.LongRun(&schedule.WetDays{AfterWet: 1}) != 0 {
		t.Error("days that are never wet after a dry one have a long run")
	}
}

// TestPaired checks the interval against a published one: of 1600 people asked
// twice, 150 approved only the first time and 86 only the second, which is
// 0.021 to 0.059 more (textbook on categorical data, 2002, from memory; its
// interval is Wald's, which differs in the fourth place). Then it checks the
// coverage: of many samples, nearly 95 in 100 intervals hold the true
// difference.
func TestPaired(t *testing.T) {
	low, high := odds.Paired(150, 86, 1600)
	near(t, "low", low, 0.021, 0.0005)
	near(t, "high", high, 0.059, 0.0005)
	r := rand.New(rand.NewPCG(1, 2))
	held := 0
	const samples, pairs, won, lost = 4000, 100, 0.15, 0.05
	for range samples {
		w, l := 0, 0
		for range pairs {
			switch x := r.Float64(); {
			case x < won:
				w++
			case x < won+lost:
				l++
			}
		}
		if low, high := odds.Paired(w, l, pairs); low <= won-lost && won-lost <= high {
			held++
		}
	}
	near(t, "coverage", float64(held)/samples, 0.95, 0.015)
}

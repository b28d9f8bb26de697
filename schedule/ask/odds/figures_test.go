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

// Mean, variance, skewness and quantiles at 1, 10, 50, 90 and 99 % by a general
// reference library (scipy 1.10.1, stats.beta with 1+4m and 5-4m, stats.triang).
func TestSpreads(t *testing.T) {
	for _, c := range []struct {
		shape                odds.Shape
		best, likely, worst  float64
		mean, variance, skew float64
		quantiles            [5]float64
	}{
		{odds.PERT, 60, 120, 300, 140, 1828.5714, 0.4677, [5]float64{67.844, 86.936, 135.314, 200.134, 246.703}},
		{odds.PERT, 420, 540, 840, 570, 5785.7143, 0.3944, [5]float64{437.029, 474.261, 562.955, 676.362, 754.963}},
		{odds.PERT, 100, 100, 200, 116.6667, 198.4127, 1.1832, [5]float64{100.201, 102.085, 112.945, 136.904, 160.189}},
		{odds.PERT, 0, 60, 1440, 280, 46400, 1.0213, [5]float64{6.101, 46.124, 230.113, 589.594, 917.734}},
		{odds.PERT, 10, 50, 50, 43.3333, 31.746, -1.1832, [5]float64{25.924, 35.238, 44.822, 49.166, 49.92}},
		{odds.Triangular, 60, 120, 300, 160, 2600, 0.4224, [5]float64{72, 97.947, 153.031, 234.273, 279.215}},
		{odds.Triangular, 420, 540, 840, 600, 7800, 0.3763, [5]float64{442.45, 490.993, 589.002, 727.75, 804.504}},
		{odds.Triangular, 100, 100, 200, 133.3333, 555.5556, 0.5657, [5]float64{100.501, 105.132, 129.289, 168.377, 190}},
		{odds.Triangular, 10, 50, 50, 36.6667, 88.8889, -0.5657, [5]float64{14, 22.649, 38.284, 47.947, 49.799}},
	} {
		wide := c.worst - c.best
		at := odds.Quantiles(c.shape, c.best, c.likely, c.worst)
		for k, q := range []float64{0.01, 0.1, 0.5, 0.9, 0.99} {
			near(t, "a quantile", at(uint32(q*(1<<32))), c.quantiles[k], wide*0.002)
		}
		// The whole curve, evenly.
		const n = 1 << 16
		var m1, m2, m3 float64
		for k := range n {
			x := at(uint32(k)<<16 + 1<<15)
			m1 += x / n
		}
		for k := range n {
			x := at(uint32(k)<<16+1<<15) - m1
			m2 += x * x / n
			m3 += x * x * x / n
		}
		near(t, "the mean", m1, c.mean, wide*0.0003)
		near(t, "the variance", m2, c.variance, c.variance*0.005)
		near(t, "the skewness", m3/math.Pow(m2, 1.5), c.skew, 0.02)
		// And as builds draw it.
		drawn := odds.Drawn(c.shape, c.best, c.likely, c.worst, 100_000)
		mean := 0.0
		for _, x := range drawn {
			mean += x / float64(len(drawn))
			if x < c.best || x > c.worst {
				t.Fatalf("%v is not between best and worst", x)
			}
		}
		near(t, "the mean drawn", mean, c.mean, 5*math.Sqrt(c.variance/float64(len(drawn))))
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

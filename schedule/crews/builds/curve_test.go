package builds_test

import (
	"math"
	"testing"

	"build.example/turflast/schedule/crews/builds"
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
		shape                builds.Shape
		best, likely, worst  float64
		mean, variance, skew float64
		quantiles            [5]float64
	}{
		{builds.PERT, 60, 120, 300, 140, 1828.5714, 0.4677, [5]float64{67.844, 86.936, 135.314, 200.134, 246.703}},
		{builds.PERT, 420, 540, 840, 570, 5785.7143, 0.3944, [5]float64{437.029, 474.261, 562.955, 676.362, 754.963}},
		{builds.PERT, 100, 100, 200, 116.6667, 198.4127, 1.1832, [5]float64{100.201, 102.085, 112.945, 136.904, 160.189}},
		{builds.PERT, 0, 60, 1440, 280, 46400, 1.0213, [5]float64{6.101, 46.124, 230.113, 589.594, 917.734}},
		{builds.PERT, 10, 50, 50, 43.3333, 31.746, -1.1832, [5]float64{25.924, 35.238, 44.822, 49.166, 49.92}},
		{builds.Triangular, 60, 120, 300, 160, 2600, 0.4224, [5]float64{72, 97.947, 153.031, 234.273, 279.215}},
		{builds.Triangular, 420, 540, 840, 600, 7800, 0.3763, [5]float64{442.45, 490.993, 589.002, 727.75, 804.504}},
		{builds.Triangular, 100, 100, 200, 133.3333, 555.5556, 0.5657, [5]float64{100.501, 105.132, 129.289, 168.377, 190}},
		{builds.Triangular, 10, 50, 50, 36.6667, 88.8889, -0.5657, [5]float64{14, 22.649, 38.284, 47.947, 49.799}},
	} {
		wide := c.worst - c.best
		curve := builds.NewCurves(c.shape).Of(c.best, c.likely, c.worst)
		at := func(u uint32) float64 { return float64(curve.At(u)) }
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
		const draws = 100_000
		var s builds.Stream
		mean := 0.0
		for k := range uint64(draws) {
			s.Begin(7, k)
			x := at(s.Draw())
			mean += x / draws
			if x < c.best || x > c.worst {
				t.Fatalf("%v is not between best and worst", x)
			}
		}
		near(t, "the mean drawn", mean, c.mean, 5*math.Sqrt(c.variance/draws))
	}
}

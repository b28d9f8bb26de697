package builds

import (
	"math"

	"build.example/turflast/schedule"
)

// Shape is the shape of the spread of a working time or lateness.
type Shape uint8

// The shapes.
const (
	// PERT is a beta distribution with the parameters 1+4m and 5-4m, where m is the
	// place of the likeliest between best (0) and worst (1). Its mean is (best + 4
	// likeliest + worst)/6 (Malcolm and others, 1959; Vose, 2000, for the weights of the
	// beta).
	PERT Shape = iota
	// Triangular rises straight from the best to the likeliest and falls straight to
	// the worst.
	Triangular
)

// A table of quantiles has 256 cells of equal chance, a power of two, and is straight
// within each.
const cellBits, cells = 8, 1 << 8

// table holds quantiles at equal steps of chance.
type table [cells + 1]float32

// Curve holds the quantiles of a distribution. Its first and last cell, where it is far
// from straight, have tables of their own.
type Curve struct{ body, low, high table }

// At returns the quantile of u, where 0 stands for a chance of 0 and 1<<32 for 1.
func (c *Curve) At(u uint32) float32 {
	t := &c.body
	switch u >> (32 - cellBits) {
	case 0:
		t, u = &c.low, u<<cellBits
	case cells - 1:
		t, u = &c.high, u<<cellBits
	}
	cell := u >> (32 - cellBits)
	part := float32(u<<cellBits>>cellBits) / (1 << (32 - cellBits))
	from, to := t[cell], t[cell+1]
	// The conversion rounds the product: without it, some processors would fuse it with
	// the sum.
	return from + float32(part*(to-from))
}

// newCurve returns the distribution of a shape.
func newCurve(shape Shape, best, likely, worst float64) *Curve {
	c := new(Curve)
	wide := max(worst-best, 0)
	if wide == 0 {
		likely, worst = best, best+1 // any shape will do
	}
	mode := min(max((likely-best)/(worst-best), 0), 1)
	unit := triangular
	if shape == PERT {
		unit = newPERT(mode).quantile
	}
	fill := func(t *table, from, part float64) {
		for k := range t {
			t[k] = float32(best + wide*unit(mode, from+part*float64(k)/cells))
		}
	}
	fill(&c.body, 0, 1)
	fill(&c.low, 0, 1./cells)
	fill(&c.high, 1-1./cells, 1./cells)
	return c
}

// triangular returns the quantile of u of the triangular distribution from 0 to 1.
func triangular(mode, u float64) float64 {
	if u < mode {
		return math.Sqrt(u * mode)
	}
	return 1 - math.Sqrt((1-u)*(1-mode))
}

// pert holds, by k, the chance of a beta distribution to be at most k/steps.
type pert []float64

const steps = 4096

func newPERT(mode float64) pert {
	p := make(pert, steps+1)
	a, b := 4*mode, 4*(1-mode)
	for k := range steps {
		x := (float64(k) + 0.5) / steps
		p[k+1] = p[k] + math.Pow(x, a)*math.Pow(1-x, b)
	}
	all := p[steps]
	for k := range p {
		p[k] /= all
	}
	return p
}

func (p pert) quantile(_, u float64) float64 {
	lo, hi := 0, steps
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; p[mid] <= u {
			lo = mid
		} else {
			hi = mid
		}
	}
	part := 0.0
	if p[hi] > p[lo] {
		part = min((u-p[lo])/(p[hi]-p[lo]), 1)
	}
	return (float64(lo) + part) / steps
}

// Curves makes each curve of a shape once.
type Curves struct {
	shape Shape
	known map[[3]float64]*Curve
}

// NewCurves has made none yet.
func NewCurves(shape Shape) *Curves { return &Curves{shape, make(map[[3]float64]*Curve)} }

// Of returns the curve of a least, a likeliest and a greatest value.
func (c *Curves) Of(best, likely, worst float64) *Curve {
	key := [3]float64{best, likely, worst}
	if c.known[key] == nil {
		c.known[key] = newCurve(c.shape, best, likely, worst)
	}
	return c.known[key]
}

// Work returns the curve of a task's working time in minutes; nil when it is certain.
// Likely is the working time with the heads it has, usual with those that the spread is
// meant for.
func (c *Curves) Work(s *schedule.Spread, likely, usual float64) *Curve {
	if s == nil || s.Worst <= s.Best || likely <= 0 || usual <= 0 {
		return nil
	}
	return c.Of(float64(s.Best)*likely/usual, likely, float64(s.Worst)*likely/usual)
}

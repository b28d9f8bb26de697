package starters

import (
	"fmt"
	"math"
)

// PastRate is what work at one rate took in a garden that was built.
type PastRate struct {
	Garden      string
	Stage, Unit string
	Was, Is     float64 // of the unit in a person-hour: as planned there, and as it was
	Amount      float64 // that was done
	Hours       float64 // person-hours that it took
}

// farOff is by how much a rate may have been planned otherwise, as a factor, to be one of
// the same kind of work.
const farOff = 2

// past is the rate of a past garden for a task: of its stage and unit the one that was
// planned most nearly as the task is; nil for none that is of the same kind of work.
func (g *Garden) past(t work) *PastRate {
	var best *PastRate
	nearest := math.Log(farOff)
	for i := range g.Past {
		p := &g.Past[i]
		if p.Stage != t.stage || p.Unit != t.unit || !(p.Was > 0) || !(p.Is > 0) {
			continue
		}
		if off := math.Abs(math.Log(p.Was / t.rate)); off <= nearest && (best == nil || off < nearest) {
			best, nearest = p, off
		}
	}
	return best
}

// rate is the amount of a task in a person-hour: as it was in a past garden, where that is
// known.
func (g *Garden) rate(t work) float64 {
	if p := g.past(t); p != nil {
		return math.Max(hundredths(p.Is), 0.01)
	}
	return t.rate
}

// whyOf is where the figures of a task come from.
func (g *Garden) whyOf(t work) string {
	p := g.past(t)
	if t.amount == 0 || p == nil {
		return t.why
	}
	return fmt.Sprintf("rate: of %s, where %s %s took %s person-hours, planned at %s a person-hour", p.Garden,
		figure(p.Amount), p.Unit, figure(p.Hours), figure(p.Was))
}

// Carried is how many tasks have a rate of a past garden, of those with a rate.
func (g *Garden) Carried() (n, of int) {
	for _, w := range g.works() {
		if w.amount == 0 {
			continue
		}
		of++
		if g.past(w) != nil {
			n++
		}
	}
	return n, of
}

func hundredths(f float64) float64 { return math.Round(f*100) / 100 }

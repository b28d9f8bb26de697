package beyond

import (
	"math/big"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// worked are the stretches in which an activity is worked on, none for a lorry without
// a place.
func worked(c network.Case, a schedule.Activity) []calendars.Span {
	if t, ok := c.Plan.Task(a); ok {
		return c.Programme.Tasks[t].Work
	}
	d := c.Programme.Of(a)
	if !d.Finish.IsReal() {
		return nil
	}
	return []calendars.Span{{Start: d.Start, End: d.Finish}}
}

// after are the parts of spans from a moment on.
func after(spans []calendars.Span, from calendars.Instant) (out []calendars.Span) {
	for _, s := range spans {
		if s.Start = max(s.Start, from); s.Start < s.End {
			out = append(out, s)
		}
	}
	return out
}

func minutes(spans []calendars.Span) (sum calendars.Minutes) {
	for _, s := range spans {
		sum += s.Minutes()
	}
	return sum
}

// withoutPlace is the working time still to do of an activity that has no place, with the fewest
// heads that may do it.
func withoutPlace(p *schedule.Plan, a schedule.Activity) calendars.Minutes {
	if d, ok := p.Delivery(a); ok {
		return p.Deliveries[d].Unload.Takes
	}
	heads := 0
	for _, need := range p.CrewOf(a) {
		heads += need.Least
	}
	t, _ := p.Task(a)
	return p.Rest(t).Time(heads)
}

// amount is what of a task's amount is to do when so much of its working time is left,
// of all. A task in hand before the line has only its rest to do, so that what is left
// is a share of that rest, which is a share of the whole.
func amount(c network.Case, t schedule.TaskID, left, all calendars.Minutes) *Amount {
	full, rest := c.Plan.Tasks[t].Effort, c.Plan.Rest(t)
	number, units, ok := strings.Cut(full.Amount, " ")
	whole, exact := new(big.Rat).SetString(number)
	if !ok || !exact || left == 0 {
		return nil
	}
	share := big.NewRat(int64(left), int64(all))
	if now := c.Plan.Now(); c.Plan.InHand(t) && now < c.Plan.Site.Handover {
		ahead := left
		if c.Programme.Tasks[t].Finish.IsReal() {
			ahead = minutes(after(c.Programme.Tasks[t].Work, now))
		}
		if !rest.Shared() {
			return nil
		}
		share.SetFrac64(int64(left), int64(ahead))
		share.Mul(share, big.NewRat(rest.Num, rest.Den)).Quo(share, big.NewRat(full.Num, full.Den))
	}
	if share.Cmp(big.NewRat(1, 1)) > 0 {
		return nil
	}
	_, decimals, _ := strings.Cut(number, ".")
	return &Amount{Left: roundedUp(share.Mul(share, whole), len(decimals)), All: number, Units: units}
}

// roundedUp writes a number with so many decimals, rounded up.
func roundedUp(x *big.Rat, decimals int) string {
	place := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil)
	x = new(big.Rat).Mul(x, new(big.Rat).SetInt(place))
	up, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		up.Add(up, big.NewInt(1))
	}
	return new(big.Rat).SetFrac(up, place).FloatString(decimals)
}

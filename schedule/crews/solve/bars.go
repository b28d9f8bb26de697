package solve

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/network/critical"
)

// bar keeps a node from starting, or from finishing, before a moment.
type bar struct {
	until    calendars.Instant
	finishes bool
	tight    bool              // it alone would put the start where it is
	of       schedule.Activity // the other activity, or Nothing
	arc      int32             // arc into the node, or None
	behind   int32             // arc into the joint that arc comes from, or None
	reason   schedule.Reason   // of a bar that is no arc
}

// bars lists what keeps a node from starting sooner, shared resources left out. For
// a joint that alone would put the start where it is, it lists each arc into it.
func (a *assembly) bars(number int32) []bar {
	k, all := a.Number[number], a.barred[:0]
	for _, arc := range a.Into(number) {
		from, x := a.Arcs[arc].From, &a.Arcs[arc]
		if x.Idle {
			continue
		}
		b := bar{until: a.until(arc, a.Nodes[k].Place), finishes: x.Kind.ToFinish(), arc: arc, behind: network.None}
		if joint := a.Began(from) == schedule.None && a.Nodes[a.Number[from]].Joint; !joint {
			b.of = a.whose(from)
			all = append(all, b)
			continue
		}
		b.of = schedule.Nothing
		if a.alone(k, b.until, b.finishes) < a.t.Start[k] {
			all = append(all, b)
			continue
		}
		for _, behind := range a.Into(from) {
			b.until, b.of, b.behind = a.until(behind, 0), a.whose(a.Arcs[behind].From), behind
			all = append(all, b)
		}
	}
	plain := bar{arc: network.None, behind: network.None}
	for i := range a.Withins {
		if w := &a.Withins[i]; w.From == k {
			b := plain
			b.reason = a.withinReason(w)
			b.until, b.finishes, b.of = b.reason.Until, b.reason.Finishes, b.reason.Other
			all = append(all, b)
		}
	}
	for _, r := range a.ownReasons(a.scratch[:0], number) {
		b := plain
		b.reason, b.until, b.of = r, r.Until, schedule.Nothing
		all = append(all, b)
	}
	for i := range all {
		all[i].tight = a.alone(k, all[i].until, all[i].finishes) == a.t.Start[k]
	}
	a.barred = all
	return all
}

// whose is the activity that a number stands for, or the task whose actual start it
// is.
func (a *assembly) whose(number int32) schedule.Activity {
	if began := a.Began(number); began != schedule.None {
		return began.Activity()
	}
	return a.Activity(number)
}

// reasonOf is a bar in a node's way as a reason.
func (a *assembly) reasonOf(number int32, b *bar) schedule.Reason {
	if b.arc == network.None {
		return b.reason
	}
	origin := a.Origins[b.arc]
	r := nothing(byOrigin[origin.Kind])
	r.Rule, r.Zone, r.Other = origin.Rule, origin.Zone, b.of
	arc := b.arc
	if b.behind != network.None {
		arc = b.behind
	}
	a.fill(&r, arc, a.Nodes[a.Number[number]].Place)
	return r
}

// cleared says what is taken away: bars by their place in the list, and what some
// nodes hold.
type cleared struct {
	bars  []int
	nodes []int32
}

// first is the earliest start of a node among the others as they are, with some
// bars and holders taken away; at most its start in the programme. end, need and
// holder say what shared resource keeps it from starting sooner, as in lastShort.
func (a *assembly) first(k int32, bars []bar, c *cleared) (start, end calendars.Instant, need crews.Need, holder int) {
	node := &a.Nodes[k]
	from, until := calendars.Past, calendars.Past
	for i := range bars {
		switch b := &bars[i]; {
		case slices.Contains(c.bars, i):
		case b.finishes:
			until = max(until, b.until)
		default:
			from = max(from, b.until)
		}
	}
	start, finish := critical.Place(a.Network, node, max(from, a.Line.Start), until)
	end, holder = calendars.Past, network.None
	for a.hands != nil && start < a.t.Start[k] && !a.halt.Steps(1+len(a.Nodes)/16) {
		e, n, who := a.lastShort(int(k), start, finish, c.nodes)
		if e <= start {
			break
		}
		end, need, holder = e, n, who
		start, finish = critical.Place(a.Network, node, end, until)
	}
	return start, end, need, holder
}

package search

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network"
)

// Cost is how schedules are compared, the heaviest figure first; less is better.
type Cost struct {
	Late int64 // greatest lateness at the hand-over, minutes on the clock
	By   int64 // sum of lateness at the nodes' own dates
	Kept int64 // sum of lateness at keeps, openings of the gate and longest waits
	Told int64 // how many nodes of Problem.Told are moved: another start or mode
	Left int64 // sum of lateness of what is better left out
	End  int64 // last finish, minutes since 1970
	Tie  crews.Ties
}

// worst is the cost of no schedule.
var worst = Cost{Late: 1 << 62}

// late says whether any date breaks.
func (c *Cost) late() bool { return c.Late > 0 || c.By > 0 || c.Kept > 0 || c.Left > 0 }

// Dates compares two costs without their ties.
func (c Cost) Dates(d Cost) int {
	return cmp.Or(cmp.Compare(c.Late, d.Late), cmp.Compare(c.By, d.By),
		cmp.Compare(c.Kept, d.Kept), cmp.Compare(c.Told, d.Told),
		cmp.Compare(c.Left, d.Left), cmp.Compare(c.End, d.End))
}

// Compare compares two costs, ties included.
func (c Cost) Compare(d Cost) int {
	if by := c.Dates(d); by != 0 {
		return by
	}
	return slices.Compare(c.Tie[:], d.Tie[:])
}

// Of is the cost of a schedule that is late by so much and ends then, without ties
// and with nothing moved that was told.
func Of(late crews.Lateness, end calendars.Instant) Cost {
	return Cost{
		Late: late[crews.Handover], By: late[crews.ByDates], Kept: late[crews.KeepsAndGate],
		Left: late[crews.Left], End: int64(end),
	}
}

// Weigh is the cost of a schedule of a problem, ties included.
func Weigh(p *crews.Problem, r *Result) Cost {
	b := &builder{p: p, mode: r.Mode, times: &network.Times{Start: r.Start, Finish: r.Finish, Done: r.Done}}
	c := b.cost()
	if p.Tie != nil {
		c.Tie = p.Tie(b.times, b.mode)
	}
	return c
}

// cost is the cost of the schedule in b.times, without ties.
func (b *builder) cost() Cost {
	t, end := b.times, calendars.Past
	for i, done := range t.Done {
		if done == calendars.Never {
			return worst
		}
		if b.p.Counts == nil || b.p.Counts[i] {
			end = max(end, done)
		}
	}
	var late crews.Lateness
	for k := range b.p.Dates {
		d := &b.p.Dates[k]
		late.Add(d.Weight, int64(d.Of(t)-b.p.Latest(d, t)))
	}
	c := Of(late, max(end, b.p.Content))
	for _, k := range b.p.Told {
		if t.Start[k.Node] != k.Start || b.mode[k.Node] != k.Mode {
			c.Told++
		}
	}
	return c
}

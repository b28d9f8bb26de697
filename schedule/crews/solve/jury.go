package solve

import (
	"cmp"
	"encoding/binary"
	"runtime"
	"slices"
	"sync/atomic"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/internal/together"
	"build.example/turflast/schedule/network"
)

// take makes trials of orders and judges them, of those that are new and give a programme
// equal to the base in the first four aims.
func (j *jury) take(orders []search.From) {
	var list []*trial
	for _, o := range orders {
		if len(j.all)+len(list) > j.candidates() {
			break
		}
		r := j.follow.Follow(o)
		if f := j.equal(&r); f != nil {
			if x := j.trial(f, &network.Times{Start: r.Start, Finish: r.Finish, Done: r.Done}); x != nil {
				list = append(list, x)
			}
		}
	}
	j.judge(list, screenSeed, firstBuilds)
	j.all = append(j.all, list...)
}

// trial is a trial of a programme with the dates t by the nodes of the frame; nil when it
// isn't new.
func (j *jury) trial(f *found, t *network.Times) *trial {
	key := keyOf(t.Start)
	if j.seen[key] {
		return nil
	}
	j.seen[key] = true
	m, err := j.frame.Of(t)
	if err != nil {
		return nil
	}
	return &trial{f: f, from: search.From{Start: t.Start}, model: m}
}

func keyOf(starts []calendars.Instant) string {
	var b []byte
	for _, at := range starts {
		b = binary.AppendVarint(b, int64(at))
	}
	return string(b)
}

// equal is a schedule of the jury's problem in terms of the base, if it is a programme with
// the same bookings that is equal in the first four aims; else nil.
func (j *jury) equal(r *search.Result) *found {
	if !r.Found {
		return nil
	}
	t := moved(j.base.problem.Model, j.frame.Model, r)
	f := *j.base
	f.Start, f.Finish, f.Done = t.Start, t.Finish, t.Done
	for k := range f.problem.Bookings {
		if b := &f.problem.Bookings[k]; b.At(f.Start[b.Node]) != b.At(j.base.Start[b.Node]) {
			return nil
		}
	}
	f.Cost = search.Weigh(&f.problem.Problem, &f.Result)
	if f.Cost.Dates(j.base.Cost) != 0 || slices.Compare(f.Cost.Tie[:3], j.base.Cost.Tie[:3]) != 0 {
		return nil
	}
	return &f
}

// judge builds trials with the same draws.
func (j *jury) judge(list []*trial, seed uint64, count int) {
	if len(list) == 0 {
		return
	}
	var next atomic.Int64
	var all together.Group
	for range min(runtime.GOMAXPROCS(0), len(list)) {
		all.Go(func() {
			b, err := builds.NewBuilder(list[0].model, nil)
			if err != nil {
				panic(err) // the same problem was built before
			}
			for k := int(next.Add(1)) - 1; k < len(list) && !j.c.cut(); k = int(next.Add(1)) - 1 {
				list[k].judge(b, j.line, seed, count)
			}
		})
	}
	all.Wait()
}

// judge builds a trial so many times. A build that is never done is late until the end of
// the time line.
func (x *trial) judge(b *builds.Builder, line calendars.Instant, seed uint64, count int) {
	b.Take(x.model)
	x.onTime, x.broken, x.sum, x.late = 0, 0, 0, make([]int, count)
	for k := range x.late {
		b.Draw(seed, uint64(k))
		t, holds := b.Build()
		finish := calendars.Never
		if holds {
			finish, _ = b.Finish(t)
		}
		for i := range x.model.Dates {
			if !holds || b.Breaks(&x.model.Dates[i], t) {
				x.broken++
				break
			}
		}
		if finish <= line {
			x.onTime++
			continue
		}
		x.late[k] = int(min(finish, x.model.Line.End) - line)
		x.sum += x.late[k]
	}
}

// best lists the trials that look sturdiest, best first.
func (j *jury) best(n int) []*trial {
	list := slices.DeleteFunc(slices.Clone(j.all), func(x *trial) bool { return !x.keeps(j.all[0]) })
	slices.SortStableFunc(list, func(a, b *trial) int {
		return cmp.Or(cmp.Compare(b.onTime, a.onTime), cmp.Compare(a.sum, b.sum), a.f.Cost.Compare(b.f.Cost))
	})
	return list[:min(n, len(list))]
}

// keeps says whether a trial breaks other dates about as seldom as the base: living stock
// must not pay for a better chance.
func (x *trial) keeps(base *trial) bool { return (x.broken-base.broken)*otherBroken <= len(x.late) }

// choose judges the best by more builds, and chooses by those.
func (j *jury) choose() *trial {
	list := j.best(j.finalists())
	if !slices.Contains(list, j.all[0]) {
		list = append(list, j.all[0])
	}
	if len(list) == 1 {
		return list[0]
	}
	j.judge(list, finalSeed, lastBuilds)
	if j.c.cut() {
		return j.all[0]
	}
	list = slices.DeleteFunc(list, func(x *trial) bool { return !x.keeps(j.all[0]) })
	most := slices.MaxFunc(list, func(a, b *trial) int {
		return cmp.Or(cmp.Compare(a.onTime, b.onTime), cmp.Compare(b.sum, a.sum))
	})
	list = slices.DeleteFunc(list, func(x *trial) bool { return most.surelyMore(x) })
	least := slices.MinFunc(list, func(a, b *trial) int { return cmp.Compare(a.sum, b.sum) })
	list = slices.DeleteFunc(list, func(x *trial) bool { return least.surelySooner(x) })
	return slices.MinFunc(list, func(a, b *trial) int { return a.f.Cost.Compare(b.f.Cost) })
}

// surelyMore says whether a trial is in time in more builds than another by more than two
// standard errors, counting the pairs that differ (McNemar, 1947; from memory).
func (x *trial) surelyMore(y *trial) bool {
	won, lost := 0, 0
	for k := range x.late {
		switch {
		case x.late[k] == 0 && y.late[k] > 0:
			won++
		case x.late[k] > 0 && y.late[k] == 0:
			lost++
		}
	}
	return won > lost && (won-lost)*(won-lost) > 4*(won+lost)
}

// surelySooner says whether a trial's mean lateness is less than another's by more than two
// standard errors of the mean of the differences.
func (x *trial) surelySooner(y *trial) bool {
	n, sum, squares := len(x.late), 0, 0
	for k := range x.late {
		d := y.late[k] - x.late[k]
		sum += d
		squares += d * d
	}
	return sum > 0 && sum*sum*(n-1) > 4*(n*squares-sum*sum)
}

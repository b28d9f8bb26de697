package bound

import (
	"encoding/binary"
	"iter"
	"slices"

	"build.example/turflast/calendars"
)

// view is a way to count one resource, or nodes that can't be worked on at once:
// who uses how much, and how much there is.
type view struct {
	resource int32 // or None
	count    Count
	users    []user
	nodes    []int32               // of the users
	which    []int32               // calendars that the users work in, by index
	cals     []*calendars.Calendar // the calendars themselves
	there    level
}

// user is a node that needs some of what a view counts.
type user struct {
	node    int32
	choices []choice // one for each of its options
}

// choice is what an option of a user takes.
type choice struct {
	option int32
	cal    int32 // index of view.cals
	amount int64 // while worked on
	stays  int64 // the part of it held in pauses too
	after  calendars.Minutes
}

// level is a count over time: rate[i] from at[i] on. Before at[i], the counts add
// up to sum[i], over the open[i] minutes in which there is any.
type level struct {
	at        []calendars.Instant
	rate      []int64
	sum, open []int64
}

// add appends a stretch; it must not start before the last one ends.
func (l *level) add(s calendars.Span, rate int64) {
	if len(l.at) == 0 || l.at[len(l.at)-1] != s.Start {
		l.next(s.Start)
	}
	l.rate[len(l.rate)-1] = rate
	l.next(s.End)
}

func (l *level) next(at calendars.Instant) {
	sum, open := l.before(at)
	l.at, l.rate, l.sum, l.open = append(l.at, at), append(l.rate, 0), append(l.sum, sum), append(l.open, open)
}

// before is the sum of counts before an instant, and the minutes with any.
func (l *level) before(t calendars.Instant) (sum, open int64) {
	i, found := len(l.at), false
	if i > 0 && t <= l.at[i-1] {
		i, found = slices.BinarySearch(l.at, t)
	}
	if found {
		return l.sum[i], l.open[i]
	}
	if i == 0 {
		return 0, 0
	}
	i--
	if l.rate[i] == 0 {
		return l.sum[i], l.open[i]
	}
	since := int64(t - l.at[i])
	return l.sum[i] + l.rate[i]*since, l.open[i] + since
}

// view adds the views of a resource that at least two nodes need whichever way
// they are done.
func (m *model) view(r int32) {
	users := m.users(r)
	if len(users) < 2 {
		return
	}
	most := m.p.Capacity[r].Max()
	whole := m.newView(r, Whole, users)
	m.fill(whole, nil)
	m.views = append(m.views, whole)
	m.heldView(whole)
	fit := fitting(users, most)
	if int(fit[most]) < most || m.lessFits(r, fit) {
		v := *whole
		v.count, v.there = Fitting, level{}
		m.fill(&v, fit)
		m.views = append(m.views, &v)
	}
}

// lessFits says whether some count that occurs can't be used up by the amounts.
func (m *model) lessFits(r int32, fit []int64) bool {
	for _, count := range m.p.Capacity[r].Steps {
		if fit[count] < int64(count) {
			return true
		}
	}
	return false
}

func (m *model) newView(r int32, count Count, users []user) *view {
	v := &view{resource: r, count: count, users: users}
	local := make(map[int32]int32)
	for _, u := range users {
		v.nodes = append(v.nodes, u.node)
		for k := range u.choices {
			c := m.options[u.choices[k].option].Calendar
			at, known := local[c]
			if !known {
				at = int32(len(v.cals))
				local[c] = at
				v.which, v.cals = append(v.which, c), append(v.cals, m.n.Calendars[c])
			}
			u.choices[k].cal = at
		}
	}
	return v
}

// open is the time in which some user of a view can be worked on.
func (m *model) open(v *view) *calendars.Calendar {
	if len(v.cals) == 1 {
		return v.cals[0]
	}
	key := make([]byte, 0, 4*len(v.which))
	for _, c := range slices.Sorted(slices.Values(v.which)) {
		key = binary.BigEndian.AppendUint32(key, uint32(c))
	}
	if c, known := m.opens[string(key)]; known {
		return c
	}
	var spans []calendars.Span
	for _, c := range v.cals {
		spans = either(spans, c.Openings(m.dawn, m.n.Line.End))
	}
	c := calendars.New(spans)
	m.opens[string(key)] = c
	return c
}

// either is the union of two sorted lists of spans, sorted.
func either(a []calendars.Span, b iter.Seq[calendars.Span]) []calendars.Span {
	out := make([]calendars.Span, 0, len(a)+16)
	add := func(s calendars.Span) {
		if k := len(out) - 1; k >= 0 && s.Start <= out[k].End {
			out[k].End = max(out[k].End, s.End)
			return
		}
		out = append(out, s)
	}
	for s := range b {
		for len(a) > 0 && a[0].Start <= s.Start {
			add(a[0])
			a = a[1:]
		}
		add(s)
	}
	for _, s := range a {
		add(s)
	}
	return out
}

// fill counts what there is of a view's resource in the time in which some user
// can be worked on. With fit, only the part of each count that fits is counted.
func (m *model) fill(v *view, fit []int64) {
	open := m.open(v)
	for s, count := range m.p.Capacity[v.resource].Steps {
		if count == 0 {
			continue
		}
		rate := int64(count)
		if fit != nil {
			rate = fit[count]
		}
		for o := range open.Openings(max(s.Start, m.dawn), s.End) {
			v.there.add(o, rate)
		}
	}
}

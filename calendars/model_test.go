package calendars_test

import (
	"slices"
	"testing"

	"build.example/turflast/calendars"

	"pgregory.net/rapid"
)

type (
	Instant = calendars.Instant
	Minutes = calendars.Minutes
	Span    = calendars.Span
)

// model is the plainest possible calendar: a switch for every minute of a short
// time line, looked up minute by minute.
type model struct {
	origin Instant
	open   []bool
}

func newModel(origin Instant, length int, spans []Span) model {
	m := model{origin, make([]bool, length)}
	for _, s := range spans {
		for t := s.Start; t < s.End; t++ {
			m.open[t-origin] = true
		}
	}
	return m
}

func (m model) end() Instant { return m.origin + Instant(len(m.open)) }

func (m model) isOpen(t Instant) bool {
	return t >= m.origin && t < m.end() && m.open[t-m.origin]
}

func (m model) between(a, b Instant) Minutes {
	if b < a {
		return -m.between(b, a)
	}
	n := Minutes(0)
	for t := max(a, m.origin); t < min(b, m.end()); t++ {
		if m.isOpen(t) {
			n++
		}
	}
	return n
}

// first is the first instant from t on, up to just past the time line, for
// which ok holds; Never if none.
func (m model) first(t Instant, ok func(Instant) bool) Instant {
	for ; t <= m.end(); t++ {
		if ok(t) {
			return t
		}
	}
	return calendars.Never
}

// last is the last instant up to t, down to the time line's start, for which ok
// holds; Past if none.
func (m model) last(t Instant, ok func(Instant) bool) Instant {
	for ; t >= m.origin; t-- {
		if ok(t) {
			return t
		}
	}
	return calendars.Past
}

// holds says whether w minutes run unbroken from t.
func (m model) holds(t Instant, w Minutes) bool {
	for i := range Instant(w) {
		if !m.isOpen(t + i) {
			return false
		}
	}
	return true
}

// finish is the end of w minutes of work that start on the open minute t.
func (m model) finish(t Instant, w Minutes) Instant {
	return m.first(t, func(f Instant) bool { return m.between(t, f) == w })
}

// drawSpans makes spans that touch, overlap, nest or are far apart.
func drawSpans(t *rapid.T, origin Instant, length int) []Span {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Span {
		start := rapid.IntRange(0, length).Draw(t, "start")
		size := rapid.OneOf(rapid.IntRange(0, 3), rapid.IntRange(0, 60)).Draw(t, "size")
		return Span{origin + Instant(start), origin + Instant(min(start+size, length))}
	}), 0, 30).Draw(t, "spans")
}

func TestOperationsAgreeWithCountingMinutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := rapid.SampledFrom([]Instant{-70, 5, 29_000_000}).Draw(t, "origin")
		length := rapid.SampledFrom([]int{20, 120, 360}).Draw(t, "length")
		spans := drawSpans(t, origin, length)
		m, c := newModel(origin, length, spans), calendars.New(spans)
		for range 6 {
			at := origin + Instant(rapid.IntRange(-5, length+5).Draw(t, "at"))
			w := Minutes(rapid.IntRange(1, 90).Draw(t, "w"))
			agreeOnLookups(t, m, c, at, at+Instant(w)-40)
			agreeOnSums(t, m, c, at, w)
			agreeOnPlaces(t, m, c, at, w)
		}
	})
}

func agreeOnLookups(t *rapid.T, m model, c *calendars.Calendar, at, other Instant) {
	t.Helper()
	want(t, "IsOpen", c.IsOpen(at), m.isOpen(at))
	want(t, "Next", c.Next(at), m.first(max(at, m.origin), m.isOpen))
	want(t, "Last", c.Last(at), m.last(min(at, m.end()), m.isOpen))
	want(t, "Between", c.Between(at, other), m.between(at, other))
	want(t, "Total", c.Total(), m.between(m.origin, m.end()))
	s, ok := c.Opening(at)
	next := m.first(max(at, m.origin), m.isOpen)
	want(t, "Opening ok", ok, next != calendars.Never)
	if ok {
		closed := func(t Instant) bool { return !m.isOpen(t) }
		want(t, "Opening", s, Span{m.last(next, closed) + 1, m.first(next, closed)}, Span{m.origin, m.first(next, closed)})
	}
	open := make([]bool, len(m.open))
	for s := range c.Openings(at, other) {
		if s.Start >= s.End || s.Start < at || s.End > other {
			t.Fatalf("Openings(%d, %d) yields %v", at, other, s)
		}
		for i := s.Start; i < s.End; i++ {
			open[i-m.origin] = true
		}
	}
	for i := range open {
		if i := m.origin + Instant(i); at <= i && i < other {
			want(t, "Openings", open[i-m.origin], m.isOpen(i))
		}
	}
}

func agreeOnSums(t *rapid.T, m model, c *calendars.Calendar, at Instant, w Minutes) {
	t.Helper()
	from, to := max(at, m.origin), min(at, m.end())
	later := m.first(from, func(x Instant) bool { return m.between(at, x) == w })
	want(t, "Add", c.Add(at, w), later)
	want(t, "Subtract negative", c.Subtract(at, -w), later)
	earlier := m.last(to, func(x Instant) bool { return m.between(x, at) == w })
	want(t, "Subtract", c.Subtract(at, w), earlier)
	want(t, "Add negative", c.Add(at, -w), earlier)
	want(t, "Add nothing", c.Add(at, 0), at)
	want(t, "Subtract nothing", c.Subtract(at, 0), at)
	if m.isOpen(at) && later != calendars.Never {
		want(t, "Subtract after Add", c.Subtract(later, w), at)
	}
	if m.isOpen(at-1) && earlier != calendars.Past {
		want(t, "Add after Subtract", c.Add(earlier, w), at)
	}
}

func agreeOnPlaces(t *rapid.T, m model, c *calendars.Calendar, at Instant, w Minutes) {
	t.Helper()
	// Work is a start on an open minute and the finish that follows from it.
	works := func(s Instant) bool { return m.isOpen(s) && m.finish(s, w) != calendars.Never }
	check := func(name string, start, finish, wantStart, none Instant) {
		t.Helper()
		want(t, name+" start", start, wantStart)
		if wantStart == none {
			want(t, name+" finish", finish, none)
		} else {
			want(t, name+" finish", finish, m.finish(start, w))
		}
	}
	from, to := max(at, m.origin), min(at, m.end())
	s, f := c.Place(at, w)
	check("Place", s, f, m.first(from, works), calendars.Never)
	s, f = c.PlaceBack(at, w)
	check("PlaceBack", s, f, m.last(to, func(x Instant) bool { return works(x) && m.finish(x, w) <= at }), calendars.Past)
	s, f = c.PlaceUntil(at, w)
	check("PlaceUntil", s, f, m.first(m.origin, func(x Instant) bool { return works(x) && m.finish(x, w) >= at }),
		calendars.Never)
	want(t, "Fit", c.Fit(at, w), m.first(from, func(x Instant) bool { return m.holds(x, w) }))
	want(t, "FitBack", c.FitBack(at, w), m.last(to-Instant(w), func(x Instant) bool { return m.holds(x, w) }))
}

func want[T comparable](t *rapid.T, name string, got T, oneOf ...T) {
	t.Helper()
	for _, w := range oneOf {
		if got == w {
			return
		}
	}
	t.Fatalf("%s: got %v, want %v", name, got, oneOf)
}

func TestIntersectIsOpenWhenAllAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const origin, length = 1000, 300
		list := rapid.Custom(func(t *rapid.T) []Span { return drawSpans(t, origin, length) })
		lists := rapid.SliceOfN(list, 1, 4).Draw(t, "lists")
		var all []*calendars.Calendar
		for _, l := range lists {
			all = append(all, calendars.New(l))
		}
		got := calendars.Intersect(all[0], all[1:]...)
		n := Minutes(0)
		for x := Instant(origin - 1); x <= origin+length; x++ {
			open := true
			for _, c := range all {
				open = open && c.IsOpen(x)
			}
			want(t, "IsOpen", got.IsOpen(x), open)
			if open {
				n++
			}
		}
		want(t, "Total", got.Total(), n)
		for _, c := range all {
			if c.Total() == n && !slices.Contains(all, got) {
				t.Fatalf("a calendar that the others do not cut is not itself")
			}
		}
	})
}

func TestProfileSumsChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const origin, length = -20, 80
		changes := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) calendars.Change {
			a := Instant(rapid.IntRange(origin, origin+length).Draw(t, "start"))
			size := Instant(rapid.IntRange(-2, 30).Draw(t, "size"))
			return calendars.Change{Span: Span{Start: a, End: a + size}, By: rapid.IntRange(-3, 4).Draw(t, "by")}
		}), 0, 12).Draw(t, "changes")
		p := calendars.NewProfile(changes)
		most := 0
		for x := Instant(origin - 1); x < origin+length+40; x++ {
			sum := 0
			for _, c := range changes {
				if c.Span.Holds(x) {
					sum += c.By
				}
			}
			sum = max(sum, 0)
			most = max(most, sum)
			want(t, "At", p.At(x), sum)
			for n := 1; n < 6; n++ {
				want(t, "AtLeast", p.AtLeast(n).IsOpen(x), sum >= n)
				want(t, "Level", sum >= p.Level(n), sum >= n)
			}
		}
		want(t, "Max", p.Max(), most)
	})
}

package odds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
)

// builder builds the garden of one model again and again. It must not be used
// by several goroutines at once.
type builder struct {
	*builds.Builder
	m   *model
	row []float32 // what was drawn, by input

	wet     []bool
	closed  []calendars.Span
	cuts    []calendars.Cut
	tracing tracing

	onChain []int // by node
	broken  []int // by model.Dates
}

func newBuilder(m *model) (*builder, error) {
	of, err := builds.NewBuilder(m.Model)
	if err != nil {
		return nil, err
	}
	b := &builder{
		Builder: of, m: m, row: make([]float32, len(m.causes)),
		onChain: make([]int, len(m.Problem.Net.Nodes)), broken: make([]int, len(m.Dates)),
	}
	b.tracing = newTracing(m, b.Network())
	if m.sky != nil {
		b.wet = make([]bool, len(m.sky.midnights)-1)
		b.cuts = make([]calendars.Cut, len(m.sky.cuts))
	}
	return b, nil
}

// draw draws build k of a seed.
func (b *builder) draw(seed, k uint64) {
	b.Draw(seed, k)
	copy(b.row, b.Drawn)
	b.drawSky()
}

// build draws and builds one build, counts the dates that break in it, and returns when
// the last required work is done; Never when one has no place, or when longest waits can't
// all hold in the order of hands. It returns the dates and the last work as well.
func (b *builder) build(seed, k uint64) (finish calendars.Instant, t *network.Times, last int32) {
	b.draw(seed, k)
	t, holds := b.Build()
	if !holds {
		return calendars.Never, t, network.None
	}
	for i := range b.m.Dates {
		if b.Breaks(&b.m.Dates[i], t) {
			b.broken[i]++
		}
	}
	finish, last = b.Finish(t)
	return finish, t, last
}

// traced is build, and counts what is on the chain too.
func (b *builder) traced(seed, k uint64) calendars.Instant {
	finish, t, last := b.build(seed, k)
	if finish != calendars.Never && last != network.None {
		b.tracing.trace(t, last, b.onChain)
	}
	return finish
}

func (b *builder) drawSky() {
	s := b.m.sky
	if s == nil {
		return
	}
	b.row[len(b.row)-1] = float32(s.days(&b.From, b.wet))
	for k := range s.cuts {
		c := &s.cuts[k]
		if k == 0 || c.place != s.cuts[k-1].place || c.dries != s.cuts[k-1].dries {
			b.closed = s.closed(c, b.wet, b.closed[:0])
		}
		b.Network().Calendars[c.index] = b.cuts[k].Of(c.base, s.line(), b.closed)
	}
}

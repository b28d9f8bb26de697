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
	people *builds.Replanner // who re-plan; nil: the order of hands stays
	m      *model
	row    []float32 // what was drawn, by input

	weather *weather // nil: none is drawn
	tracing tracing

	onChain []int // by node
	broken  []int // by model.Dates
}

// newBuilder prepares to build a model, with people who re-plan or in the order of hands.
func newBuilder(m *model, replan bool) (*builder, error) {
	b := &builder{m: m, row: make([]float32, len(m.causes)), broken: make([]int, len(m.Dates))}
	var world builds.World
	if m.sky != nil {
		b.weather = newWeather(m.sky)
		world = b.weather
	}
	var err error
	if replan {
		if b.people, err = builds.NewReplanner(m.Model, world); err != nil {
			return nil, err
		}
		b.Builder = b.people.Builder
		return b, nil
	}
	if b.Builder, err = builds.NewBuilder(m.Model, world); err != nil {
		return nil, err
	}
	b.onChain, b.tracing = make([]int, len(m.Problem.Net.Nodes)), newTracing(m, b.Network())
	return b, nil
}

// draw draws build k of a seed.
func (b *builder) draw(seed, k uint64) {
	b.Draw(seed, k)
	copy(b.row, b.Drawn)
	b.drawWeather()
}

// build draws and builds one build, counts the dates that break in it, and returns when
// the last required work is done; Never when one has no place, or when longest waits can't
// all hold in the order of hands. It returns the dates and the last work as well.
func (b *builder) build(seed, k uint64) (finish calendars.Instant, t *network.Times, last int32) {
	b.draw(seed, k)
	t, holds := b.happens()
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

// happens builds what was drawn.
func (b *builder) happens() (t *network.Times, holds bool) {
	if b.people != nil {
		return b.people.Build()
	}
	return b.Build()
}

// traced is build, and counts what is on the chain too, where the order of hands stays.
func (b *builder) traced(seed, k uint64) calendars.Instant {
	finish, t, last := b.build(seed, k)
	if finish != calendars.Never && last != network.None && b.people == nil {
		b.tracing.trace(t, last, b.onChain)
	}
	return finish
}

// drawWeather draws wet and windy days.
func (b *builder) drawWeather() {
	w := b.weather
	if w == nil {
		return
	}
	w.draw(&b.From)
	at := len(b.Drawn)
	for _, c := range b.m.causes[at:] {
		bad := w.wet
		if c.Kind == WindyDays {
			bad = w.windy
		}
		b.row[at] = float32(w.count(bad))
		at++
	}
}

package solve

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/crews/search"
	"build.example/turflast/schedule/network"
)

// Sliding is the order of hands of a crew programme, to tell how late lorries may come
// while everyone keeps it.
type Sliding struct {
	of    *assembly
	slide *slide
	place []int // in the order, by node
	sent  bool  // one that is sent away breaks nothing
}

// Slide prepares a crew programme of the solver's plan.
func (s *Solver) Slide(g *schedule.Programme, w Promise) *Sliding {
	heads, dropped := make([][]int, len(g.Tasks)), make([]bool, len(g.Tasks))
	for i := range g.Tasks {
		heads[i], dropped[i] = g.Tasks[i].Heads, g.Tasks[i].Dropped
	}
	m, err := network.Expand(s.model.Plan.BookedAs(g), s.model.Hours, network.Choice{
		Heads: heads, Dropped: dropped, NoPlace: s.model.NoPlace,
	})
	if err != nil {
		panic(err) // the programme's links don't run in a ring
	}
	p := s.shared().Problem(m, dropped, nil)
	return sliding(s.shared(), newAssembly(m, timesOf(g, p), schedule.Crews), p, w)
}

// sliding prepares a programme as it is assembled.
func sliding(set *resources.Set, a *assembly, p *resources.Problem, w Promise) *Sliding {
	w.on(p)
	x := &Sliding{
		of: a, slide: &slide{p: p, order: resources.OrderOf(set, p, a.t), dates: p.Dates},
		place: make([]int, len(a.Nodes)), sent: w.HandoverOnly,
	}
	x.slide.lateStarts()
	for at, k := range x.slide.order.Nodes {
		x.place[k] = at
	}
	return x
}

// Arrival is the latest arrival of a lorry that is held up up to which the promise is
// kept and its stock isn't past its keep as it comes, while everyone keeps the order of
// hands; Never when nothing limits it.
func (x *Sliding) Arrival(d schedule.DeliveryID) calendars.Instant {
	k := x.of.Node(x.of.Plan.Unload(d))
	latest := x.of.keeping(d, x.slide.latest(x.from(k), k))
	if x.sent {
		return latest
	}
	return x.of.withoutGap(k, latest)
}

// Start is the latest start of a task likewise.
func (x *Sliding) Start(t schedule.TaskID) calendars.Instant {
	k := x.of.Node(t.Activity())
	by := x.slide.slip(x.from(k), k, x.slide.order.Late[k], schedule.FreeRange)
	if by == schedule.FreeRange {
		return calendars.Never
	}
	start, own := x.slide.order.Times.Start[k], x.of.Calendars[x.of.Nodes[k].Calendar]
	if by == 0 {
		return start
	}
	return own.Next(own.Add(start, by))
}

// from is a slider that begins with a node.
func (x *Sliding) from(k int) *search.Slider {
	slider, err := search.NewSlider(&x.slide.p.Problem, x.slide.order, x.place[k])
	if err != nil {
		panic(err) // the programme was built from the same problem
	}
	return slider
}

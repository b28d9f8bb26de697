package odds

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/builds"
	"build.example/turflast/schedule/network"
)

// Listed puts harms in order.
var Listed = listed

// Days draws a number of days, wet or not, of build k.
func Days(w schedule.WetDays, k uint64, count int) []bool {
	var s builds.Stream
	s.Begin(1, k)
	out := make([]bool, count)
	(&sky{wet: days{w.AfterDry, w.AfterWet}}).draw(&s, out, make([]bool, count))
	return out
}

// Starts are those of all tasks in one build of a programme; Never for one left out.
func Starts(c network.Case) ([]calendars.Instant, error) {
	m, err := newModel(context.Background(), c, Options{Builds: 1})
	if err != nil {
		return nil, err
	}
	b, err := newBuilder(m, false)
	if err != nil {
		return nil, err
	}
	_, t, _ := b.build(1, 0)
	out := make([]calendars.Instant, len(c.Plan.Tasks))
	for i := range out {
		a := schedule.Activity(i)
		if out[i] = t.Start[m.Node(a)]; c.Programme.Tasks[i].Dropped || m.HasNoPlace(a) {
			out[i] = calendars.Never
		}
	}
	return out, nil
}

// Unforeseen builds build k, and then again with all that isn't known yet at its n-th midnight
// drawn otherwise. It returns the moment, the starts and changes before it of both, and whether
// something begins before it in either in a pause of work whose hands it takes.
func Unforeseen(
	c network.Case, o Options, k uint64, n int,
) (at calendars.Instant, told [2]string, lends bool, err error) {
	m, err := newModel(context.Background(), c, o)
	if err != nil {
		return 0, told, false, err
	}
	b, err := newBuilder(m, o.Replan)
	if err != nil {
		return 0, told, false, err
	}
	b.draw(o.Seed, k)
	t, holds := b.happens()
	turns := midnights(m)
	if !holds || len(turns) == 0 {
		return 0, told, false, nil
	}
	at = turns[n%len(turns)]
	told[0], lends = b.before(t, at), b.lends(t, at)
	var anew builds.Stream
	anew.Begin(k, uint64(at))
	works := make(map[int]calendars.Minutes)
	for i := range m.Tasks {
		node := m.Node(m.Tasks[i].ID.Activity())
		switch {
		case t.Finish[node] <= at:
		case t.Start[node] < at:
			hours := b.Network().Calendars[b.Network().Nodes[node].Calendar]
			works[node] = hours.Between(t.Start[node], at) + 1 + calendars.Minutes(anew.Draw()%300)
		default:
			works[node] = 1 + calendars.Minutes(anew.Draw()%600)
		}
	}
	for node, work := range works {
		b.Network().Nodes[node].Work = work
	}
	for i := range m.Lorries {
		id := m.Lorries[i].ID
		if booked := m.Plan.Deliveries[id].Arrives; booked > at {
			b.Shift[id] = calendars.Minutes(m.Hours.Gate.Next(booked.Plus(calendars.Minutes(anew.Draw()%3000))) - booked)
			b.Network().Nodes[m.Node(m.Plan.Unload(id))].Earliest = max(booked.Plus(b.Shift[id]), network.Admitted(m.Plan, id))
		}
	}
	for i := range b.Short {
		if x := &b.Short[i]; x.Seen >= at {
			x.There = int(anew.Draw()) % (x.Planned + 1)
		}
	}
	if w := b.weather; w != nil {
		for day := range w.wet {
			if w.midnights[day] >= at {
				w.wet[day] = anew.Happens(0.5)
			}
		}
	}
	t, holds = b.happens()
	if told[1] = b.before(t, at); !holds {
		told[1] = told[0]
	}
	return at, told, lends || holds && b.lends(t, at), nil
}

// lends says whether something begins before a moment in a pause of other work, with hands,
// machines or room of which there would be too little if that work kept its own in pauses.
func (b *builder) lends(t *network.Times, at calendars.Instant) bool {
	p := b.m.Problem
	for i, start := range t.Start {
		if start >= at || start == t.Finish[i] {
			continue
		}
		for _, need := range p.Modes[i][0].Needs {
			taken := 0
			for k, other := range t.Start {
				if other > start || start >= t.Finish[k] {
					continue
				}
				for _, has := range p.Modes[k][0].Needs {
					if has.Resource == need.Resource {
						taken += int(has.Amount)
					}
				}
			}
			if taken > p.Capacity[need.Resource].Max() {
				return true
			}
		}
	}
	return false
}

// midnights are those after the first day of a plan's site, up to the hand-over.
func midnights(m *model) (out []calendars.Instant) {
	site := &m.Plan.Site
	for d := calendars.DateIn(max(site.Opens, m.Plan.Now()), site.Location) + 1; ; d++ {
		at, _ := calendars.At(site.Location, d, 0)
		if at >= site.Handover {
			return out
		}
		out = append(out, at)
	}
}

// before tells what has begun before a moment, and what people had changed by then.
func (b *builder) before(t *network.Times, at calendars.Instant) string {
	var s strings.Builder
	for i, start := range t.Start {
		if start.IsReal() && start < at && b.m.At(int32(i)) != schedule.Nothing {
			fmt.Fprintf(&s, "%s starts %d\n", b.m.Plan.ActivityID(b.m.At(int32(i))), start)
		}
	}
	for _, x := range b.people.Changes {
		if x.At <= at {
			fmt.Fprintf(&s, "%+v\n", x)
		}
	}
	return s.String()
}

// watch is weather in which what has begun is watched: each time that people look at it.
type watch struct {
	*weather
	t     *network.Times // of the build; nil: nobody watches
	begun map[int]calendars.Instant
	moved bool // something that had begun starts otherwise
}

func (w *watch) Known(at calendars.Instant) int {
	if at != calendars.Never && w.t != nil {
		w.compare()
		for i, start := range w.t.Start {
			if start < at {
				w.begun[i] = start
			}
		}
	}
	return w.weather.Known(at)
}

func (w *watch) compare() {
	for i, start := range w.begun {
		w.moved = w.moved || w.t.Start[i] != start
	}
}

// MovesBegun says of so many builds in how many something that had begun when people looked
// starts otherwise afterwards; none where a plan has no weather.
func MovesBegun(c network.Case, o Options) (moved int, err error) {
	m, err := newModel(context.Background(), c, o)
	if err != nil || m.sky == nil {
		return 0, err
	}
	b, err := newBuilder(m, true)
	if err != nil {
		return 0, err
	}
	w := &watch{weather: b.weather}
	if b.people, err = builds.NewReplanner(m.Model, w); err != nil {
		return 0, err
	}
	b.Builder = b.people.Builder
	for k := range uint64(o.Builds) {
		b.draw(o.Seed, k)
		w.begun, w.moved = make(map[int]calendars.Instant), false
		t, holds := b.happens() // the same dates are filled in by each build
		if w.compare(); w.t != nil && holds && w.moved {
			moved++
		}
		w.t = t
	}
	return moved, nil
}

// begins is a start; Never of what was left out.
func begins(start calendars.Instant) calendars.Instant {
	if start == calendars.Past {
		return calendars.Never
	}
	return start
}

// Buys says of so many builds in how many something is bought, and in how many of these something
// begins otherwise before it is bought than where nothing is.
func Buys(c network.Case, o Options, shop *Shop) (bought, moved int, err error) {
	m, err := newModel(context.Background(), c, o)
	if err != nil {
		return 0, 0, err
	}
	base, err := newBuilder(m, true)
	if err != nil {
		return 0, 0, err
	}
	x := newBuyer(&stock{Shop: shop, o: o, base: m, models: make(map[uint64]*model)}, base)
	for k := range uint64(o.Builds) {
		x.ctx, x.k, x.has = context.Background(), k, 0
		base.draw(o.Seed, k)
		first := calendars.Never
		base.people.Buy = func(now calendars.Instant) *builds.Replanner {
			next := x.buy(now)
			if next != nil {
				first = now
			}
			return next
		}
		with, holds := base.people.Build()
		if x.has == 0 || !holds {
			continue
		}
		starts := slices.Clone(with.Start)
		x.has, base.people.Buy = 0, nil
		without, _ := base.people.Build()
		bought++
		for i, start := range without.Start {
			if begins(start) != begins(starts[i]) && min(begins(start), begins(starts[i])) < first {
				moved++
				break
			}
		}
	}
	return bought, moved, nil
}

// Worse says which change made a re-planned build later than its finish as programmed: the one
// after which it is most later than before.
func Worse(c network.Case, o Options, k uint64, programmed calendars.Instant) (string, error) {
	o.Replan = true
	m, err := newModel(context.Background(), c, o)
	if err != nil {
		return "", err
	}
	b, err := newBuilder(m, true)
	if err != nil {
		return "", err
	}
	b.draw(o.Seed, k)
	b.finish()
	changes, looks := slices.Clone(b.people.Changes), slices.Clone(b.people.Looks)
	was, most, at := programmed, calendars.Minutes(0), calendars.Never
	for i, x := range changes {
		if i+1 < len(changes) && changes[i+1].At == x.At {
			continue
		}
		b.people.Until = x.At
		is := b.finish()
		if more := calendars.Minutes(is - was); more > most {
			most, at = more, x.At
		}
		was = is
	}
	return m.changedAt(changes, looks, at), nil
}

// changedAt names what people changed at a look, and how the hand-over stood by it.
func (m *model) changedAt(changes []builds.Change, looks []builds.Look, at calendars.Instant) string {
	kinds := make(map[string]bool)
	for _, x := range changes {
		switch {
		case x.At != at:
		case x.Ordered:
			kinds["another order"] = true
		case x.Left != schedule.None:
			kinds["something left out"] = true
		case m.Calls[x.Call].Task != schedule.None:
			kinds["a sign-off called"] = true
		default:
			kinds["a machine called"] = true
		}
	}
	stands := "by what was known in time with it"
	for _, l := range looks {
		if l.At == at && l.End > m.Plan.Site.Handover {
			stands = "by what was known late with it too"
		}
	}
	return strings.Join(slices.Sorted(maps.Keys(kinds)), " and ") + ", " + stands
}

// Without is when late builds are done without a harm, with what was drawn put right by hand, and not
// as [builds.Builder.Spared] does it; the end of the time line for never. It isn't known of a
// sign-off for which people look at their appointments, nor of who turns out.
func Without(c network.Case, o Options, h *Harm, late []int) (out []calendars.Instant, ok bool, err error) {
	m, err := newModel(context.Background(), c, o)
	if err != nil || h.Kind == NobodySign || h.Kind == FewCame {
		return nil, false, err
	}
	b, err := newBuilder(m, o.Replan)
	if err != nil {
		return nil, false, err
	}
	for _, k := range late {
		b.draw(o.Seed, uint64(k))
		at := b.finish()
		if all := allOf(h.Kind); all != h.Kind && !b.undone(o.Seed, uint64(k), at, &Harm{Kind: all}) {
			out = append(out, at) // a bad day alone counts where all together do
			continue
		}
		b.draw(o.Seed, uint64(k))
		if b.putRight(h) {
			at = b.finish()
		}
		out = append(out, at)
	}
	return out, true, nil
}

// allOf is the kind of all days together of a single one's.
func allOf(kind HarmKind) HarmKind {
	switch kind {
	case Rain:
		return AllRain
	case Wind:
		return AllWind
	}
	return kind
}

// undone says whether a build that is done at was is sooner without a harm.
func (b *builder) undone(seed, k uint64, was calendars.Instant, h *Harm) bool {
	b.draw(seed, k)
	if !b.putRight(h) {
		return false
	}
	is := b.finish()
	return is < was && (b.m.Hours.Site.Between(is, was) > 0 || is <= b.m.Plan.Site.Handover)
}

// putRight takes a harm away from what was drawn, and says whether it was there.
func (b *builder) putRight(h *Harm) bool {
	n, planned := b.Network(), b.m.Problem.Net
	switch h.Kind {
	case LongWork:
		i := b.m.Node(h.Activity)
		was := n.Nodes[i].Work
		n.Nodes[i].Work = planned.Nodes[i].Work
		return was > n.Nodes[i].Work
	case LateLorry:
		d, _ := b.m.Plan.Delivery(h.Activity)
		was := b.Shift[d]
		b.Shift[d] = 0
		n.Nodes[b.m.Node(h.Activity)].Earliest = max(b.m.Plan.Deliveries[d].Arrives, network.Admitted(b.m.Plan, d))
		return was > 0
	case FailedSign:
		hold := n.Nodes[b.m.Node(h.Activity)].Hold
		was := n.Holds[hold].Right
		n.Holds[hold].Right = 0
		return was > 0
	case SlowCrew:
		return b.usualPace(h.Crew)
	}
	was := false
	for day := range b.weather.midnights[:len(b.weather.wet)] {
		if h.Day != 0 && calendars.DateIn(b.weather.midnights[day], b.m.Plan.Site.Location) != h.Day {
			continue
		}
		if h.Kind == Rain || h.Kind == AllRain {
			was = was || b.weather.wet[day]
			b.weather.wet[day] = false
		} else {
			was = was || b.weather.windy[day]
			b.weather.windy[day] = false
		}
	}
	return was
}

// usualPace gives a crew its usual pace, and says whether it was slower.
func (b *builder) usualPace(crew schedule.CrewID) bool {
	pace := make(map[schedule.CrewID]float32)
	for k, id := range b.m.Crews {
		pace[id] = b.Drawn[len(b.m.Tasks)+k]
	}
	was := pace[crew]
	pace[crew] = 1
	for k := range b.m.Tasks {
		id := b.m.Tasks[k].ID
		heads, mean := 0, float32(0)
		for _, n := range b.m.Heads[id] {
			heads += n
		}
		for i, n := range b.m.Heads[id] {
			if n > 0 {
				mean += float32(float32(n) / float32(heads) * pace[b.m.Plan.Tasks[id].Crew[i].Crew])
			}
		}
		if len(b.m.Crews) > 0 && heads > 0 {
			b.Network().Nodes[b.m.Node(id.Activity())].Work = max(calendars.Minutes(b.Drawn[k]*mean+0.5), 1)
		}
	}
	return was > 1
}

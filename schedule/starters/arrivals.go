package starters

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// lateMorning is how long after the gate opens the work with what keeps for a day or two may
// start: if it starts later, that comes on the next morning.
const lateMorning = 3*calendars.Hour + 30

// skip is the collection that takes the waste away.
const skip = "skip"

// workday is the nth date from one on, that one included, on which the site works;
// backward for a step of -1.
func (g *Garden) workday(d calendars.Date, step calendars.Date) calendars.Date {
	for range 400 {
		if len(g.week()[d.Weekday()]) > 0 && !g.Place.Closed(d) {
			return d
		}
		d += step
	}
	return d
}

// Works says whether the site works at all between its opening and the hand-over.
func (g *Garden) Works() bool {
	return g.workday(g.day(g.Opens), 1) <= g.day(g.Handover)
}

func (g *Garden) day(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, g.Place.Location)
}

func (g *Garden) at(d calendars.Date, m calendars.Minutes) calendars.Instant {
	t, _ := calendars.At(g.Place.Location, d, m)
	return t
}

// mostRounds is how often lorries are booked anew for what a programme couldn't take.
const mostRounds = 4

// Book books the lorries of a garden, by what a solver makes of its text: first without
// lorries, which says when each load is wanted, then with them, until none is sent away and
// nothing is kept too long, or nothing more can be done about it in the window. It returns
// the last text and what was made of it; the error is the solver's.
func Book(g *Garden, solve func(text string) (network.Case, error)) (string, network.Case, error) {
	g.Arrivals = nil
	c, err := solve(Text(g))
	if err != nil {
		return "", c, err
	}
	g.Arrivals = arrivals(g, c)
	if c, err = solve(Text(g)); err != nil {
		return "", c, err
	}
	collection(g, c)
	for n := range mostRounds {
		if c, err = solve(Text(g)); err != nil || n == mostRounds-1 || !rebook(g, c) {
			break
		}
	}
	return Text(g), c, err
}

// wanted is a lorry and when the first work with its load starts.
type wanted struct {
	lorry
	start calendars.Instant
}

// arrivals books a lorry for each load of a garden, by the programme of its plan without
// lorries: living stock for the morning of the day on which it is used, all else for the
// workday before, hour after hour. No lorry is booked for a date after the hand-over's.
func arrivals(g *Garden, c network.Case) map[string]calendars.Instant {
	var loads []wanted
	for _, l := range g.lorries() {
		if start := firstUse(g, l.id, c); start.IsReal() {
			loads = append(loads, wanted{l, start})
		} else {
			loads = append(loads, wanted{l, g.Opens})
		}
	}
	slices.SortStableFunc(loads, func(a, b wanted) int { return cmp.Compare(a.start, b.start) })
	out := make(map[string]calendars.Instant, len(loads))
	taken := make(map[calendars.Instant]bool)
	for _, l := range loads {
		at := g.slot(l, taken)
		taken[at], out[l.id] = true, at
	}
	return out
}

// firstUse is when the first task that uses a lorry's load starts; Never when none has a
// place.
func firstUse(g *Garden, id string, c network.Case) calendars.Instant {
	first := calendars.Never
	for _, w := range g.works() {
		if !slices.Contains(w.uses, id) {
			continue
		}
		k := slices.IndexFunc(c.Plan.Tasks, func(t schedule.Task) bool { return t.ID == w.id })
		first = min(first, c.Programme.Tasks[k].Start)
	}
	return first
}

// morning is the date on whose morning a load would come for its work: of what keeps for a
// day or two the next one when the work starts late.
func (g *Garden) morning(l wanted) calendars.Date {
	day := g.workday(g.day(l.start), -1)
	opens, _ := g.gate(day)
	if (l.keep == "24h" || l.keep == "48h") && l.start > g.at(day, opens+lateMorning) {
		return g.workday(day+1, 1)
	}
	return day
}

// slot is a moment for a lorry at which no other is booked: living stock first thing, all
// else of the day before, from three hours after the gate opens.
func (g *Garden) slot(l wanted, taken map[calendars.Instant]bool) calendars.Instant {
	first, last := g.workday(g.day(g.Opens), 1), g.workday(g.day(g.Handover), -1)
	day := min(g.morning(l), last)
	if l.keep == "" {
		day = g.workday(day-1, -1)
	}
	for ; day >= first; day = g.workday(day-1, -1) {
		opens, shuts := g.gate(day)
		from, to := opens, min(opens+3*calendars.Hour, shuts-1)
		if l.keep == "" {
			from, to = opens+3*calendars.Hour, shuts-calendars.Hour
		}
		for m := from; m <= to; m += calendars.Hour {
			if at := g.at(day, m); !taken[at] && at >= g.Opens {
				return at
			}
		}
		if l.keep != "" {
			break
		}
	}
	day = max(first, min(day, last))
	opens, shuts := g.gate(day)
	for m := opens; m < shuts; m += 15 {
		if at := g.at(day, m); !taken[at] && at >= g.Opens {
			return at
		}
	}
	return max(g.Opens, g.at(day, opens))
}

// collection books the lorry that takes the waste away, by a programme with all others.
func collection(g *Garden, c network.Case) {
	k := slices.IndexFunc(c.Plan.Tasks, func(t schedule.Task) bool { return t.ID == "clear-up" })
	g.Arrivals[skip] = g.pickUp(c.Programme.Tasks[k].Finish)
}

// pickUp is the next half hour of the gate after a moment, for a lorry that goes out; in the
// last hour of the gate before the hand-over when there is none, or no such moment.
func (g *Garden) pickUp(done calendars.Instant) calendars.Instant {
	if !done.IsReal() {
		done = g.Handover
	}
	last := g.workday(g.day(g.Handover), -1)
	for day := g.workday(g.day(done), 1); day <= last; day = g.workday(day+1, 1) {
		opens, shuts := g.gate(day)
		for m := opens; m < shuts-30; m += 30 {
			if at := g.at(day, m); at >= done {
				return at
			}
		}
	}
	opens, shuts := g.gate(last)
	return g.at(last, max(opens, shuts-calendars.Hour))
}

// rebook books anew what a programme couldn't take as it was booked: a lorry that was sent
// away for when it is unloaded then, living stock that was kept too long for the morning on
// which its work ends. It says whether it did.
func rebook(g *Garden, c network.Case) bool {
	moved := false
	last := g.workday(g.day(g.Handover), -1)
	for _, b := range c.Programme.Breaks {
		var id string
		var at calendars.Instant
		switch b.Kind {
		case schedule.BreakSentAway:
			id, at = c.Plan.ActivityID(b.Activity), b.Actual-b.Actual%15
		case schedule.BreakKeep:
			id = c.Plan.Deliveries[b.Stock].ID
			day := g.workday(g.day(b.Actual), 1)
			opens, _ := g.gate(day)
			at = g.at(day, opens)
		}
		if id != "" && at != g.Arrivals[id] && g.day(at) <= last {
			g.Arrivals[id], moved = at, true
		}
	}
	return moved
}

func (w *writer) deliveries() {
	loads := w.g.lorries()
	if len(w.g.Arrivals) == 0 {
		return
	}
	slices.SortStableFunc(loads, func(a, b lorry) int { return cmp.Compare(w.g.Arrivals[a.id], w.g.Arrivals[b.id]) })
	w.line("\n# Lorries, booked for what the first programme wants: living stock on the morning of its\n" +
		"# work, all else the workday before. Each moment is a guess until it is confirmed.")
	w.line("deliveries:")
	for _, l := range loads {
		w.line("  # - %s", l.why)
		w.line("  %s: {%s}", l.id, w.g.load(l))
	}
	if at, booked := w.g.Arrivals[skip]; booked {
		w.line("  # - a guess: booked for when the clearing is done")
		w.line("  skip: {what: waste skip, arrives: %s"+
			", unload: 20m, waits: 4h, out: true, after: [clear-up]}", w.g.moment(at))
	}
}

// load is a lorry as a plan has it, between its braces.
func (g *Garden) load(l lorry) string {
	f := &fields{}
	f.add("what", quoted(l.what))
	f.add("arrives", g.moment(g.Arrivals[l.id]))
	unload := &fields{}
	unload.add("takes", l.unload)
	if l.crew != "" {
		unload.add("crew", fmt.Sprintf("{%s: %d}", l.crew, min(l.heads, g.heads(l.crew))))
	}
	if l.machine != "" {
		unload.add("machines", "{"+l.machine+": 1}")
	}
	if len(unload.all) == 1 {
		f.add("unload", l.unload)
	} else {
		f.add("unload", "{"+strings.Join(unload.all, ", ")+"}")
	}
	f.add("keep", l.keep)
	f.add("aged", l.aged)
	f.add("order_ahead", l.ahead)
	if l.approve != "" {
		f.add("order_after", "["+l.id+"-approved]")
	}
	f.add("waits", "1h")
	if l.late {
		f.add("late", "{chance: 0.1, likely: 1h, worst: 1d}")
	}
	return strings.Join(f.all, ", ")
}

// daily waters what lives from the day on which the first of it comes, on each day on
// which the site works.
func (w *writer) daily() {
	first := calendars.Never
	for _, l := range w.g.lorries() {
		if at, booked := w.g.Arrivals[l.id]; booked && l.keep != "" {
			first = min(first, at)
		}
	}
	if !first.IsReal() {
		return
	}
	runs := w.g.runs(w.g.workday(w.g.day(first)+1, 1), w.g.day(w.g.Handover-calendars.Instant(9*calendars.Hour)))
	if len(runs) == 0 {
		return
	}
	w.line("\ndaily:   # a guess; on days without work ask who waters")
	for i, r := range runs {
		w.line("  %s: {crew: {planting: 1}, at: %s, from: %s, to: %s}",
			numbered("watering", "-", i, len(runs)), w.g.watering(), r[0], r[1])
	}
}

// runs are the stretches of dates on which the site works.
func (g *Garden) runs(from, to calendars.Date) (out [][2]calendars.Date) {
	for d := from; d <= to; d++ {
		if g.workday(d, 1) != d {
			continue
		}
		if n := len(out); n > 0 && out[n-1][1] == d-1 {
			out[n-1][1] = d
		} else {
			out = append(out, [2]calendars.Date{d, d})
		}
	}
	return out
}

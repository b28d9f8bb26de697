package edit

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// deliveries writes bookings, what unloading waits for, and lorries that are new.
func (w *writer) deliveries() {
	for i := range w.was.Deliveries {
		was, at := &w.was.Deliveries[i], w.want.FindDelivery(w.was.Deliveries[i].ID)
		way := []string{"deliveries", was.ID}
		if at == schedule.None {
			w.unset(way...)
			continue
		}
		want := &w.want.Deliveries[at]
		if want.Booked != 0 {
			w.refuse("that %s is held up is something that may happen, and nothing that a plan says: "+
				"it stays a what-if, which can be saved; a new booking is a plan, like \"%s on %s\"",
				want.What, want.ID, w.moment(want.Arrives))
		}
		if was.What != want.What {
			w.set(quoted(want.What), under(way, "what")...)
		}
		if was.Arrives != want.Arrives {
			w.set(w.moment(want.Arrives), under(way, "arrives")...)
		}
		if was.Movable != nil && want.Movable == nil {
			w.unset(under(way, "movable")...)
		}
		w.after(w.links(w.was, was.After), w.links(w.want, want.After), way)
		w.texts(given(w.was, was.Givens), given(w.want, want.Givens), false, under(way, "after")...)
	}
	for i := range w.want.Deliveries {
		if d := &w.want.Deliveries[i]; w.was.FindDelivery(d.ID) == schedule.None {
			w.thing("deliveries", d.ID, w.deliveryKeys(d))
		}
	}
}

// tasks writes what is gone, changed and new.
func (w *writer) tasks() {
	known := map[string]bool{}
	for i := range w.was.Tasks {
		was := &w.was.Tasks[i]
		known[was.ID] = true
		if at := w.want.FindTask(was.ID); at != schedule.None {
			w.task(was, &w.want.Tasks[at])
		}
	}
	for i := range w.was.Tasks {
		if id := w.was.Tasks[i].ID; w.want.FindTask(id) == schedule.None {
			w.unset("tasks", id)
		}
	}
	for i := range w.want.Tasks {
		if t := &w.want.Tasks[i]; !known[t.ID] {
			w.thing("tasks", t.ID, w.taskKeys(t))
		}
	}
}

// task writes what changes of a task.
func (w *writer) task(was, want *schedule.Task) {
	way := []string{"tasks", was.ID}
	if len(want.Stops) > 0 {
		w.refuse("that %s stands still is something that may happen, and nothing that a plan says: "+
			"it stays a what-if, which can be saved", want.Name)
	}
	if was.Name != want.Name {
		w.set(quoted(want.Name), under(way, "name")...)
	}
	w.zones(was, want, way)
	w.crew(was.Crew, want.Crew, way)
	w.taskMachines(was.Machines, want.Machines, way)
	w.effort(was, want, way)
	w.spread(was.Spread, want.Spread, way)
	w.cure(was.Cure, want.Cure, way)
	w.after(w.links(w.was, was.After), w.links(w.want, want.After), way)
	w.texts(given(w.was, was.Givens), given(w.want, want.Givens), false, under(way, "after")...)
	w.texts(w.lorries(w.was, was.Uses), w.lorries(w.want, want.Uses), false, under(way, "uses")...)
	w.texts(ids(w.was, was.Apart), ids(w.want, want.Apart), false, under(way, "apart")...)
	if was.Hold != nil && want.Hold != nil {
		w.texts(w.moments(was.Hold.Appointments), w.moments(want.Hold.Appointments), true,
			under(way, "hold_point", "by_appointment")...)
	}
}

func (w *writer) moments(all []calendars.Instant) []string {
	var out []string
	for _, at := range all {
		out = append(out, w.moment(at))
	}
	return out
}

func ids(p *schedule.Plan, tasks []schedule.TaskID) []string {
	var out []string
	for _, t := range tasks {
		out = append(out, p.Tasks[t].ID)
	}
	return out
}

func given(p *schedule.Plan, all []schedule.GivenID) []string {
	var out []string
	for _, g := range all {
		out = append(out, p.Givens[g].ID)
	}
	return out
}

func (w *writer) lorries(p *schedule.Plan, all []schedule.DeliveryID) []string {
	var out []string
	for _, d := range all {
		out = append(out, p.Deliveries[d].ID)
	}
	return out
}

// link is a link in terms of ids.
type link struct{ from, kind, text string }

// links are links as their list in the text has them.
func (w *writer) links(p *schedule.Plan, all []schedule.Link) []link {
	var out []link
	for _, l := range all {
		from := p.Tasks[l.From].ID
		parts := []string{"task: " + from}
		if l.Kind != schedule.FinishStart {
			parts = append(parts, "link: "+l.Kind.String())
		}
		switch l.Wait.Kind {
		case schedule.Lag:
			parts = append(parts, "lag: "+lag(l.Wait.Time))
		case schedule.Cure:
			parts = append(parts, "cure: "+length(l.Wait.Time))
		}
		if l.HasWithin {
			parts = append(parts, "within: "+length(l.Within))
		}
		text := from
		if len(parts) > 1 {
			text = "{" + strings.Join(parts, ", ") + "}"
		}
		out = append(out, link{from, l.Kind.String(), text})
	}
	return out
}

// after writes the links of a task or an unloading: those that are gone, changed and new.
func (w *writer) after(was, want []link, way []string) {
	way = under(way, "after")
	same := func(a link) func(link) bool {
		return func(b link) bool { return a.from == b.from && a.kind == b.kind }
	}
	for _, l := range want {
		switch at := slices.IndexFunc(was, same(l)); {
		case w.err != nil || at >= 0 && was[at] == l:
		case at >= 0:
			w.do(w.change(l.text, l.is, way...))
		default:
			w.append(l.text, false, way...)
		}
	}
	for _, l := range was {
		if w.err == nil && !slices.ContainsFunc(want, same(l)) {
			w.do(w.takeOut(l.is, way...))
		}
	}
}

// is says whether an item of a list is the link.
func (l link) is(n *yaml.Node) bool {
	kind := schedule.FinishStart.String()
	if n.Kind == yaml.MappingNode {
		if k, _ := child(n, "link"); k != nil {
			kind = k.Value
		}
		n, _ = child(n, "task")
	}
	return n != nil && n.Value == l.from && kind == l.kind
}

// effort writes how long a task takes, in the form that it has. Work of an amount at a rate that
// gets more or less is person-hours from then on: neither of the two is as it was said.
func (w *writer) effort(was, want *schedule.Task, way []string) {
	switch {
	case sameTimes(was, want):
		return
	case !want.Effort.Shared():
		w.set(length(want.Effort.Takes), under(way, "takes")...)
		return
	}
	hours := personHours(want)
	if hours == "" {
		w.refuse("%s would be a number of person-hours with more than three decimals: change it by hand", want.Name)
		return
	}
	if w.find(under(way, "amount")...) == nil {
		w.set(hours, under(way, "person_hours")...)
		return
	}
	w.do(w.rename("person_hours", hours, under(way, "amount")...))
	w.unset(under(way, "rate")...)
}

// rename gives an entry another key and value.
func (w *writer) rename(key, value string, way ...string) error {
	if w.err != nil {
		return nil
	}
	above := w.find(way[:len(way)-1]...)
	n, at := child(above, way[len(way)-1])
	name := above.Content[2*at]
	return w.splice(cut{w.start(name), w.start(name) + len(name.Value), key}, cut{w.start(n), w.end(n), value})
}

// spread writes the best and the worst time of a task.
func (w *writer) spread(was, want *schedule.Spread, way []string) {
	if was == nil || want == nil {
		return
	}
	if was.Best != want.Best {
		w.set(length(want.Best), under(way, "spread", "best")...)
	}
	if was.Worst != want.Worst {
		w.set(length(want.Worst), under(way, "spread", "worst")...)
	}
}

// length is a length of time as the plan's text has it.
func length(m calendars.Minutes) string { return calendars.FormatWait(m) }

// lag is a length that may be negative.
func lag(m calendars.Minutes) string {
	if m < 0 {
		return "-" + length(-m)
	}
	return length(m)
}

// personHours is shared work in hours with as few decimals as give the same working times; "" if
// three are too few.
func personHours(t *schedule.Task) string {
	for _, places := range []int64{1, 10, 100, 1000} {
		least := t.Effort.Num * places / (60 * t.Effort.Den)
		for _, n := range []int64{least, least + 1} {
			other := *t
			other.Effort = schedule.Effort{Num: 60 * n, Den: places}
			if n > 0 && sameTimes(t, &other) {
				text := strings.TrimRight(fmt.Sprintf("%d.%03d", n/places, n%places*(1000/places)), "0")
				return strings.TrimSuffix(text, ".")
			}
		}
	}
	return ""
}

// sameTimes says whether two tasks take the same working time with every number of heads that
// they may have.
func sameTimes(a, b *schedule.Task) bool {
	if a.Effort.Shared() != b.Effort.Shared() {
		return false
	}
	least, most := 0, 0
	for _, c := range a.Crew {
		least, most = least+c.Least, most+c.Most
	}
	for heads := max(least, 1); heads <= max(most, 1); heads++ {
		if a.Effort.Time(heads) != b.Effort.Time(heads) {
			return false
		}
	}
	return true
}

package planfile

import (
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// usualWaits is how long a lorry stands when the plan does not say.
const usualWaits = 30 * calendars.Minutes(1)

func (r *reader) readDeliveries(values []*yaml.Node) {
	r.plan.Deliveries = make([]schedule.Delivery, len(values))
	for i, n := range values {
		d := &r.plan.Deliveries[i]
		d.ID, d.What, d.Pos = r.deliveries.list[i], r.deliveries.list[i], r.deliveries.at[i]
		it, ok := r.item(n, "delivery "+d.ID, keys.Delivery)
		if ok {
			r.readDelivery(&it, d, i)
		}
	}
}

func (r *reader) readDelivery(it *item, d *schedule.Delivery, i int) {
	if it.has("what") {
		d.What = it.words("what", maxName)
	}
	it.required()
	d.Arrives = it.moment("arrives")
	before := r.fatal
	if d.Out = it.flag("out"); r.fatal > before {
		r.deliveries.doubt(i)
	}
	d.Unload = r.readUnload(it.get("unload"), it)
	d.Waits = usualWaits
	if waits, ok := it.wait("waits"); ok {
		d.Waits = waits
	}
	if it.has("waiting_rate") {
		d.WaitingRate = max(it.money("waiting_rate"), 0)
	}
	r.readKeep(it, d)
	if d.OrderAhead, _ = it.wait("order_ahead"); it.has("order_ahead") && d.OrderAhead == 0 {
		r.zeroLength(it.get("order_ahead"), it.of("order_ahead"))
	}
	for _, k := range r.findAll(r.desk, it.get("order_after"), it.of("order_after")) {
		d.OrderAfter = append(d.OrderAfter, schedule.DeskID(k))
	}
	if it.has("order_after") {
		it.require("order_ahead")
	}
	d.Movable = r.readMovable(it, d.Arrives)
	d.Late = r.readLate(it)
	d.Notice = r.readNotice(it)
	r.readDeliveryAfter(it, d)
}

// readKeep reads how long living stock lasts, and how much of that is over as
// it comes.
func (r *reader) readKeep(it *item, d *schedule.Delivery) {
	if d.Out {
		it.refuse("what goes out is not kept", "keep", "aged")
		return
	}
	keep, kept := it.wait("keep")
	if d.Keep = keep; kept && keep == 0 {
		r.zeroLength(it.get("keep"), it.of("keep"))
	}
	aged, old := it.wait("aged")
	switch d.Aged = aged; {
	case it.has("aged") && !it.has("keep"):
		it.refuse("say first how long it keeps, as keep", "aged")
	case old && keep > 0 && aged >= keep:
		r.fault(posOf(it.get("aged")), "it must come while it is still fresh",
			"%s: %q is not less than keep %q", it.of("aged"), it.get("aged").Value, it.get("keep").Value)
	}
}

// zeroLength reports a length of zero where a longer one must be given.
func (r *reader) zeroLength(n *yaml.Node, of label) {
	if n.Kind == yaml.ScalarNode && n.Style == 0 &&
		(n.Value == "0m" || n.Value == "0h" || n.Value == "0d" || n.Value == "0w") {
		r.fault(posOf(n), "give 1m or more", "%s is nothing: %q", of, n.Value)
	}
}

func (r *reader) readUnload(n *yaml.Node, owner *item) schedule.Unload {
	var u schedule.Unload
	of := owner.of("unload")
	if n == nil {
		return u
	}
	if n.Kind == yaml.ScalarNode {
		u.Takes, _ = r.length(n, calendars.ParseWork, of)
		r.zeroLength(n, of)
		return u
	}
	it, ok := r.item(n, of.String(), keys.Unload)
	if !ok {
		return u
	}
	it.required()
	if u.Takes, ok = it.work("takes"); ok {
		r.zeroLength(it.get("takes"), it.of("takes"))
	}
	u.Crew = r.fixedCrew(&it)
	before := r.fatal
	u.Machines = r.machineNeeds(it.get("machines"), it.of("machines"))
	if r.fatal == before {
		r.checkRoom(posOf(n), nil, nil, u.Machines, of.String())
	}
	return u
}

func (r *reader) readMovable(owner *item, arrives calendars.Instant) *schedule.Movable {
	it, ok := r.item(owner.get("movable"), "movable of "+owner.name, keys.Movable)
	if !ok {
		return nil
	}
	it.required()
	m := &schedule.Movable{Earliest: it.moment("earliest"), Latest: it.moment("latest")}
	if arrives != 0 && m.Earliest > arrives {
		r.fault(posOf(it.get("earliest")), "the booking lies between earliest and latest",
			"%s: %q is after the booked arrival %q", it.of("earliest"), it.get("earliest").Value, owner.get("arrives").Value)
	}
	if arrives != 0 && m.Latest != 0 && m.Latest < arrives {
		r.fault(posOf(it.get("latest")), "the booking lies between earliest and latest",
			"%s: %q is before the booked arrival %q", it.of("latest"), it.get("latest").Value, owner.get("arrives").Value)
	}
	return m
}

func (r *reader) readLate(owner *item) *schedule.Lateness {
	it, ok := r.item(owner.get("late"), "late of "+owner.name, keys.Late)
	if !ok {
		return nil
	}
	it.required()
	l := &schedule.Lateness{Chance: it.chance("chance")}
	var likely, worst bool
	l.Likely, likely = it.wait("likely")
	l.Worst, worst = it.wait("worst")
	if likely && worst && l.Worst < l.Likely {
		r.fault(posOf(it.get("worst")), "the worst is at least the likely",
			"%s: %q is less than likely %q", it.of("worst"), it.get("worst").Value, it.get("likely").Value)
	}
	return l
}

// readDeliveryAfter reads the tasks and givens that an unloading waits for.
func (r *reader) readDeliveryAfter(it *item, d *schedule.Delivery) {
	of := it.of("after")
	seen := map[int]bool{}
	for _, entry := range r.list(it.get("after"), of) {
		if entry.Kind == yaml.MappingNode && !r.faulty[entry] {
			r.fault(posOf(entry), "write the names of tasks and givens alone", "%s takes no kind of link and no wait", of)
			continue
		}
		if g, ok := r.given(entry); ok {
			if slices.Contains(d.Givens, schedule.GivenID(g)) {
				r.twice(entry, of)
				continue
			}
			r.givens.used[g] = true
			d.Givens = append(d.Givens, schedule.GivenID(g))
			continue
		}
		t, ok := r.findUnloadAfter(entry, of)
		if !ok {
			continue
		}
		if seen[t] {
			r.twice(entry, of)
			continue
		}
		seen[t] = true
		d.After = append(d.After, schedule.Link{From: schedule.TaskID(t), Pos: posOf(entry)})
	}
}

// findUnloadAfter is the index of a task that an unloading comes after.
func (r *reader) findUnloadAfter(n *yaml.Node, of label) (int, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, false
	}
	t, isTask := r.tasks.index[s]
	_, isDelivery := r.deliveries.index[s]
	switch {
	case isTask:
		return t, true
	case isDelivery:
		r.fault(posOf(n), "name a task or a given", "%s names %s, which is a delivery", of, quote(s))
	case !r.tasks.broken && !r.givens.broken:
		r.fault(posOf(n), r.suggest(s, "task", r.before), "unknown task %s in %s", quote(s), of)
	}
	return 0, false
}

// findTask is the index of a task; a delivery or a given in its place is
// reported as what it is.
func (r *reader) findTask(n *yaml.Node, of label) (int, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, false
	}
	if _, isTask := r.tasks.index[s]; !isTask {
		for _, other := range []*names{r.deliveries, r.givens} {
			if _, is := other.index[s]; is {
				r.fault(posOf(n), "name a task", "%s names %s, which is a %s", of, quote(s), other.kind)
				return 0, false
			}
		}
	}
	return r.findText(r.tasks, s, posOf(n), of)
}

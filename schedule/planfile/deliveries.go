package planfile

import (
	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// usualWaits is how long a lorry stands when the plan does not say.
const usualWaits = 30 * calendars.Minutes(1)

func (r *reader) readDeliveries(values []*yaml.Node) {
	r.plan.Deliveries = make([]schedule.Delivery, len(values))
	for i, n := range values {
		d := &r.plan.Deliveries[i]
		d.ID, d.What, d.Pos = r.deliveries.list[i], r.deliveries.list[i], r.deliveries.at[i]
		it, ok := r.item(n, "delivery "+d.ID, "what", "arrives", "unload",
			"waits", "keep", "movable", "late", "order_ahead", "out", "after")
		if ok {
			r.readDelivery(&it, d, i)
		}
	}
}

func (r *reader) readDelivery(it *item, d *schedule.Delivery, i int) {
	if it.has("what") {
		d.What = it.words("what", maxName)
	}
	it.require("arrives", "unload")
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
	if d.Keep, _ = it.wait("keep"); it.has("keep") {
		if d.Out {
			it.refuse("what goes out is not kept", "keep")
		} else if d.Keep == 0 {
			r.zeroLength(it.get("keep"), it.of("keep"))
		}
	}
	if d.OrderAhead, _ = it.wait("order_ahead"); it.has("order_ahead") && d.OrderAhead == 0 {
		r.zeroLength(it.get("order_ahead"), it.of("order_ahead"))
	}
	d.Movable = r.readMovable(it, d.Arrives)
	d.Late = r.readLate(it)
	d.After = r.readDeliveryAfter(it)
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
	it, ok := r.item(n, of.String(), "takes", "crew", "machines")
	if !ok {
		return u
	}
	it.require("takes")
	if u.Takes, ok = it.work("takes"); ok {
		r.zeroLength(it.get("takes"), it.of("takes"))
	}
	u.Crew = r.fixedCrew(&it)
	u.Machines = r.machineNeeds(it.get("machines"), it.of("machines"))
	return u
}

func (r *reader) readMovable(owner *item, arrives calendars.Instant) *schedule.Movable {
	it, ok := r.item(owner.get("movable"), "movable of "+owner.name, "earliest", "latest")
	if !ok {
		return nil
	}
	it.require("earliest", "latest")
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
	it, ok := r.item(owner.get("late"), "late of "+owner.name, "chance", "likely", "worst")
	if !ok {
		return nil
	}
	it.require("chance", "likely", "worst")
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

// readDeliveryAfter reads the tasks that a lorry waits for; whether it may wait
// for them is checked once the tasks are read.
func (r *reader) readDeliveryAfter(it *item) []schedule.Link {
	var links []schedule.Link
	of := it.of("after")
	seen := map[int]bool{}
	for _, entry := range r.list(it.get("after"), of) {
		if entry.Kind == yaml.MappingNode && !r.faulty[entry] {
			r.fault(posOf(entry), "write the names of tasks alone", "%s takes no kind of link and no wait", of)
			continue
		}
		t, ok := r.findTask(entry, of)
		if !ok {
			continue
		}
		if seen[t] {
			r.twice(entry, of)
			continue
		}
		seen[t] = true
		links = append(links, schedule.Link{From: schedule.TaskID(t), Pos: posOf(entry)})
	}
	return links
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

// checkDeliveryAfter reports an inbound delivery that waits for work on site.
func (r *reader) checkDeliveryAfter(i int) {
	d := &r.plan.Deliveries[i]
	if d.Out || r.deliveries.doubted[i] {
		return
	}
	for _, l := range d.After {
		t := &r.plan.Tasks[l.From]
		if len(t.Zones) == 0 || r.plan.OffSite(t) || r.zones.doubted[int(t.Zones[0])] {
			continue
		}
		r.fault(l.Pos, "let the tasks that use it follow the task; or say out: true if it takes something away",
			"after of delivery %s names %q, which is work on site", d.ID, t.ID)
	}
}

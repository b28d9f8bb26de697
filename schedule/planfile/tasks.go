package planfile

import (
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

func (r *reader) readTasks(values []*yaml.Node) {
	r.plan.Tasks = make([]schedule.Task, len(values))
	for i, n := range values {
		t := &r.plan.Tasks[i]
		t.ID, t.Name, t.Pos = r.tasks.list[i], r.tasks.list[i], r.tasks.at[i]
		if it, ok := r.item(n, "task "+t.ID, keys.Task); ok {
			r.readTask(&it, schedule.TaskID(i), t)
		}
	}
}

func (r *reader) readTask(it *item, id schedule.TaskID, t *schedule.Task) {
	if it.has("name") {
		t.Name = it.words("name", maxName)
	}
	if it.has("short") {
		t.Short = it.words("short", schedule.LongestShort)
	}
	it.required()
	before := r.fatal
	r.readTaskZones(it, t)
	if k, ok := r.find(r.stages, it.get("stage"), it.of("stage")); ok {
		t.Stage = schedule.StageID(k)
	}
	t.Crew = r.crewNeeds(it.get("crew"), true, it.of("crew"))
	t.Machines = r.machineNeeds(it.get("machines"), it.of("machines"))
	if r.fatal == before {
		r.checkStands(it, t)
		r.checkRoom(t.Pos, t.Zones, t.Crew, t.Machines, it.name)
	}
	known := r.readEffort(it, t)
	r.readSpread(it, t, known && r.fatal == before)
	if known && t.Effort.Takes > 0 && nobody(it.get("crew")) {
		r.warn(t.Pos, "say who does it", "%s has no crew", it.name)
	}
	r.readAfter(it, id, t)
	r.readUses(it, t)
	r.readTaskWays(it, id, t)
	r.readTaskDates(it, t)
	r.readSky(it, t)
	t.Hazards = r.readHazards(it)
	t.Hold = r.readHoldPoint(it)
	t.Excepts = r.readExcepts(it)
	if it.has("done_when") {
		t.DoneWhen = it.words("done_when", maxText)
	}
	if it.has("note") {
		t.Note = it.words("note", maxText)
	}
}

// nobody says whether a task's crew is left out or empty; a faulty one is
// reported as such.
func nobody(crew *yaml.Node) bool {
	return crew == nil || crew.Kind == yaml.MappingNode && len(crew.Content) == 0
}

// readTaskZones reads one zone or a list of them: all on site, or a single one
// off site.
func (r *reader) readTaskZones(it *item, t *schedule.Task) {
	n, of := it.get("zone"), it.of("zone")
	off, doubted := 0, false
	found := r.findZones(n, of)
	for _, z := range found {
		doubted = doubted || r.zones.doubted[z]
		t.Zones = append(t.Zones, schedule.ZoneID(z))
		if r.plan.Zones[z].OffSite {
			off++
		}
	}
	switch {
	case doubted:
	case off > 1:
		r.fault(posOf(n), "make it a task for each place", "%s names two places off site", of)
	case off == 1 && len(found) > 1:
		r.fault(posOf(n), "make it two tasks", "%s mixes zones of the plot with a place off site", of)
	}
}

// findZones are the indices of one zone or a list of them; none when n is missing.
func (r *reader) findZones(n *yaml.Node, of label) []int {
	if n == nil || r.faulty[n] {
		return nil
	}
	if n.Kind == yaml.SequenceNode {
		r.filled(n, "name at least one zone", of)
		return r.findAll(r.zones, n, of)
	}
	if z, ok := r.find(r.zones, n, of); ok {
		return []int{z}
	}
	return nil
}

func (r *reader) readUses(it *item, t *schedule.Task) {
	of := it.of("uses")
	n := it.get("uses")
	if n == nil {
		return
	}
	for _, d := range r.findAll(r.deliveries, n, of) {
		if r.plan.Deliveries[d].Out {
			r.fault(posOf(n), "let the collection come after the task", "%s names %q, which goes out", of, r.deliveries.list[d])
			continue
		}
		t.Uses = append(t.Uses, schedule.DeliveryID(d))
	}
}

// readTaskWays reads how a task works and what it does to those around it.
func (r *reader) readTaskWays(it *item, id schedule.TaskID, t *schedule.Task) {
	t.Cure, _ = it.wait("cure")
	t.Unbroken, t.Stays = it.flag("unbroken"), it.flag("stays")
	t.Loud, t.OnBoards = it.flag("loud"), it.flag("on_boards")
	r.readClosing(it, t)
	for _, z := range r.findAll(r.zones, it.get("clears"), it.of("clears")) {
		t.Clears = append(t.Clears, schedule.ZoneID(z))
	}
	var seen []int
	for _, entry := range r.list(it.get("apart"), it.of("apart")) {
		other, ok := r.findTask(entry, it.of("apart"))
		switch {
		case !ok:
		case schedule.TaskID(other) == id:
			r.fault(posOf(entry), "take it out", "%s names the task itself", it.of("apart"))
		case slices.Contains(seen, other):
			r.twice(entry, it.of("apart"))
		default:
			seen = append(seen, other)
			t.Apart = append(t.Apart, schedule.TaskID(other))
		}
	}
}

// readClosing reads what the task does to the way in; work of stage turf
// closes it unless the plan says otherwise.
func (r *reader) readClosing(it *item, t *schedule.Task) {
	n, of := it.get("closes_way_in"), it.of("closes_way_in")
	offSite := len(t.Zones) > 0 && r.plan.OffSite(t)
	if n == nil {
		t.Closes.Orders = r.plan.Stages[t.Stage] == "turf" && !offSite
		return
	}
	s, ok := r.plain(n, of)
	switch {
	case !ok || s == "false":
		return
	case offSite:
		r.fault(posOf(n), "take it out", "%s: work off site closes no way in", of)
	case s == "true":
		t.Closes.Orders = true
	default:
		closed, err := calendars.ParseWait(s)
		if err != nil {
			r.fault(posOf(n), "write true, false or a length of time like 24h",
				"%s: %s %s", of, quote(s), textError(err).Problem)
		}
		t.Closes = schedule.Closing{Timed: true, For: closed}
	}
}

func (r *reader) readTaskDates(it *item, t *schedule.Task) {
	t.NotBefore, t.By = it.moment("not_before"), it.moment("by")
	if t.NotBefore != 0 && t.By != 0 && t.By <= t.NotBefore {
		r.fault(posOf(it.get("by")), "leave time between the two", "%s: %q is not after not_before %q",
			it.of("by"), it.get("by").Value, it.get("not_before").Value)
	} else if t.By != 0 {
		r.checkBy(it, t)
	}
	before := r.fatal
	t.Optional = it.flag("optional")
	if !it.has("drop_order") {
		return
	}
	if !t.Optional && r.fatal == before {
		r.fault(posOf(it.get("drop_order")), "add optional: true or leave it out",
			"%s has a drop_order and is not optional", it.name)
	}
	t.DropOrder = max(it.count("drop_order", 1), 0)
}

// checkBy checks a task's own date against the time in which it can work.
func (r *reader) checkBy(it *item, t *schedule.Task) {
	first, what := r.plan.Site.Opens, "the gate opens"
	if len(t.Zones) > 0 && r.plan.OffSite(t) {
		first, what = r.plan.Zones[t.Zones[0]].From, "work may start in zone "+r.plan.Zones[t.Zones[0]].ID
	}
	switch n := it.get("by"); {
	case first != 0 && t.By <= first:
		r.fault(posOf(n), "give a later date", "%s: %q is not after %s", it.of("by"), n.Value, what)
	case r.plan.Site.Handover != 0 && t.By > r.plan.Site.Handover:
		r.warn(posOf(n), "the hand-over holds anyway", "%s: %q is after the hand-over", it.of("by"), n.Value)
	}
}

func (r *reader) readWeather(it *item) schedule.Weather {
	var w schedule.Weather
	for _, k := range r.findAll(r.weather, it.get("weather"), it.of("weather")) {
		w |= 1 << k // in the order of the bits
	}
	return w
}

// readSky reads the weather that a task needs, and its own wait after a wet day.
func (r *reader) readSky(it *item, t *schedule.Task) {
	before := r.fatal
	t.Weather = r.readWeather(it)
	known := r.fatal == before && !r.faulty[it.get("weather")]
	dries, ok := it.work("dries")
	if !ok {
		return
	}
	if t.Dries = &dries; known && t.Weather&schedule.Dry == 0 {
		it.refuse("it goes with weather: [dry]", "dries")
	}
}

func (r *reader) readHazards(it *item) []string {
	var out []string
	for _, k := range r.findAll(r.hazards, it.get("hazards"), it.of("hazards")) {
		out = append(out, r.hazards.list[k])
	}
	return out
}

// readHoldPoint reads what must be signed after the work: the text alone, or
// with its time and appointments.
func (r *reader) readHoldPoint(owner *item) *schedule.HoldPoint {
	n, of := owner.get("hold_point"), owner.of("hold_point")
	if n == nil {
		return nil
	}
	if n.Kind == yaml.ScalarNode {
		return &schedule.HoldPoint{What: r.words(n, maxText, of)}
	}
	it, ok := r.item(n, of.String(), keys.HoldPoint)
	if !ok {
		return nil
	}
	it.required()
	h := &schedule.HoldPoint{What: it.words("what", maxText)}
	before := r.fatal
	h.OnTheClock = it.flag("on_the_clock")
	switch {
	case h.OnTheClock:
		it.require("takes")
		it.refuse("an appointment runs on the clock as it is", "by_appointment")
		h.Takes, _ = it.wait("takes")
	case r.fatal > before || r.faulty[it.get("on_the_clock")]:
		h.Takes, _ = it.wait("takes")
	default:
		h.Takes, _ = it.work("takes")
	}
	h.Notice = r.readNotice(&it)
	h.Fails = r.readFails(&it)
	r.readAppointments(&it, h)
	return h
}

// readFails reads how a hold point may fail.
func (r *reader) readFails(owner *item) *schedule.Fails {
	it, ok := r.item(owner.get("fails"), "fails of "+owner.name, keys.Fails)
	if !ok {
		return nil
	}
	it.required()
	f := &schedule.Fails{Chance: it.chance("chance")}
	f.Right, _ = it.work("right")
	return f
}

func (r *reader) readAppointments(it *item, h *schedule.HoldPoint) {
	list := it.of("by_appointment")
	for _, entry := range r.filled(it.get("by_appointment"), "give the appointments or leave the key out", list) {
		at := r.moment(entry, list)
		if at == 0 {
			continue
		}
		if slices.Contains(h.Appointments, at) {
			r.twice(entry, list)
			continue
		}
		h.Appointments = append(h.Appointments, at)
	}
	slices.Sort(h.Appointments)
}

package planfile

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// readZones reads the zones; the values are in the order of their ids.
func (r *reader) readZones(values []*yaml.Node) {
	r.plan.Zones = make([]schedule.Zone, len(values))
	for i, n := range values {
		z := &r.plan.Zones[i]
		z.ID, z.Name, z.Pos = r.zones.list[i], r.zones.list[i], r.zones.at[i]
		if it, ok := r.item(n, "zone "+z.ID, keys.Zone); ok {
			r.readZone(&it, z, i)
		} else {
			r.zones.doubt(i)
		}
	}
	for i := range r.plan.Zones {
		r.checkWayIn(schedule.ZoneID(i), values[i])
	}
	r.wayInRings()
}

func (r *reader) readZone(it *item, z *schedule.Zone, i int) {
	if it.has("name") {
		z.Name = it.words("name", maxName)
	}
	if it.has("people") {
		z.People = max(it.count("people", 1), 0)
	}
	before := r.fatal
	if z.OffSite = it.flag("off_site"); r.fatal > before {
		r.zones.doubt(i)
		return
	}
	if !z.OffSite {
		it.refuse("the site's hours hold there; only a zone with off_site: true has its own",
			"from", "hours", "hours_on", "closed")
		for _, w := range r.findAll(r.zones, it.get("way_in"), it.of("way_in")) {
			z.WayIn = append(z.WayIn, schedule.ZoneID(w))
		}
		return
	}
	r.readOffSite(it, z)
}

// readOffSite reads what only a place off site has.
func (r *reader) readOffSite(it *item, z *schedule.Zone) {
	it.refuse("a place off site is not reached through the plot", "way_in")
	it.require("from", "hours")
	z.From = it.moment("from")
	if site := r.plan.Site; z.From != 0 && site.Opens != 0 {
		switch {
		case z.From < site.Opens.Plus(-maxAhead):
			r.dates = r.dates[:len(r.dates)-1] // one fault is enough
			r.fault(posOf(it.get("from")), "check the year",
				"%s: %q lies more than 104 weeks before the gate opens", it.of("from"), it.get("from").Value)
		case site.Handover != 0 && z.From >= site.Handover:
			r.fault(posOf(it.get("from")), "start it before the hand-over",
				"%s: %q is not before the hand-over", it.of("from"), it.get("from").Value)
		}
	}
	before := r.fatal
	z.Hours, _ = it.hours()
	if it.has("hours") && r.fatal == before && never(z.Hours) {
		r.fault(posOf(it.get("hours")), "give the hours of at least one day", "%s never opens", it.name)
	}
}

// checkWayIn reports ways in through the zone itself and through places off
// site.
func (r *reader) checkWayIn(z schedule.ZoneID, n *yaml.Node) {
	zone := &r.plan.Zones[z]
	zone.WayIn = slices.DeleteFunc(zone.WayIn, func(w schedule.ZoneID) bool {
		of := label{"way_in", "zone " + zone.ID}
		switch {
		case w == z:
			r.fault(posOf(valueOf(n, "way_in")), "take it out", "%s names the zone itself", of)
		case r.plan.Zones[w].OffSite:
			r.fault(posOf(valueOf(n, "way_in")), "take it out", "%s names %q, which is off site", of, r.plan.Zones[w].ID)
		default:
			return false
		}
		return true
	})
}

// valueOf is the value of a key of a mapping, else the node itself.
func valueOf(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return n
}

// wayInRings reports rings of ways in, at their first zones, and cuts them.
func (r *reader) wayInRings() {
	for _, ring := range rings(len(r.plan.Zones), func(z int) []schedule.ZoneID { return r.plan.Zones[z].WayIn }) {
		ids := make([]string, 0, len(ring)+1)
		for _, z := range append(ring, ring[0]) {
			ids = append(ids, r.plan.Zones[z].ID)
		}
		r.fault(r.plan.Zones[ring[0]].Pos, "say which zone lies nearest the gate: it has no way_in",
			"the way in runs in a ring: %s", strings.Join(ids, ", "))
		r.plan.Zones[ring[0]].WayIn = nil
	}
}

func (r *reader) readCrews(values []*yaml.Node) {
	r.plan.Crews = make([]schedule.Crew, len(values))
	for i, n := range values {
		c := &r.plan.Crews[i]
		c.ID, c.Name, c.Pos = r.crews.list[i], r.crews.list[i], r.crews.at[i]
		if it, ok := r.item(n, "crew "+c.ID, keys.Crew); ok {
			r.readCrew(&it, c, i)
		} else {
			r.crews.doubt(i)
		}
	}
}

func (r *reader) readCrew(it *item, c *schedule.Crew, i int) {
	if it.has("name") {
		c.Name = it.words("name", maxName)
	}
	it.required()
	counted := r.readPeople(it, c)
	if !counted {
		r.crews.doubt(i)
	}
	before := r.fatal
	if h, own := it.hours(); own {
		c.Hours = &h
		if r.fatal == before && never(h) {
			r.fault(posOf(it.get("hours")), "give the hours of at least one day", "%s never works", it.name)
		}
	} else {
		c.HoursOn, c.Closed = h.On, h.Closed
	}
	r.readAway(it, c, counted)
	if it.has("rate") {
		c.Rate = max(it.money("rate"), 0)
	}
	r.readOvertime(it, c)
	c.Notice = r.readNotice(it)
	if it.has("turns_out") {
		chance := it.chance("turns_out")
		c.TurnsOut = &chance
	}
}

// readOvertime reads the rate of hours beyond the weekly ones.
func (r *reader) readOvertime(it *item, c *schedule.Crew) {
	if !it.has("overtime") {
		return
	}
	if !it.has("rate") {
		it.refuse("give its rate too", "overtime")
		return
	}
	c.Overtime = max(it.money("overtime"), 0)
	if c.Rate > 0 && c.Overtime > 0 && c.Overtime < c.Rate {
		r.fault(posOf(it.get("overtime")), "give what an hour costs in all, not what it costs more",
			"%s: %q is less than rate %q", it.of("overtime"), it.get("overtime").Value, it.get("rate").Value)
	}
}

// readNotice reads how long before something must be called to come at another
// time; nil when the plan doesn't say.
func (r *reader) readNotice(it *item) *calendars.Minutes {
	notice, ok := it.wait("notice")
	if !ok {
		return nil
	}
	return &notice
}

// readPeople reads the headcount of a crew; ok is false when it is not known.
func (r *reader) readPeople(it *item, c *schedule.Crew) (ok bool) {
	before := r.fatal
	c.People = max(it.count("people", 0), 0)
	of := it.of("people_on")
	for _, p := range r.entries(it.get("people_on"), maxList, of) {
		d, ok := r.date(p[0], of)
		heads := r.count(p[1], 0, label{"people on " + p[0].Value, it.name})
		if ok && heads >= 0 {
			c.PeopleOn = append(c.PeopleOn, schedule.PeopleOn{On: d, People: heads})
			r.said(r.wholeDay(d), p[0], of)
		}
	}
	slices.SortFunc(c.PeopleOn, func(a, b schedule.PeopleOn) int { return int(a.On) - int(b.On) })
	if r.fatal > before || !it.has("people") {
		return false
	}
	if crewMost(c) == 0 {
		r.fault(posOf(it.get("people")), "give people, or people_on for the dates it has some",
			"%s never has anybody", it.name)
		return false
	}
	return true
}

// crewMost is the most people that a crew ever has.
func crewMost(c *schedule.Crew) int {
	most := c.People
	for _, p := range c.PeopleOn {
		most = max(most, p.People)
	}
	return most
}

func (r *reader) readAway(crew *item, c *schedule.Crew, counted bool) {
	for _, entry := range r.list(crew.get("away"), crew.of("away")) {
		it, ok := r.item(entry, "an entry of away of "+crew.name, keys.Away)
		if !ok {
			continue
		}
		a := schedule.Away{All: !it.has("people")}
		if !a.All {
			a.People = it.count("people", 1)
			if most := crewMost(c); counted && a.People > most {
				r.fault(posOf(it.get("people")), "leave people out if all are away",
					"%d of %s are away, which has %d", a.People, crew.name, most)
			}
		}
		if it.has("on") {
			it.refuse("give either on, or from and to", "from", "to")
			d, dated := r.date(it.get("on"), it.of("on"))
			if ok = dated; ok {
				a.Span = r.wholeDay(d)
			}
		} else {
			a.Span, ok = it.fromTo()
		}
		if ok {
			c.Away = append(c.Away, a)
		}
	}
}

func (r *reader) readGivens(values []*yaml.Node) {
	r.plan.Givens = make([]schedule.Given, len(values))
	for i, n := range values {
		g := &r.plan.Givens[i]
		g.ID, g.What, g.Pos = r.givens.list[i], r.givens.list[i], r.givens.at[i]
		it, ok := r.item(n, "given "+g.ID, keys.Given)
		if !ok {
			continue
		}
		if it.has("what") {
			g.What = it.words("what", maxName)
		}
		it.required()
		g.From = it.moment("from")
	}
}

package plans

import (
	"fmt"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

func (w *writer) zone(z *schedule.Zone) string {
	kv := []string{"name", quoted(z.Name), "people", number(z.People), "way_in", inline(z.WayIn, w.zoneID)}
	if z.OffSite {
		kv = append(kv, "off_site", "true", "from", w.moment(z.From), "hours", week(&z.Hours.Weekly),
			"hours_on", named(z.Hours.On), "closed", w.closures(z.Hours.Closed))
	}
	return flow(kv...)
}

func (w *writer) zoneID(z schedule.ZoneID) string { return w.p.Zones[z].ID }

func (w *writer) crew(c *schedule.Crew) string {
	kv := []string{"name", quoted(c.Name), "people", strconv.Itoa(c.People)}
	if len(c.PeopleOn) > 0 {
		var on []string
		for _, p := range c.PeopleOn {
			on = append(on, p.On.String(), strconv.Itoa(p.People))
		}
		kv = append(kv, "people_on", flow(on...))
	}
	if c.Hours != nil {
		kv = append(kv, "hours", week(&c.Hours.Weekly), "hours_on", named(c.Hours.On), "closed", w.closures(c.Hours.Closed))
	} else {
		kv = append(kv, "hours_on", named(c.HoursOn), "closed", w.closures(c.Closed))
	}
	away := func(a schedule.Away) string {
		people := strconv.Itoa(a.People)
		if a.All {
			people = ""
		}
		return flow("from", w.moment(a.Span.Start), "to", w.moment(a.Span.End), "people", people)
	}
	kv = append(kv, "away", inline(c.Away, away), "rate", rate(c.Rate), "overtime", rate(c.Overtime),
		"notice", said(c.Notice))
	if c.TurnsOut != nil {
		kv = append(kv, "turns_out", decimal(*c.TurnsOut))
	}
	return flow(kv...)
}

func (w *writer) machine(m *schedule.Machine) string {
	return flow("name", quoted(m.Name), "count", strconv.Itoa(m.Count),
		"ours", inline(m.Ours, w.span), "places", strconv.Itoa(m.Places), "rate", rate(m.Rate),
		"hire", hire(m.Hire), "notice", said(m.Notice))
}

func hire(h *schedule.Hire) string {
	if h == nil {
		return ""
	}
	per := "day"
	if h.Per == calendars.Week {
		per = "week"
	}
	return flow("per", per, "rate", money(h.Rate), "least", length(h.Least), "bringing", rate(h.Bringing))
}

func (w *writer) needs(needs []schedule.CrewNeed) string {
	if len(needs) == 0 {
		return ""
	}
	var kv []string
	for _, n := range needs {
		heads := strconv.Itoa(n.Least)
		if n.Most != n.Least {
			heads = fmt.Sprintf("%d..%d", n.Least, n.Most)
		}
		kv = append(kv, w.p.Crews[n.Crew].ID, heads)
	}
	return flow(kv...)
}

func (w *writer) machineNeeds(needs []schedule.MachineNeed) string {
	if len(needs) == 0 {
		return ""
	}
	var kv []string
	for _, n := range needs {
		count := strconv.Itoa(n.Count)
		if n.Stands != nil {
			count = flow("count", count, "stands", w.zonesOf(n.Stands))
		}
		kv = append(kv, w.p.Machines[n.Machine].ID, count)
	}
	return flow(kv...)
}

func (w *writer) delivery(d *schedule.Delivery) string {
	unload := flow("takes", length(d.Unload.Takes),
		"crew", w.needs(d.Unload.Crew), "machines", w.machineNeeds(d.Unload.Machines))
	kv := []string{"what", quoted(d.What), "arrives", w.moment(d.Arrives),
		"unload", unload, "waits", length(d.Waits), "waiting_rate", rate(d.WaitingRate),
		"keep", some(d.Keep), "aged", some(d.Aged)}
	if m := d.Movable; m != nil {
		kv = append(kv, "movable", flow("earliest", w.moment(m.Earliest), "latest", w.moment(m.Latest)))
	}
	if l := d.Late; l != nil {
		kv = append(kv, "late", flow("chance", decimal(l.Chance), "likely", length(l.Likely), "worst", length(l.Worst)))
	}
	var desk []string
	for _, id := range d.OrderAfter {
		desk = append(desk, w.p.Desk[id].ID)
	}
	if len(desk) > 0 {
		kv = append(kv, "order_after", "["+strings.Join(desk, ", ")+"]")
	}
	return flow(append(kv, "order_ahead", some(d.OrderAhead), "out", flag(d.Out),
		"after", w.after(d.After, d.Givens), "notice", said(d.Notice))...)
}

func (w *writer) deskItem(d *schedule.DeskItem) string {
	by := ""
	switch ahead := length(d.By.Ahead) + " before "; {
	case d.By.On != 0:
		by = d.By.On.String()
	case d.By.Opening:
		by = ahead + "opening"
	case d.By.Delivery != schedule.None:
		by = ahead + w.p.Deliveries[d.By.Delivery].ID
	case d.By.Task != schedule.None:
		by = ahead + w.p.Tasks[d.By.Task].ID
	}
	who := ""
	if d.Who != "" {
		who = quoted(d.Who)
	}
	return flow("what", quoted(d.What), "kind", d.Kind, "who", who, "by", by)
}

func (w *writer) link(l schedule.Link) string {
	id := w.p.Tasks[l.From].ID
	kv := []string{"task", id}
	if l.Kind != schedule.FinishStart {
		kv = append(kv, "link", l.Kind.String())
	}
	switch l.Wait.Kind {
	case schedule.Lag:
		kv = append(kv, "lag", lag(l.Wait.Time))
	case schedule.Cure:
		kv = append(kv, "cure", length(l.Wait.Time))
	}
	if l.HasWithin {
		kv = append(kv, "within", length(l.Within))
	}
	if len(kv) == 2 {
		return id
	}
	return flow(kv...)
}

func (w *writer) rules() {
	if len(w.p.Rules) == 0 {
		return
	}
	w.line("rules:")
	for i := range w.p.Rules {
		w.line("  - %s", quoted(w.p.Rules[i].Text))
	}
}

func (w *writer) task(t *schedule.Task) string {
	kv := []string{"name", quoted(t.Name), "short", quoted(t.Short),
		"zone", w.zonesOf(t.Zones), "stage", w.p.Stages[t.Stage],
		"crew", w.needs(t.Crew), "machines", w.machineNeeds(t.Machines)}
	kv = append(kv, effort(t.Effort)...)
	if t.Spread != nil {
		kv = append(kv, "spread", flow("best", length(t.Spread.Best), "worst", length(t.Spread.Worst)))
	}
	kv = append(kv, "after", w.after(t.After, t.Givens),
		"uses", inline(t.Uses, func(d schedule.DeliveryID) string { return w.p.Deliveries[d].ID }),
		"cure", some(t.Cure), "unbroken", flag(t.Unbroken), "stays", flag(t.Stays),
		"loud", flag(t.Loud), "on_boards", flag(t.OnBoards),
		"closes_way_in", w.closing(t), "clears", inline(t.Clears, w.zoneID),
		"apart", inline(t.Apart, func(id schedule.TaskID) string { return w.p.Tasks[id].ID }),
		"weather", inline(weather(t.Weather), func(s string) string { return s }),
		"dries", said(t.Dries), "hazards", inline(t.Hazards, func(s string) string { return s }))
	kv = append(kv, "hold_point", w.holdPoint(t.Hold), "not_before", w.moment(t.NotBefore), "by", w.moment(t.By),
		"optional", flag(t.Optional), "drop_order", number(t.DropOrder))
	return flow(append(kv, "except", inline(t.Excepts, w.except),
		"done_when", quoted(t.DoneWhen), "note", quoted(t.Note))...)
}

func (w *writer) zonesOf(zones []schedule.ZoneID) string {
	if len(zones) == 1 {
		return w.zoneID(zones[0])
	}
	return inline(zones, w.zoneID)
}

func (w *writer) holdPoint(h *schedule.HoldPoint) string {
	if h == nil {
		return ""
	}
	fails := ""
	if h.Fails != nil {
		fails = flow("chance", decimal(h.Fails.Chance), "right", length(h.Fails.Right))
	}
	return flow("what", quoted(h.What), "takes", some(h.Takes), "on_the_clock", flag(h.OnTheClock),
		"by_appointment", inline(h.Appointments, w.moment), "notice", said(h.Notice), "fails", fails)
}

// after lists what an activity follows: links, then givens.
func (w *writer) after(links []schedule.Link, givens []schedule.GivenID) string {
	var parts []string
	for _, l := range links {
		parts = append(parts, w.link(l))
	}
	for _, g := range givens {
		parts = append(parts, w.p.Givens[g].ID)
	}
	return inline(parts, func(s string) string { return s })
}

func effort(e schedule.Effort) []string {
	switch {
	case e.Num == 0:
		return []string{"takes", length(e.Takes)}
	case e.Amount != "":
		return []string{"amount", e.Amount, "rate", e.Rate}
	}
	return []string{"person_hours", decimal(float64(e.Num) / float64(e.Den) / 60)}
}

// closing writes what a task does to the way in, unless its stage implies it.
func (w *writer) closing(t *schedule.Task) string {
	turf := w.p.Stages[t.Stage] == "turf"
	switch {
	case t.Closes.Timed:
		return length(t.Closes.For)
	case t.Closes.Orders && !turf:
		return "true"
	case turf && !t.Closes.Orders:
		return "false"
	}
	return ""
}

func weather(w schedule.Weather) []string {
	var out []string
	for i, name := range []string{"dry", "calm", "mild"} {
		if w&(1<<i) != 0 {
			out = append(out, name)
		}
	}
	return out
}

func (w *writer) except(e schedule.Except) string {
	rule := "way in"
	if e.Rule != schedule.WayIn {
		rule = w.p.Rules[e.Rule].Text
	}
	return flow("rule", quoted(rule), "why", quoted(e.Why))
}

func (w *writer) measures() {
	if len(w.p.Measures) == 0 {
		return
	}
	w.line("measures:")
	for i := range w.p.Measures {
		m := &w.p.Measures[i]
		kv := append(w.measure(m), "cost", money(m.Cost), "why", quoted(m.Why))
		w.line("  - %s", strings.TrimSpace(flow(kv...)))
	}
}

func (w *writer) measure(m *schedule.Measure) []string {
	switch {
	case m.Longer != nil:
		end := fmt.Sprintf("%02d:%02d", m.Longer.To/60, m.Longer.To%60)
		return []string{"longer", flow("on", m.Longer.On.String(), "to", end)}
	case m.People != nil:
		return []string{"people", w.needs(m.People.Crew), "on", inline(m.People.On, calendars.Date.String)}
	case m.Machine != nil:
		return []string{"machine", w.p.Machines[m.Machine.Machine].ID, "span", w.span(m.Machine.Span)}
	case m.Earlier != nil:
		return []string{"earlier", w.p.Deliveries[m.Earlier.Delivery].ID, "by", length(m.Earlier.By)}
	case m.Overlap != nil:
		return []string{"overlap", fmt.Sprintf("[%s, %s]", w.p.Tasks[m.Overlap.First].ID, w.p.Tasks[m.Overlap.Second].ID),
			"by", length(m.Overlap.By)}
	}
	return []string{"drop", w.p.Tasks[m.Drop].ID}
}

func (w *writer) answers() {
	if len(w.p.Answers) == 0 {
		return
	}
	w.line("answered:")
	for i := range w.p.Answers {
		a := &w.p.Answers[i]
		about := inline(a.About, func(id string) string { return id })
		w.line("  - %s", strings.TrimSpace(flow("asked", a.Asked, "about", about, "why", quoted(a.Why))))
	}
}

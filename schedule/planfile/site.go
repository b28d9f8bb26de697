package planfile

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
	"build.example/turflast/calendars/zones"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// What messages call the site and its gate.
const (
	theSite = "the site"
	theGate = "the gate"
)

func (r *reader) readSite(n *yaml.Node) {
	it, ok := r.item(n, theSite, keys.Site)
	if !ok {
		return
	}
	site := &r.plan.Site
	it.required()
	r.readTimezone(it.get("timezone"), it.of("timezone"))
	site.Opens, site.Handover, site.Aim = it.moment("opens"), it.moment("handover"), it.moment("aim")
	r.checkWindow(&it)
	r.readHolidays(&it)
	before := r.fatal
	site.Hours, _ = it.hours()
	r.siteHoursAt = it.get("hours")
	if it.has("hours") && r.fatal == before && never(site.Hours) {
		r.fault(posOf(it.get("hours")), "give the hours of at least one day", "the site never opens")
	}
	if n := it.get("loud_hours"); n != nil {
		loud, ok := r.weekly(n, it.of("loud_hours"))
		site.Loud = &loud
		if ok && never(calendars.Hours{Weekly: loud}) {
			r.fault(posOf(n), "give the hours of at least one day", "loud work may never be done")
		}
	}
	r.readGate(it.get("gate"))
	r.readWetDays(it.get("wet_days"))
	r.readWindyDays(it.get("windy_days"))
}

func (r *reader) readTimezone(n *yaml.Node, of label) {
	s, ok := r.plain(n, of)
	if !ok {
		return
	}
	loc, err := zones.Load(s)
	if err != nil {
		hint := "write a name of the tz database, like Europe/London"
		if near := r.nearest(s, timezones()); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		r.fault(posOf(n), hint, "unknown timezone %s", quote(s))
		return
	}
	r.plan.Site.Location = loc
}

// checkWindow checks opens, aim and handover against each other.
func (r *reader) checkWindow(it *item) {
	site := &r.plan.Site
	at := func(key string) schedule.Pos { return posOf(it.get(key)) }
	if site.Opens == 0 || site.Handover == 0 {
		return
	}
	if site.Handover <= site.Opens {
		r.fault(at("handover"), "the gate opens first", "the hand-over %q is not after the opening %q",
			it.get("handover").Value, it.get("opens").Value)
		site.Opens, site.Handover = 0, 0
		return
	}
	if site.Handover > site.Opens.Plus(maxWindow) {
		r.fault(at("handover"), "one plan serves one window; split it", "the window is longer than 26 weeks")
	}
	if site.Aim != 0 && (site.Aim <= site.Opens || site.Aim > site.Handover) {
		r.fault(at("aim"), "set it between the opening and the hand-over or leave it out",
			"the aim %q lies outside the window", it.get("aim").Value)
	}
}

// readHolidays fills the sorted list of holidays: the region's, with days
// added and dropped.
func (r *reader) readHolidays(it *item) {
	list := r.regionHolidays(it.get("holidays"), it.of("holidays"))
	of := it.of("holidays_drop")
	for _, entry := range r.list(it.get("holidays_drop"), of) {
		d, ok := r.date(entry, of)
		if !ok {
			continue
		}
		k := slices.IndexFunc(list, func(h schedule.Holiday) bool { return h.On == d })
		if k < 0 {
			if !r.holidaysUnknown {
				r.fault(posOf(entry), "take it out; `turflast holidays` lists the dates", "%s: %s is no holiday here", of, d)
			}
			continue
		}
		list = slices.Delete(list, k, k+1)
	}
	for _, entry := range r.list(it.get("holidays_add"), it.of("holidays_add")) {
		add, ok := r.item(entry, "an entry of holidays_add", keys.HolidayAdd)
		if !ok {
			continue
		}
		add.required()
		why := add.words("why", maxText)
		d, ok := r.date(add.get("on"), add.of("on"))
		if !ok {
			continue
		}
		if k := slices.IndexFunc(list, func(h schedule.Holiday) bool { return h.On == d }); k >= 0 {
			if list[k].From == 0 {
				r.fault(posOf(add.get("on")), "take it out", "%s is a holiday already: %s", d, list[k].Name)
				continue
			}
			list = slices.Delete(list, k, k+1)
		}
		list = append(list, schedule.Holiday{On: d, Name: why})
	}
	slices.SortFunc(list, func(a, b schedule.Holiday) int { return cmp.Compare(a.On, b.On) })
	r.plan.Site.Holidays = list
}

// regionHolidays are the holidays of a region in every year that the plan may
// reach.
func (r *reader) regionHolidays(n *yaml.Node, of label) []schedule.Holiday {
	if n == nil {
		return nil
	}
	r.holidaysUnknown = true
	s, ok := r.plain(n, of)
	if !ok {
		return nil
	}
	r.plan.Site.Region = s
	if !holidays.Known(s) {
		r.unknownRegion(s, posOf(n))
		return nil
	}
	site := &r.plan.Site
	if site.Opens == 0 || site.Handover == 0 || site.Location == nil {
		return nil
	}
	r.holidaysUnknown = false
	first, _, _ := calendars.DateIn(site.Opens.Plus(-maxAhead-maxBefore), site.Location).Civil()
	last, _, _ := calendars.DateIn(site.Handover.Plus(maxAfter), site.Location).Civil()
	var list []schedule.Holiday
	for year := max(first, holidays.Earliest); year <= min(last, holidays.Latest); year++ {
		days, err := holidays.Of(s, year)
		if err != nil {
			r.fault(posOf(n), "", "%s: %v", of, err)
			return nil
		}
		for _, d := range days {
			list = append(list, schedule.Holiday{On: d.On, From: d.From, Name: d.Name})
		}
	}
	return list
}

func (r *reader) unknownRegion(s string, at schedule.Pos) {
	hint := "write a code of ISO 3166, like GB-ENG; `turflast holidays` lists those known"
	var unknown *holidays.Unknown
	if _, err := holidays.Of(s, holidays.First); errors.As(err, &unknown) && len(unknown.Near) > 0 {
		hint = "did you mean " + strings.Join(unknown.Near, ", ") + "?"
	}
	r.fault(at, hint, "no public holidays are known for the region %s", quote(s))
}

func (r *reader) readGate(n *yaml.Node) {
	it, ok := r.item(n, theGate, keys.Gate)
	if !ok {
		return
	}
	it.required()
	g := &schedule.Gate{AtOnce: it.count("at_once", 1)}
	if !it.has("hours") {
		it.refuse("give the gate hours of its own first; without them it keeps the site's", "hours_on", "closed")
		r.plan.Site.Gate = g
		return
	}
	before := r.fatal
	h, _ := it.hours()
	if r.fatal == before && never(h) {
		r.fault(posOf(it.get("hours")), "give the hours of at least one day", "the gate never opens")
	}
	g.Hours = &h
	r.plan.Site.Gate = g
}

func (r *reader) readWetDays(n *yaml.Node) {
	it, ok := r.item(n, "wet_days", keys.WetDays)
	if !ok {
		return
	}
	it.required()
	wet := &schedule.WetDays{AfterDry: it.chance("after_dry"), AfterWet: it.chance("after_wet")}
	wet.Dries, _ = it.work("dries")
	r.plan.Site.Wet = wet
}

func (r *reader) readWindyDays(n *yaml.Node) {
	it, ok := r.item(n, "windy_days", keys.WindyDays)
	if !ok {
		return
	}
	it.required()
	r.plan.Site.Windy = &schedule.WindyDays{AfterCalm: it.chance("after_calm"), AfterWindy: it.chance("after_windy")}
}

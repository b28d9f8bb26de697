package plans

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// YAML writes a plan as a plan file that reads back as the same plan. It writes
// the holidays one by one, so the plan may have no region; all of them must be
// whole days.
func YAML(p *schedule.Plan) string {
	w := &writer{p: p}
	w.head()
	w.site()
	w.list("zones", len(p.Zones), func(i int) (string, string) { return p.Zones[i].ID, w.zone(&p.Zones[i]) })
	w.list("crews", len(p.Crews), func(i int) (string, string) { return p.Crews[i].ID, w.crew(&p.Crews[i]) })
	w.list("machines", len(p.Machines),
		func(i int) (string, string) { return p.Machines[i].ID, w.machine(&p.Machines[i]) })
	w.list("givens", len(p.Givens), func(i int) (string, string) {
		return p.Givens[i].ID, flow("what", quoted(p.Givens[i].What), "from", w.moment(p.Givens[i].From))
	})
	w.list("desk", len(p.Desk), func(i int) (string, string) { return p.Desk[i].ID, w.deskItem(&p.Desk[i]) })
	w.list("deliveries", len(p.Deliveries),
		func(i int) (string, string) { return p.Deliveries[i].ID, w.delivery(&p.Deliveries[i]) })
	w.rules()
	w.list("daily", len(p.Duties), func(i int) (string, string) {
		d := &p.Duties[i]
		return d.ID, flow("crew", w.needs(d.Crew), "at", hoursText([]calendars.Range{d.At}),
			"from", d.From.String(), "to", d.To.String())
	})
	w.list("tasks", len(p.Tasks), func(i int) (string, string) { return p.Tasks[i].ID, w.task(&p.Tasks[i]) })
	w.measures()
	w.answers()
	return w.b.String()
}

type writer struct {
	p *schedule.Plan
	b strings.Builder
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.b, format+"\n", args...) }

// list writes a map of named things, one a line.
func (w *writer) list(key string, n int, item func(int) (id, text string)) {
	if n == 0 {
		return
	}
	w.line("%s:", key)
	for i := range n {
		id, text := item(i)
		w.line("  %s: %s", id, text)
	}
}

// flow writes a map of keys and values on one line, leaving out empty values.
func flow(keysAndValues ...string) string {
	var parts []string
	for i := 0; i < len(keysAndValues); i += 2 {
		if keysAndValues[i+1] != "" {
			parts = append(parts, keysAndValues[i]+": "+keysAndValues[i+1])
		}
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// inline writes a list on one line; empty for none.
func inline[T any](items []T, text func(T) string) string {
	if len(items) == 0 {
		return ""
	}
	var parts []string
	for _, item := range items {
		parts = append(parts, text(item))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

var simple = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 '.-]*$`)

// quoted writes words, in quotes where YAML may take them for something else.
func quoted(s string) string {
	switch strings.ToLower(s) {
	case "":
		return ""
	case "true", "false", "null", "yes", "no", "on", "off", "y", "n":
		return strconv.Quote(s)
	}
	if simple.MatchString(s) {
		return s
	}
	return strconv.Quote(s)
}

func flag(b bool) string {
	if b {
		return "true"
	}
	return ""
}

// number writes a count, empty for zero.
func number(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// some writes a length, empty for zero.
func some(n calendars.Minutes) string {
	if n == 0 {
		return ""
	}
	return length(n)
}

// said writes a length that may be left unsaid.
func said(n *calendars.Minutes) string {
	if n == nil {
		return ""
	}
	return length(*n)
}

// lag writes a length that may be negative.
func lag(n calendars.Minutes) string {
	if n < 0 {
		return "-" + length(-n)
	}
	return length(n)
}

func (w *writer) moment(t calendars.Instant) string {
	if !t.IsReal() {
		return ""
	}
	return t.In(w.p.Site.Location).Format("2006-01-02 15:04")
}

func (w *writer) span(s calendars.Span) string { return w.moment(s.Start) + " to " + w.moment(s.End) }

func money(m schedule.Money) string {
	if m%100 == 0 {
		return strconv.FormatInt(int64(m/100), 10)
	}
	return fmt.Sprintf("%d.%02d", m/100, m%100)
}

func rate(m schedule.Money) string {
	if m == 0 {
		return ""
	}
	return money(m)
}

// hoursText writes the ranges of a day.
func hoursText(ranges []calendars.Range) string {
	if len(ranges) == 0 {
		return "closed"
	}
	var parts []string
	for _, r := range ranges {
		parts = append(parts, fmt.Sprintf("%02d:%02d-%02d:%02d", r.From/60, r.From%60, r.To/60, r.To%60))
	}
	return strings.Join(parts, " ")
}

func week(h *calendars.WeekHours) string {
	if h == nil {
		return ""
	}
	var kv []string
	for i := range 7 {
		day := time.Weekday((i + 1) % 7)
		kv = append(kv, strings.ToLower(day.String()[:3]), hoursText(h[day]))
	}
	return flow(kv...)
}

func named(on []calendars.DayHours) string {
	if len(on) == 0 {
		return ""
	}
	var kv []string
	for _, o := range on {
		kv = append(kv, o.On.String(), hoursText(o.Ranges))
	}
	return flow(kv...)
}

func (w *writer) closures(closed []calendars.Closure) string {
	return inline(closed, func(c calendars.Closure) string {
		return flow("from", w.moment(c.Span.Start), "to", w.moment(c.Span.End), "why", quoted(c.Why))
	})
}

func (w *writer) head() {
	w.line("garden: %s", quoted(w.p.Garden))
	if w.p.Currency != "" {
		w.line("currency: %s", w.p.Currency)
	}
	if own := w.p.Stages[len(schedule.BuiltInStages()):]; len(own) > 0 {
		w.line("stages: [%s]", strings.Join(own, ", "))
	}
}

func (w *writer) site() {
	s := &w.p.Site
	w.line("site:")
	field := func(key, value string) {
		if value != "" {
			w.line("  %s: %s", key, value)
		}
	}
	field("timezone", s.Location.String())
	field("opens", w.moment(s.Opens))
	field("handover", w.moment(s.Handover))
	field("aim", w.moment(s.Aim))
	field("holidays_add", inline(s.Holidays, func(h schedule.Holiday) string {
		return flow("on", h.On.String(), "why", quoted(h.Name))
	}))
	field("hours", week(&s.Hours.Weekly))
	field("hours_on", named(s.Hours.On))
	field("closed", w.closures(s.Hours.Closed))
	field("loud_hours", week(s.Loud))
	if g := s.Gate; g != nil {
		kv := []string{"at_once", number(g.AtOnce)}
		if g.Hours != nil {
			kv = append(kv, "hours", week(&g.Hours.Weekly), "hours_on", named(g.Hours.On), "closed", w.closures(g.Hours.Closed))
		}
		field("gate", flow(kv...))
	}
	if wet := s.Wet; wet != nil {
		field("wet_days", flow("after_dry", decimal(wet.AfterDry),
			"after_wet", decimal(wet.AfterWet), "dries", length(wet.Dries)))
	}
	if wind := s.Windy; wind != nil {
		field("windy_days", flow("after_calm", decimal(wind.AfterCalm), "after_windy", decimal(wind.AfterWindy)))
	}
}

func decimal(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

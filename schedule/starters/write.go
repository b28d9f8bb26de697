package starters

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
)

// writer collects the text of a plan.
type writer struct {
	strings.Builder
	g *Garden
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

// Text is the plan of a garden.
func Text(g *Garden) string {
	w := &writer{g: g}
	works := g.works()
	w.head()
	w.site()
	if own := ownStages(works); len(own) > 0 {
		w.line("\nstages: %s   # besides those that every plan has", list(own))
	}
	w.zones(works)
	w.crews(works)
	w.machines(works)
	w.givens()
	w.desk(works)
	w.deliveries()
	w.rules(works)
	w.daily()
	w.tasks()
	return w.String()
}

func (w *writer) head() {
	ground := "ground that may be dug"
	if w.g.Ground == Protected {
		ground = "protected ground: nothing is dug, all stands on boards, fleece or ballast"
	}
	w.line("# A first plan to change line by line, on %s.", ground)
	w.line("#")
	for _, e := range w.g.Elements {
		w.line("#     %-12s %s", e.Name, e.Measure())
	}
	w.line("#")
	w.line(`# Above each task and lorry stands where its figures come from; "from memory" is what
# people of the trade remember, "a guess" is one. Put your own in their place, take out
# what you don't build, and run "turflast check" after each change.
garden: %s
currency: %s`, quoted(w.g.Name), w.g.Place.Currency)
}

// inHand is how long before the hand-over a plan aims to be done.
const inHand = 2 * calendars.Hour

func (w *writer) site() {
	g := w.g
	guess := func(what string) string {
		if slices.Contains(g.Guessed, what) {
			return "   # a guess: nobody gave it"
		}
		return ""
	}
	w.line("\nsite:")
	w.line("  timezone: %s%s", g.Place.Zone, guess("region"))
	w.line("  opens: %s%s", g.moment(g.Opens), guess("dates"))
	w.line("  handover: %s%s", g.moment(g.Handover), guess("dates"))
	if aim := g.Handover.Plus(-inHand); aim > g.Opens.Plus(calendars.Day) {
		w.line("  aim: %s   # a guess: two hours in hand", g.moment(aim))
	}
	if g.Place.Region != "" {
		w.line("  holidays: %s%s", g.Place.Region, guess("region"))
	}
	why := ""
	if !g.hoursSaid() {
		why = "   # a guess: 45 h a week is inside guidance on fatigue"
	}
	w.line("  hours: {%s}%s", calendars.FormatWeek(g.week()), why)
	w.line("  gate: {at_once: 1, hours: {%s}}   # a guess: ask for the gate's hours and book slots",
		calendars.FormatWeek(g.gateWeek()))
	w.line("  wet_days: {after_dry: 0.3, after_wet: 0.5, dries: 2h}   # a guess: look up the month's rain where you build")
	w.line("  windy_days: {after_calm: 0.1, after_windy: 0.3}   # a guess")
}

func (w *writer) zones(works []work) {
	w.line("\n# From the rear to the gate. How many can work in a zone at once is a guess.")
	w.line("zones:")
	for _, z := range parts {
		if !slices.Contains(w.g.plot(), z.id) {
			continue
		}
		way := ""
		if over := w.g.wayIn(z.id); over != "" {
			way = ", way_in: [" + over + "]"
		}
		w.line("  %s: {name: %s, people: 8%s}", z.id, z.name, way)
	}
	if has(works, yard) {
		from := calendars.DateIn(w.g.Opens, w.g.Place.Location) - 28
		for from.Weekday() != 1 {
			from--
		}
		w.line("  yard: {name: Our yard, off_site: true, from: %s 08:00, hours: {mon-fri: 08:00-17:00}}"+
			"   # a guess: four weeks ahead", from)
	}
}

func (w *writer) crews(works []work) {
	w.line("\n# Add `rate: 40` to count the cost of a person-hour.")
	w.line("crews:")
	for _, c := range crews {
		if !slices.ContainsFunc(works, func(t work) bool { return t.crew == c.id }) {
			continue
		}
		guess := ""
		if _, given := w.g.Crews[c.id]; !given {
			guess = "   # a guess"
		}
		w.line("  %s: {name: %s, people: %d}%s", c.id, c.name, w.g.heads(c.id), guess)
	}
}

var machineLines = []struct{ id, text string }{
	{"digger", "  digger: {name: Mini digger, count: 1, places: 2}"},
	{"telehandler", "  telehandler: {name: Telehandler, count: 1, places: 2}"},
	{"crane", "  crane: {name: Crane with its driver, count: 1, places: 1}"},
}

func (w *writer) machines(works []work) {
	w.line("\n# Each is there in all hours, which is a guess: write `ours: [2027-05-10 07:30 to 2027-05-11 12:00]`\n" +
		"# once you have its slots; \"turflast plan --bookings\" says which to ask for.")
	w.line("machines:")
	for _, m := range machineLines {
		used := slices.ContainsFunc(works, func(t work) bool { return t.machine == m.id }) ||
			w.g.Arrivals != nil && slices.ContainsFunc(w.g.lorries(), func(l lorry) bool { return l.machine == m.id })
		if used {
			w.line("%s", m.text)
		}
	}
}

func (w *writer) givens() {
	second := w.g.workday(calendars.DateIn(w.g.Opens, w.g.Place.Location)+1, 1)
	var lines []string
	if w.g.needs("power") {
		lines = append(lines, fmt.Sprintf("  power: {what: mains live at the plot, from: %s 12:00}"+
			"   # a guess: it often comes late", second))
	}
	if w.g.needs("mains-water") {
		lines = append(lines, fmt.Sprintf("  mains-water: {what: stand pipe at the plot, from: %s}   # a guess",
			w.g.moment(w.g.Opens)))
	}
	if len(lines) > 0 {
		w.line("\ngivens:\n%s", strings.Join(lines, "\n"))
	}
}

func (w *writer) rules(works []work) {
	w.line("\n# What always holds, zone by zone or everywhere. Turf closes its way in without a rule.")
	w.line("rules:")
	for _, l := range ruleLines(works) {
		w.line("  - %s", l)
	}
}

func (w *writer) tasks() {
	w.line("\ntasks:")
	opening := w.g.opening()
	w.block("Setting up", opening)
	all := opening
	for _, e := range w.g.Elements {
		p := e.sized(w.g.Ground)
		w.block(e.Title(), p.works)
		all = append(all, p.works...)
	}
	w.block("Clearing and handing over", w.g.closing(all))
}

func (w *writer) block(title string, works []work) {
	w.line("  # %s", title)
	for _, t := range works {
		w.line("  # - %s", w.g.whyOf(t))
		w.line("  %s: {%s}", t.id, w.g.task(t))
	}
	w.line("")
}

// task is a task as a plan has it, between its braces.
func (g *Garden) task(t work) string {
	f := &fields{}
	f.add("name", quoted(t.name))
	f.add("zone", t.zone)
	f.add("stage", t.stage)
	f.add("crew", fmt.Sprintf("{%s: %s}", t.crew, g.need(t)))
	if t.machine != "" {
		f.add("machines", "{"+t.machine+": 1}")
	}
	g.effort(f, t)
	if len(t.after) > 0 {
		f.add("after", list(t.after))
	}
	if len(t.uses) > 0 && g.Arrivals != nil {
		f.add("uses", list(t.uses))
	}
	f.add("cure", t.cure)
	f.listed("weather", t.weather)
	f.listed("hazards", t.hazards)
	if t.clears {
		f.add("clears", "["+g.wayIn(t.zone)+"]")
	}
	f.hold(t.hold)
	if t.more != "" {
		f.all = append(f.all, t.more)
	}
	return strings.Join(f.all, ", ")
}

// effort says how much work a task is.
func (g *Garden) effort(f *fields, t work) {
	switch {
	case t.amount > 0:
		rate := g.rate(t)
		f.add("amount", figure(t.amount)+" "+t.unit)
		f.add("rate", strconv.FormatFloat(rate, 'f', -1, 64)+" "+t.unit+"/person-hour")
		if t.spread {
			f.add("spread", spreadOf(tenths(t.amount)/rate*60/float64(t.least)))
		}
	case t.hours > 0:
		f.add("person_hours", figure(t.hours))
		if t.spread {
			f.add("spread", spreadOf(tenths(t.hours)*60/float64(t.least)))
		}
	default:
		f.add("takes", t.takes)
	}
}

// need are the heads of a task, no more than its crew has.
func (g *Garden) need(t work) string {
	most := min(t.most, g.heads(t.crew))
	if most <= t.least {
		return strconv.Itoa(t.least)
	}
	return fmt.Sprintf("%d..%d", t.least, most)
}

// fields are the keys of a mapping on one line.
type fields struct{ all []string }

func (f *fields) add(key, value string) {
	if value != "" {
		f.all = append(f.all, key+": "+value)
	}
}

func (f *fields) listed(key, values string) {
	if values != "" {
		f.add(key, "["+values+"]")
	}
}

// hold adds a hold point, which is a mapping or words.
func (f *fields) hold(point string) {
	switch {
	case strings.HasPrefix(point, "{"):
		f.add("hold_point", point)
	case point != "":
		f.add("hold_point", quoted(point))
	}
}

// Title is an element's name and size, as a heading has them.
func (c Chosen) Title() string {
	name := strings.ReplaceAll(c.Name, "-", " ")
	return strings.ToUpper(name[:1]) + name[1:] + ", " + c.Measure()
}

// Measure is an element's size with its unit: one of what is counted in the singular.
func (c Chosen) Measure() string { return counted(c.Size, cmp.Or(c.one, c.Unit), c.Unit) }

// counted is a number of things, by the words for one and for several.
func counted(n float64, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return figure(n) + " " + many
}

// figure writes a number with at most one decimal place, or two below one.
func figure(f float64) string {
	return strconv.FormatFloat(tenths(f), 'f', -1, 64)
}

func tenths(f float64) float64 {
	if f < 1 {
		return math.Max(math.Round(f*100)/100, 0.01)
	}
	return math.Round(f*10) / 10
}

// spreadOf guesses the best and the worst of a time in minutes.
func spreadOf(likely float64) string {
	best := math.Max(5, math.Floor(likely*0.8/5)*5)
	worst := math.Ceil(likely*1.5/15+1) * 15
	if best > likely {
		return ""
	}
	return fmt.Sprintf("{best: %s, worst: %s}", span(best), span(worst))
}

// span writes minutes as 1h30m.
func span(minutes float64) string {
	m := int(math.Round(minutes))
	switch h := m / 60; {
	case h == 0:
		return fmt.Sprintf("%dm", m)
	case m%60 == 0:
		return fmt.Sprintf("%dh", h)
	default:
		return fmt.Sprintf("%dh%dm", h, m%60)
	}
}

// list writes names as a list.
func list(names []string) string { return "[" + strings.Join(names, ", ") + "]" }

// stages writes stages or zones: one alone without brackets.
func stages(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return list(names)
}

// share says whether two lists of zones have one in common.
func share(a, b string) bool {
	others := strings.FieldsFunc(b, separates)
	return slices.ContainsFunc(strings.FieldsFunc(a, separates), func(z string) bool { return slices.Contains(others, z) })
}

func separates(r rune) bool { return strings.ContainsRune("[], ", r) }

// quoted is a text as YAML takes it inside a mapping.
func quoted(s string) string {
	if strings.ContainsAny(s, ",:#{}[]\"'&*!|>%@`\\?-") || s != strings.TrimSpace(s) || s == "" || !letter(s[0]) {
		return strconv.Quote(s)
	}
	return s
}

// Quoted is a text as YAML on one line, in quotes where it would be read as anything else: of
// people's own words, which may be those of YAML.
func Quoted(s string) string {
	if strings.Contains(s, "~") ||
		slices.Contains([]string{"y", "n", "yes", "no", "on", "off", "true", "false", "null"}, strings.ToLower(s)) {
		return strconv.Quote(s)
	}
	return quoted(s)
}

func letter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= 0x80 }

// moment is a moment as plans write it.
func (g *Garden) moment(t calendars.Instant) string {
	return t.In(g.Place.Location).Format("2006-01-02 15:04")
}

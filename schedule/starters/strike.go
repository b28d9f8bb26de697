package starters

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// undoing is what is done to take away the work of some stages, in the order in which that
// goes: what was done last comes out first.
type undoing struct {
	id, name, hazards string
	stages            []string
	share             float64 // of the person-hours that it took to build, a guess
}

var undoings = []undoing{
	{"fittings", "Take out lights, lines and fittings", "electricity, water", []string{"second-fix", "first-fix",
		"finishes"}, 0.3},
	{"plants", "Lift the plants for their new homes", "handling", []string{"planting", "trees", "mulch"}, 0.5},
	{"turf", "Lift the turf", "handling", []string{"turf"}, 0.5},
	{"standing", "Take down what stands", "height, structures, handling", []string{"cladding", "structure"}, 0.4},
	{id: "lifted", name: "Lift out what was lifted in", hazards: "lifting, vehicles", share: 0.5},
	{"surfaces", "Lift the hard surfaces", "handling, noise", []string{"paving"}, 0.4},
	{"ground", "Fill and make the ground good", "handling, vehicles", []string{"groundworks", "soil", "protection"}, 0.4},
}

// Strike is the taking down of a garden: a plan of its own, in a window of its own.
type Strike struct {
	Garden
	of      *schedule.Plan
	tasks   []work
	lorries []outgoing
}

// outgoing is a lorry that takes something away after some tasks.
type outgoing struct {
	id, what, why string
	after         []string
}

// StrikeOf is what it takes to take a garden down again, in the window of g, whose elements
// aren't used. The error is that of a plan with nothing on site, or nobody.
func StrikeOf(p *schedule.Plan, g Garden) (*Strike, error) {
	s := &Strike{Garden: g, of: p}
	if len(s.onSite()) == 0 || len(p.Crews) == 0 {
		return nil, errors.New("there is no zone on site, or no crew, to take anything down")
	}
	s.Crews = make(map[string]int, len(p.Crews))
	for _, c := range p.Crews {
		s.Crews[c.ID] = max(c.People, 1) // one with dated people alone is asked for one
	}
	everyone := s.usual()
	zones := s.onSite()
	s.tasks = []work{{id: "dead", name: "Power and water off, induction", stage: "protection",
		zone:  zones[len(zones)-1],
		crew:  everyone,
		least: 1, takes: "1h", hazards: "electricity, water", hold: "electrician signs that all is dead",
		why: "time: a guess"}}
	last := map[string]string{}
	for _, u := range undoings {
		for _, z := range zones {
			s.undo(u, z, last)
		}
	}
	s.passOut(last)
	var ends []string
	for _, z := range zones {
		ends = append(ends, last[z])
	}
	ends = slices.DeleteFunc(ends, func(id string) bool { return id == "" })
	s.tasks = append(s.tasks, work{id: "walk", name: "Walk the ground with its owner", stage: "clean",
		zone: zones[len(zones)-1],
		crew: everyone, least: 1, takes: "1h", after: slices.Compact(ends), hold: "owner signs that the ground is made good",
		why: "time: a guess"})
	s.collect(ends)
	return s, nil
}

// onSite are the zones of the plot, those with most others on their way out first; of equals
// as the plan has them.
func (s *Strike) onSite() (out []string) {
	deep := make(map[string]int, len(s.of.Zones))
	for i, z := range s.of.Zones {
		if !z.OffSite {
			deep[z.ID] = s.depth(schedule.ZoneID(i), len(s.of.Zones))
			out = append(out, z.ID)
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { return deep[b] - deep[a] })
	return out
}

// depth is how many zones are crossed to leave one; at most so many, whatever a plan says.
func (s *Strike) depth(z schedule.ZoneID, most int) (deep int) {
	if most == 0 {
		return 0
	}
	for _, over := range s.of.Zones[z].WayIn {
		deep = max(deep, 1+s.depth(over, most-1))
	}
	return deep
}

// usual is the crew with the most people on a usual day.
func (s *Strike) usual() string {
	best := 0
	for i, c := range s.of.Crews {
		if c.People > s.of.Crews[best].People {
			best = i
		}
	}
	return s.of.Crews[best].ID
}

// undo adds what takes the work of some stages in a zone away, after what took away the rest
// there before it.
func (s *Strike) undo(u undoing, zone string, last map[string]string) {
	if u.id == "lifted" {
		s.liftOut(u, zone, last)
		return
	}
	hours, crew := s.built(u, zone)
	if hours == 0 {
		return
	}
	w := work{id: u.id + "-" + zone, name: u.name + ": " + s.zoneName(zone), stage: "strike", zone: zone, crew: crew,
		machine: s.machine(u, zone),
		least:   1,
		most:    3, hours: math.Max(1, math.Round(hours*u.share*2)/2), hazards: u.hazards, after: []string{"dead"},
		why: fmt.Sprintf("time: a guess, %.0f %% of the person-hours that it took to build", 100*u.share)}
	if u.id == "standing" || u.id == "ground" { // what shows how it was built only then
		w.least, w.most, w.spread = min(2, s.heads(crew)), 0, true
	}
	s.add(w, last)
}

// add adds a task after the last one of its zone.
func (s *Strike) add(w work, last map[string]string) {
	if before := last[w.zone]; before != "" {
		w.after = []string{before}
	}
	s.tasks, last[w.zone] = append(s.tasks, w), w.id
}

// built are the person-hours that the stages of an undoing took in a zone, and the crew that
// did most of them. Work in several zones counts in equal shares.
func (s *Strike) built(u undoing, zone string) (hours float64, crew string) {
	by := map[string]float64{}
	for i := range s.of.Tasks {
		t := &s.of.Tasks[i]
		stage := s.of.Stages[t.Stage]
		own := int(t.Stage) >= len(schedule.BuiltInStages()) && u.id == "fittings" // a plan's own: water, lighting
		if !own && !slices.Contains(u.stages, stage) || !s.in(t, zone) || len(t.Crew) == 0 {
			continue
		}
		heads := 0
		for _, c := range t.Crew {
			heads += c.Most
		}
		minutes := float64(t.Effort.Takes) * float64(heads)
		if t.Effort.Shared() {
			minutes = float64(t.Effort.Num) / float64(t.Effort.Den)
		}
		h := minutes / 60 / float64(len(t.Zones))
		hours += h
		by[s.of.Crews[t.Crew[0].Crew].ID] += h
	}
	crew = s.usual()
	most := 0.0
	for _, c := range s.of.Crews {
		if c.People > 0 && by[c.ID] > most {
			crew, most = c.ID, by[c.ID]
		}
	}
	return hours, crew
}

func (s *Strike) in(t *schedule.Task, zone string) bool {
	return slices.ContainsFunc(t.Zones, func(z schedule.ZoneID) bool { return s.of.Zones[z].ID == zone })
}

func (s *Strike) zoneName(zone string) string {
	for _, z := range s.of.Zones {
		if z.ID == zone {
			return z.Name
		}
	}
	return zone
}

// passOut holds the making good of a zone that is the way to others until theirs is done.
func (s *Strike) passOut(last map[string]string) {
	for i := range s.tasks {
		w := &s.tasks[i]
		if !strings.HasPrefix(w.id, "ground-") {
			continue
		}
		for _, z := range s.of.Zones {
			over := slices.ContainsFunc(z.WayIn, func(id schedule.ZoneID) bool { return s.of.Zones[id].ID == w.zone })
			if end := last[z.ID]; over && !z.OffSite && end != "" && end != w.id && !slices.Contains(w.after, end) {
				w.after = append(w.after, end)
			}
		}
	}
}

// collect adds the lorries that go out: plants to their new homes, what stands to a store,
// waste, and at last what was hired.
func (s *Strike) collect(ends []string) {
	of := func(kinds ...string) (out []string) {
		for _, w := range s.tasks {
			if kind, _, _ := strings.Cut(w.id, "-"); slices.Contains(kinds, kind) {
				out = append(out, w.id)
			}
		}
		return out
	}
	loads := []outgoing{
		{"plants-away", "plants and turf to their new homes", "who takes them is settled at the desk", of("plants", "turf")},
		{"store-away", "timber, stone and fittings to the store", "a guess: one load", of("fittings", "standing",
			"surfaces")},
		{"waste-away", "waste skip", "a guess: one skip", ends},
	}
	for _, m := range s.machines() {
		var used []string
		for _, w := range s.tasks {
			if w.machine == m.ID {
				used = append(used, w.id)
			}
		}
		loads = append(loads, outgoing{m.ID + "-away", m.Name + " back to its owner", hireEnds, used})
	}
	loads = append(loads, outgoing{"hire-away", "trackway, fencing and what else was hired", hireEnds, []string{"walk"}})
	for _, c := range loads {
		if len(c.after) > 0 {
			s.lorries = append(s.lorries, c)
		}
	}
}

const hireEnds = "hire ends once it is gone: say so a week ahead"

// Book books the lorries of a strike for when what they wait for is done, by what a solver
// makes of its text without them. It returns the last text and what was made of it; the error
// is the solver's.
func (s *Strike) Book(solve func(text string) (network.Case, error)) (string, network.Case, error) {
	s.Arrivals = nil
	c, err := solve(s.Text())
	if err != nil {
		return "", c, err
	}
	s.Arrivals = map[string]calendars.Instant{}
	for _, l := range s.lorries {
		done := s.Opens
		for _, id := range l.after {
			k := slices.IndexFunc(c.Plan.Tasks, func(t schedule.Task) bool { return t.ID == id })
			done = max(done, c.Programme.Tasks[k].Done)
		}
		s.Arrivals[l.id] = s.pickUp(done)
	}
	for n := range mostRounds {
		if c, err = solve(s.Text()); err != nil || n == mostRounds-1 || !rebook(&s.Garden, c) {
			break
		}
	}
	return s.Text(), c, err
}

// Text is the plan of a strike.
func (s *Strike) Text() string {
	w := &writer{g: &s.Garden}
	w.line("# A first plan to take %s down again. Times are guesses from what it took to build, and", s.of.Garden)
	w.line("# machines are those by which it was built.")
	w.line("garden: %s", quoted(s.Name))
	if s.Place.Currency != "" {
		w.line("currency: %s", s.Place.Currency)
	}
	w.site()
	w.line("\nzones:")
	for _, z := range s.onSite() {
		w.line("  %s: {name: %s%s}", z, quoted(s.zoneName(z)), s.room(z))
	}
	w.line("\ncrews:")
	for _, c := range s.of.Crews {
		if slices.ContainsFunc(s.tasks, func(t work) bool { return t.crew == c.ID }) {
			w.line("  %s: {name: %s, people: %d}", c.ID, quoted(c.Name), s.Crews[c.ID])
		}
	}
	if all := s.machines(); len(all) > 0 {
		w.line("\nmachines:   # hired again; each is there in all hours, which is a guess")
		for _, m := range all {
			w.line("  %s: {name: %s, count: %d, places: %d}", m.ID, quoted(m.Name), max(m.Count, 1), m.Places)
		}
	}
	s.papers(w)
	if len(s.Arrivals) > 0 {
		w.line("\ndeliveries:   # all go out, booked for when what they wait for is done")
		for _, l := range s.lorries {
			w.line("  # - %s", l.why)
			w.line("  %s: {what: %s, arrives: %s, unload: 45m, waits: 4h, out: true, after: %s}",
				l.id, quoted(l.what), s.moment(s.Arrivals[l.id]), list(l.after))
		}
	}
	w.line("\ntasks:")
	w.block("From the rear to the gate, what was done last first", s.tasks)
	return w.String()
}

func (s *Strike) papers(w *writer) {
	w.line("\ndesk:   # each date is a guess")
	if slices.ContainsFunc(s.lorries, func(l outgoing) bool { return l.id == "plants-away" }) {
		w.line("  new-homes: {what: who takes the plants and when, kind: booking, by: 4w before opening}")
	}
	for _, m := range s.machines() {
		w.line("  %s-hire: {what: %s, kind: booking, by: 4w before opening}", m.ID, quoted("hire and end of hire: "+m.Name))
	}
	if slices.ContainsFunc(s.tasks, func(t work) bool { return strings.HasPrefix(t.id, "lifted-") }) {
		w.line("  lifts: {what: \"lift plan: what each load weighs, ground, banksman, wind\", kind: lift-plan, " +
			"by: 4w before opening}")
	}
	w.line("  off-hire: {what: end of hire told to each other owner, kind: booking, by: 1w before opening}")
	w.line("  waste: {what: licensed carrier for the waste, kind: booking, by: 3w before opening}")
	w.line("  ground-record: {what: photographs of the ground as it was, kind: other, by: 1w before opening}")
}

// room is how many may be in a zone, and the way in to it, as the plan has them.
func (s *Strike) room(zone string) (text string) {
	k := slices.IndexFunc(s.of.Zones, func(z schedule.Zone) bool { return z.ID == zone })
	z := &s.of.Zones[k]
	if z.People > 0 {
		text = fmt.Sprintf(", people: %d", z.People)
	}
	if len(z.WayIn) == 0 {
		return text
	}
	var names []string
	for _, id := range z.WayIn {
		names = append(names, s.of.Zones[id].ID)
	}
	return text + ", way_in: " + list(names)
}

package whynot

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
)

// Kind is what a fact is about. The comment says what is taken in its place where the
// fact is left away.
type Kind uint8

// The kinds of fact, in the order in which they are left away: what is told last here
// is kept soonest.
const (
	Within       Kind = iota // a longest wait between two activities; none
	Alone                    // time kept apart for a task; it may go on beside the others
	Room                     // how many a zone holds; any number
	GatePlaces               // how many lorries the gate takes at once; any number
	Machines                 // how many machines of a kind there are; one set for each activity
	People                   // how many people a crew has; a crew for each activity
	CrewHours                // a crew's own hours and who is away; all there at any time
	DryHours                 // it is too wet; it is dry
	CalmHours                // it is too windy; it is calm
	MildHours                // there is frost or heat; it is mild
	LoudHours                // the hours of loud work; at any time
	GateHours                // the gate's own hours; at any time
	ZoneHours                // the hours of a place off site; at any time
	Work                     // the work of an activity; it takes no time and nobody
	Wait                     // a wait on a link or of a rule; none
	Cure                     // the cure of a task; none
	SignOff                  // a hold point; none
	Start                    // an earliest start: a date of its own, a given or a booking; none
	MachineHours             // the slots in which a machine is ours; at any time
	SiteHours                // the site's hours; at any time
)

// Fact is one thing that may make something impossible.
type Fact struct {
	Kind     Kind
	Activity schedule.Activity  // of Within, Work, Wait (the follower), Cure, SignOff and Start; else Nothing
	First    schedule.Activity  // of Wait and Within: what comes first, Nothing where a rule gathers several
	Crew     schedule.CrewID    // of People and CrewHours, else None
	Machine  schedule.MachineID // of Machines and MachineHours, else None
	Zone     schedule.ZoneID    // of Room and ZoneHours, else None
	Holder   schedule.TaskID    // of Alone, else None
	Time     calendars.Minutes  // of Wait, Cure and Within; of Work and SignOff, the shortest it may take
	OpenTime bool               // of Wait: Time is counted in open hours, not on the clock
	From     calendars.Instant  // of Start; of MachineHours, when it is first ours from the opening on
	// Needed says that a programme without this fact, and with the others told, was found
	// and checked. Without it the fact may be needed.
	Needed bool

	resource int32    // of shared things
	node     int32    // of what is about a node
	arc      [2]int32 // of Wait: the nodes at its ends
	end      network.End
	within   int // of Within: its place in the network
}

// nothing is a fact that is about nothing yet.
func nothing(k Kind) Fact {
	return Fact{Kind: k, Activity: schedule.Nothing, First: schedule.Nothing, Crew: schedule.None,
		Machine: schedule.None, Zone: schedule.None, Holder: schedule.None}
}

// facts lists all facts of a problem that may be left away, in a fixed order: by kind,
// then those of a kind in the order of the network or the plan.
func (q *question) facts() []Fact {
	all := slices.Concat(q.shared(), q.hours(), q.ofNodes(), q.ofLinks())
	slices.SortStableFunc(all, func(a, b Fact) int { return int(a.Kind) - int(b.Kind) })
	return all
}

// shared are the things that activities share.
func (q *question) shared() (out []Fact) {
	needed := make([]bool, len(q.set.Resources))
	for _, modes := range q.base.Modes {
		for _, m := range modes {
			for _, n := range m.Needs {
				needed[n.Resource] = true
			}
		}
	}
	for i, r := range q.set.Resources {
		if !needed[i] {
			continue
		}
		f := nothing(map[resources.Kind]Kind{
			resources.Crew: People, resources.Machine: Machines, resources.Zone: Room,
			resources.Gate: GatePlaces, resources.Alone: Alone,
		}[r.Kind])
		f.Crew, f.Machine, f.Zone, f.Holder, f.resource = r.Crew, r.Machine, r.Zone, r.Task, int32(i)
		out = append(out, f)
	}
	return out
}

// hours are the hours that may hold work.
func (q *question) hours() (out []Fact) {
	hours, p := q.set.Hours, q.plan
	for c := range p.Crews {
		if hours.Varies(schedule.CrewID(c)) {
			f := nothing(CrewHours)
			f.Crew = schedule.CrewID(c)
			out = append(out, f)
		}
	}
	for m := range p.Machines {
		if hours.Machines[m] != nil {
			f := nothing(MachineHours)
			f.Machine = schedule.MachineID(m)
			f.From = hours.There(f.Machine, 1).Next(max(p.Site.Opens, p.Now()))
			out = append(out, f)
		}
	}
	for z := range p.Zones {
		if p.Zones[z].OffSite {
			f := nothing(ZoneHours)
			f.Zone = schedule.ZoneID(z)
			out = append(out, f)
		}
	}
	if hours.Wet() {
		out = append(out, nothing(DryHours))
	}
	if hours.Windy() {
		out = append(out, nothing(CalmHours))
	}
	if hours.Harsh() {
		out = append(out, nothing(MildHours))
	}
	if hours.Loud != nil {
		out = append(out, nothing(LoudHours))
	}
	if hours.Gate != hours.Site {
		out = append(out, nothing(GateHours))
	}
	return append(out, nothing(SiteHours))
}

// ofNodes are the work, cures, hold points and earliest starts.
func (q *question) ofNodes() (out []Fact) {
	for k := range q.base.Net.Nodes {
		node, a := &q.base.Net.Nodes[k], q.base.Model.At(int32(k))
		if a == schedule.Nothing || q.gone(a) {
			continue
		}
		add := func(kind Kind, time calendars.Minutes, from calendars.Instant) {
			f := nothing(kind)
			f.Activity, f.Time, f.From, f.node = a, time, from, int32(k)
			out = append(out, f)
		}
		shortest := node.Work
		for _, m := range q.base.Modes[k] {
			shortest = min(shortest, m.Work)
		}
		if shortest > 0 {
			add(Work, shortest, 0)
		}
		if node.Cure > 0 {
			add(Cure, node.Cure, 0)
		}
		if node.Hold != network.None {
			add(SignOff, q.base.Net.Holds[node.Hold].Takes, 0)
		}
		if !node.Fixed && node.Earliest > q.floor(a) {
			add(Start, 0, node.Earliest)
		}
	}
	return out
}

// floor is the moment before which no work of an activity starts whatever is left away:
// the site opens, or what is past is past.
func (q *question) floor(a schedule.Activity) calendars.Instant {
	from := q.plan.Site.Opens
	if t, ok := q.plan.Task(a); ok && q.plan.OffSite(&q.plan.Tasks[t]) {
		from = q.plan.Zones[q.plan.Tasks[t].Zones[0]].From
	}
	return max(from, q.plan.Now())
}

// ofLinks are the waits on links and the longest waits.
func (q *question) ofLinks() (out []Fact) {
	n := q.base.Net
	for k := range n.Nodes {
		for _, e := range n.InOther.Of(k) {
			if e.Wait.Kind == schedule.OwnCure || e.Wait.Time <= 0 {
				continue
			}
			f := nothing(Wait)
			f.First, f.Activity = q.base.Model.At(e.Node), q.base.Model.At(int32(k))
			f.Time, f.OpenTime = e.Wait.Time, e.Wait.Kind == schedule.Lag
			f.arc, f.end = [2]int32{e.Node, int32(k)}, e
			out = append(out, f)
		}
	}
	for i, w := range n.Withins {
		f := nothing(Within)
		f.First, f.Activity, f.Time, f.within = q.base.Model.At(w.From), q.base.Model.At(w.To), w.Most, i
		out = append(out, f)
	}
	return out
}

// Package issue freezes what is handed out to the crews: the content of their run sheets by
// activity, and the short numbers. It is read back to say what differs since, and to whom a
// number on a sheet that is taped up belongs.
package issue

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// Issue is one numbered printing of the sheets.
type Issue struct {
	Number  int
	Garden  string
	At      calendars.Instant // when it was handed out
	By      string
	Digest  string   // of the plan's file then
	Crews   []string // ids of those who got it; empty for everyone
	Numbers []Number // all short numbers that were given by then
	Told    []Told   // by activity: what was on the sheets of those crews
}

// Number is the short number of an activity, which the plan may have lost since.
type Number struct {
	ID       string
	Delivery bool
	Number   int
}

// Told is what the crews were told of one activity: moments are zero where it had none.
type Told struct {
	ID, Name      string
	Delivery      bool
	Arrives       calendars.Instant // of a lorry
	Start, Finish calendars.Instant // zero when it was left out or had no place
	SignOff       calendars.Instant // when its hold point was to be signed; zero without one
	Zones         []string          // ids; none at the gate
	Crew          []Heads
	Machines      []Heads
	Happened      Happened
}

// Heads is how many of a crew were to be at it, or of a machine.
type Heads struct {
	ID    string
	Count int
}

// Happened is what was logged of an activity by then; moments are zero for what wasn't.
type Happened struct {
	Started, Finished, Failed, Signed calendars.Instant
	Came, Refused                     bool // of a lorry
}

// For says whether a crew got an issue.
func (x *Issue) For(crew string) bool { return len(x.Crews) == 0 || slices.Contains(x.Crews, crew) }

// Last is the newest issue that a crew got, of a list with the oldest first; nil for none.
// Without a crew it is the newest for everyone.
func Last(list []*Issue, crew string) *Issue {
	for _, x := range slices.Backward(list) {
		if crew == "" && len(x.Crews) == 0 || crew != "" && x.For(crew) {
			return x
		}
	}
	return nil
}

// Freeze is the issue of a programme to some crews, or to everyone. What no crew does is on
// everyone's sheets alone. The caller sets its number and digest, and when and by whom it is
// handed out.
func Freeze(c network.Case, crews []schedule.CrewID, numbers []Number) *Issue {
	p := c.Plan
	x := &Issue{Garden: p.Garden, Numbers: numbers}
	for _, id := range crews {
		x.Crews = append(x.Crews, p.Crews[id].ID)
	}
	for a := range p.Activities() {
		t := told(c, a)
		if len(crews) == 0 || slices.ContainsFunc(t.Crew, func(h Heads) bool { return x.For(h.ID) }) {
			x.Told = append(x.Told, t)
		}
	}
	return x
}

// Onto puts the moments for which tasks were issued into a programme of a plan, in place of
// those that it has.
func (x *Issue) Onto(g *schedule.Programme, p *schedule.Plan) {
	for i := range x.Told {
		t := &x.Told[i]
		if id := p.FindTask(t.ID); !t.Delivery && t.Start != 0 && id != schedule.None {
			d := &g.Tasks[id]
			d.Dropped = false
			d.Start, d.Finish = t.Start, t.Finish
			if t.SignOff != 0 {
				d.Signed = t.SignOff
			}
		}
	}
}

// told is what the sheets say of an activity.
func told(c network.Case, a schedule.Activity) Told {
	p, g := c.Plan, c.Programme
	out := Told{ID: p.ActivityID(a), Name: p.ActivityName(a)}
	if d := g.Of(a); d.Start.IsReal() && !g.LeavesOut(a) {
		out.Start, out.Finish = d.Start, d.Finish
	}
	if id, task := p.Task(a); task {
		t := &p.Tasks[id]
		for _, z := range t.Zones {
			out.Zones = append(out.Zones, p.Zones[z].ID)
		}
		out.team(p, t.Crew, g.Tasks[id].Heads, t.Machines)
		if t.Hold != nil && out.Start != 0 {
			out.SignOff = g.Tasks[id].Signed
		}
		if p.Progress != nil {
			was := &p.Progress.Tasks[id]
			out.Happened = Happened{Started: was.Start, Finished: was.Finish, Failed: was.Failed, Signed: was.Signed}
		}
		return out
	}
	id, _ := p.Delivery(a)
	d := &p.Deliveries[id]
	out.Delivery = true
	if at := g.Unloads[id].Arrives; at.IsReal() {
		out.Arrives = at
	}
	out.team(p, d.Unload.Crew, nil, d.Unload.Machines)
	if p.Progress != nil {
		was := &p.Progress.Deliveries[id]
		out.Happened = Happened{Came: was.Arrived, Refused: was.Refused && !was.Arrived}
	}
	return out
}

// team sets who and what is at it: the least of a need where no heads are programmed.
func (t *Told) team(p *schedule.Plan, crew []schedule.CrewNeed, heads []int, machines []schedule.MachineNeed) {
	for i, n := range crew {
		count := n.Least
		if i < len(heads) {
			count = heads[i]
		}
		t.Crew = append(t.Crew, Heads{p.Crews[n.Crew].ID, count})
	}
	for _, n := range machines {
		t.Machines = append(t.Machines, Heads{p.Machines[n.Machine].ID, n.Count})
	}
}

package builds

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// asked is which crews are expected on which days, so that no other order of hands needs one on
// another day at less than its notice.
type asked struct {
	days  []calendars.Instant // midnights of the build's days, and the last one's end
	next  []calendars.Instant // by day: the next weekday that is no holiday
	crews [][]schedule.CrewID // by node: who works on it
	there [][]bool            // by crew and day: it is to be there
	first [][]bool            // there, as the programme has it
	comes []calendars.Instant // by crew: from when it would come on any day
	soon  calendars.Instant   // the last of those
	trial []calendars.Instant // by node: the least start in the order that is tried, for who has to be asked
	from  []calendars.Instant // trial of the best order found
}

// mostAsked is how often an order is tried once more, with later starts for those who would have
// to come at less than their notice.
const mostAsked = 4

// addAsked lists who works on what, and on which days they are to be there in the programme.
func (r *Replanner) addAsked() {
	m, x := r.m, &r.asked
	site := &m.Plan.Site
	first := calendars.Never
	for _, at := range m.Order.Times.Start {
		if at.IsReal() {
			first = min(first, at)
		}
	}
	for d := calendars.DateIn(min(first, site.Handover), site.Location); ; d++ {
		at, _ := calendars.At(site.Location, d, 0)
		x.days, x.next = append(x.days, at), append(x.next, m.Hours.NextWeekday(at))
		if at >= site.Handover {
			break
		}
	}
	x.crews = make([][]schedule.CrewID, len(m.Nodes))
	for a := range m.Plan.Activities() {
		t, task := m.Plan.Task(a)
		for i, need := range m.Plan.CrewOf(a) {
			if !m.HasNoPlace(a) && (!task || m.Heads[t][i] > 0) {
				x.crews[m.Node(a)] = append(x.crews[m.Node(a)], need.Crew)
			}
		}
	}
	x.there, x.first = x.table(len(m.Plan.Crews)), x.table(len(m.Plan.Crews))
	x.comes = make([]calendars.Instant, len(m.Plan.Crews))
	x.trial, x.from = make([]calendars.Instant, len(m.Nodes)), make([]calendars.Instant, len(m.Nodes))
	r.expect(m.Order.Times.Start, m.Order.Times.Finish)
	for c := range x.there {
		copy(x.first[c], x.there[c])
	}
}

func (x *asked) table(crews int) [][]bool {
	out := make([][]bool, crews)
	for c := range out {
		out[c] = make([]bool, len(x.days)-1)
	}
	return out
}

// begin takes the days of the programme.
func (x *asked) begin() {
	for c := range x.there {
		copy(x.there[c], x.first[c])
	}
}

// like takes over the days on which crews are expected in another build.
func (x *asked) like(from *asked) {
	for c := range x.there {
		for k := range x.there[c] {
			was := from.day(x.days[k])
			x.there[c][k] = was < len(from.there[c]) && from.days[was] == x.days[k] && from.there[c][was]
		}
	}
}

// expect notes on which days crews are to be there by dates that are known now, by node. Who was
// to be there today has come.
func (r *Replanner) expect(start, finish []calendars.Instant) {
	x := &r.asked
	today := x.day(r.now)
	x.soon = r.now
	for c := range x.there {
		clear(x.there[c][min(today+1, len(x.there[c])):])
		if x.comes[c] = x.next[today]; r.m.Plan.Crews[c].Notice != nil {
			x.comes[c] = r.now.Plus(*r.m.Plan.Crews[c].Notice)
		}
		x.soon = max(x.soon, x.comes[c])
	}
	for i, crews := range x.crews {
		if len(crews) == 0 || !start[i].IsReal() || finish[i] <= r.now {
			continue
		}
		for k := max(x.day(start[i]), today); k < len(x.days)-1 && x.days[k] < finish[i]; k++ {
			for _, c := range crews {
				x.there[c][k] = true
			}
		}
	}
}

// day is the place of the day of a moment; that of the first for one before it.
func (x *asked) day(at calendars.Instant) int {
	k := 0
	for k+1 < len(x.days) && x.days[k+1] <= at {
		k++
	}
	return k
}

// atNotice is byRule with nobody asked to come at less than their notice.
func (r *Replanner) atNotice(rule []calendars.Instant, keep calendars.Instant) (*network.Times, bool) {
	x := &r.asked
	for i := range x.trial {
		x.trial[i] = r.now
	}
	for range mostAsked {
		t, ok := r.byRule(rule, keep)
		if !ok || !r.putOff(t) {
			return t, ok
		}
	}
	return nil, false
}

// putOff finds what can't be done at its time since somebody would come at less than their
// notice, gives it a later least start, and says whether there is any.
func (r *Replanner) putOff(t *network.Times) (any bool) {
	x := &r.asked
	for i, crews := range x.crews {
		if len(crews) == 0 || r.begun(i) || !t.Start[i].IsReal() || t.Start[i] >= x.soon {
			continue
		}
		if at := r.allowed(i, t.Start[i], t.Finish[i]); at > t.Start[i] {
			x.trial[i], any = at, true
		}
	}
	return any
}

// allowed is a start of a node before which it needs somebody too soon; its start if it doesn't.
func (r *Replanner) allowed(i int, start, finish calendars.Instant) calendars.Instant {
	x := &r.asked
	hours := r.ahead.n.Calendars[r.ahead.n.Nodes[i].Calendar]
	first := x.day(start)
	for k := first; k < len(x.days)-1 && x.days[k] < min(finish, x.soon); k++ {
		if x.come(i, k, start) || k > first && hours.Between(x.days[k], min(finish, x.days[k+1])) == 0 {
			continue
		}
		for k++; k < len(x.days)-1 && !x.come(i, k, start); k++ {
		}
		return min(x.days[k], x.soon)
	}
	return start
}

// come says whether all who work on a node from a start may be there on a day.
func (x *asked) come(i, day int, start calendars.Instant) bool {
	for _, c := range x.crews[i] {
		if !x.there[c][day] && max(x.days[day], start) < x.comes[c] {
			return false
		}
	}
	return true
}

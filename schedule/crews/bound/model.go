package bound

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/internal/halt"
	"build.example/turflast/schedule/network"
)

// model is a problem as the bounds use it.
type model struct {
	p       *crews.Problem
	n       *network.Network
	dawn    calendars.Instant // no node starts before it
	first   []int32           // options of node i: first[i] up to first[i+1]
	options []option          // by node
	views   []*view
	pairs   []pair
	opens   map[string]*calendars.Calendar // time in which any of some calendars is open
	ones    map[*calendars.Calendar]level  // one in every open minute of a calendar
	tables  []*table
	unit    crews.Unit // in which all is looked at at present
	halt    halt.Halt
}

// option is one way to do a node.
type option struct {
	network.Node // the node done this way
	node         int32
	needs        []crews.Need
}

// newModel counts all that is shared. Once the halt says so, it leaves out what it
// hasn't come to.
func newModel(p *crews.Problem, h halt.Halt) *model {
	m := optionsOf(p)
	m.halt = h
	if m.halt.Now() {
		return m
	}
	for r := range p.Capacity {
		m.view(int32(r))
	}
	if c := m.meet(); c != nil {
		m.addCliques(c)
	}
	slices.SortStableFunc(m.views, func(a, b *view) int { return cmp.Compare(held(a), held(b)) })
	m.addTables()
	return m
}

// optionsOf is a model that counts no resource yet.
func optionsOf(p *crews.Problem) *model {
	m := &model{
		p: p, n: p.Net, first: []int32{0}, unit: crews.Minute,
		opens: make(map[string]*calendars.Calendar), ones: make(map[*calendars.Calendar]level),
	}
	m.dawn = p.Net.Line.End
	for i, modes := range p.Modes {
		m.dawn = min(m.dawn, max(p.Net.Nodes[i].Earliest, p.Net.Line.Start))
		for _, mode := range modes {
			o := option{Node: p.Net.Nodes[i], node: int32(i), needs: counted(&mode)}
			o.Work, o.Calendar = mode.Work, mode.Calendar
			m.options = append(m.options, o)
		}
		m.first = append(m.first, int32(len(m.options)))
	}
	return m
}

// counted is the needs of a mode that take something.
func counted(m *crews.Mode) []crews.Need {
	idle := func(n crews.Need) bool { return n.Amount == 0 || m.Work == 0 && n.After == 0 }
	if !slices.ContainsFunc(m.Needs, idle) {
		return m.Needs
	}
	return slices.DeleteFunc(slices.Clone(m.Needs), idle)
}

// held is a sort key that puts the views that take longest to count last.
func held(v *view) int {
	if v.count == Held {
		return 1
	}
	return 0
}

// counts says whether node i counts for the last finish.
func (m *model) counts(i int) bool { return m.p.Counts == nil || m.p.Counts[i] }

// calendar is an option's calendar.
func (m *model) calendar(o int32) *calendars.Calendar { return m.n.Calendars[m.options[o].Calendar] }

// amounts returns what an option takes of a resource while it is worked on, the
// part that it holds in pauses too, and for how long it holds that part after its
// finish.
func (o *option) amounts(r int32) (all, stays int64, after calendars.Minutes) {
	for _, n := range o.needs {
		if n.Resource != r {
			continue
		}
		if o.Work > 0 {
			all += int64(n.Amount)
		}
		if n.Stays || n.After > 0 {
			if stays == 0 || n.After < after {
				after = n.After
			}
			stays += int64(n.Amount)
		}
	}
	return all, stays, after
}

// users lists the nodes that take something of a resource whichever way they
// are done; none when halted.
func (m *model) users(r int32) []user {
	var out []user
	for i := range m.n.Nodes {
		u := user{node: int32(i)}
		for o := m.first[i]; o < m.first[i+1]; o++ {
			if m.halt.Steps(1 + len(m.options[o].needs)) {
				return nil
			}
			all, stays, after := m.options[o].amounts(r)
			if all == 0 {
				u.choices = nil
				break
			}
			u.choices = append(u.choices, choice{option: o, amount: all, stays: stays, after: after})
		}
		if len(u.choices) > 0 {
			out = append(out, u)
		}
	}
	return out
}

// fitting returns, for every count up to most, the largest sum not above it that
// amounts of different users add up to (subset sums by dynamic programming).
func fitting(users []user, most int) []int64 {
	reach := make([]bool, most+1)
	reach[0] = true
	for _, u := range users {
		next := slices.Clone(reach)
		for _, c := range u.choices {
			for k := int(c.amount); k <= most; k++ {
				if reach[k-int(c.amount)] {
					next[k] = true
				}
			}
		}
		reach = next
	}
	out := make([]int64, most+1)
	for k := range out {
		switch {
		case reach[k]:
			out[k] = int64(k)
		case k > 0:
			out[k] = out[k-1]
		}
	}
	return out
}

package sheets

import (
	"slices"

	"build.example/turflast/schedule"
)

// Numbers are the short numbers of a plan's tasks and deliveries, for all sheets and
// for ticks in the log. Each thing has one number for the whole build, over all crews and
// days, so that no forecast changes it and "23" is the turf on every sheet.
//
// What issues wrote down holds, whatever else was agreed and whenever. Then comes what
// baselines have, in the order of the first baseline that has it, and then the plan, tasks
// before deliveries: each takes the next number after the highest. A number is never given
// again: what has left the plan leaves a gap.
type Numbers struct {
	of    []int                     // by Activity
	at    map[int]schedule.Activity // by number; Nothing for what has left the plan
	given []Numbered                // all, by records and by the plan
	by    map[Numbered]int          // those, by what they are of, whose Number is 0
	most  int
	held  map[int]bool // by a record, and by no other for something else
	loose bool         // there is no record, so that nobody can tell
}

// Numbered is a task or a delivery by its id, with its number; 0 where it takes the next.
type Numbered struct {
	ID       string
	Delivery bool
	Number   int
}

// Record is what an issue or a baseline has numbered, in its order.
type Record []Numbered

// InOrder is a record that numbers tasks and then deliveries, as a baseline does.
func InOrder(tasks, deliveries []string) Record {
	var out Record
	for _, id := range tasks {
		out = append(out, Numbered{ID: id})
	}
	for _, id := range deliveries {
		out = append(out, Numbered{ID: id, Delivery: true})
	}
	return out
}

// RecordOf is the plan as a record. What was cancelled has its place, and work that a log
// adds, or once added, comes last.
func RecordOf(p *schedule.Plan) Record {
	var tasks, deliveries []string
	for i := range p.Tasks {
		tasks = append(tasks, p.Tasks[i].ID)
	}
	for i := range p.Cancelled {
		c := &p.Cancelled[i]
		tasks = slices.Insert(tasks, min(c.Place, len(tasks)), c.ID)
	}
	for i := range p.Deliveries {
		deliveries = append(deliveries, p.Deliveries[i].ID)
	}
	for _, id := range p.Added {
		if !slices.Contains(tasks, id) {
			tasks = append(tasks, id)
		}
	}
	return InOrder(tasks, deliveries).addedLast(p.Added)
}

// addedLast is a record with the work of a log behind all that the plan's file had: all of it
// up to the last that the record has, since what was taken back leaves a gap too.
func (r Record) addedLast(ever []string) Record {
	var filed, added Record
	for _, x := range r {
		switch k := slices.Index(ever, x.ID); {
		case x.Delivery || x.Number != 0 || k < 0:
			filed = append(filed, x)
		case k >= len(added):
			added = InOrder(ever[:k+1], nil)
		}
	}
	return append(filed, added...)
}

// Was is the number that a task has or had, by id; 0 if it never had one.
func (n *Numbers) Was(id string) int { return n.by[Numbered{ID: id}] }

// Number numbers the tasks and deliveries of a plan by its records, oldest first.
func Number(p *schedule.Plan, records ...Record) *Numbers {
	return NumberLike(p, p, records...)
}

// NumberLike numbers a plan as another one that it was made from, and by that one's records.
func NumberLike(p, filed *schedule.Plan, records ...Record) *Numbers {
	g := &giving{by: make(map[Numbered]int), to: make(map[int]Numbered), contested: make(map[int]bool)}
	for _, r := range records {
		g.written(r)
	}
	for _, r := range records {
		g.next(r.addedLast(filed.Added))
	}
	n := &Numbers{
		of: make([]int, p.Activities()), at: make(map[int]schedule.Activity), held: make(map[int]bool),
		loose: len(records) == 0, by: g.by,
	}
	for number := range g.to {
		n.held[number] = !g.contested[number]
	}
	g.next(RecordOf(filed))
	g.next(RecordOf(p))
	known := make(map[Numbered]schedule.Activity)
	for a := range p.Activities() {
		_, lorry := p.Delivery(a)
		thing := Numbered{ID: p.ActivityID(a), Delivery: lorry}
		known[thing], n.of[a] = a, g.by[thing]
	}
	for number, thing := range g.to {
		a, ok := known[thing]
		if !ok {
			a = schedule.Nothing
		}
		n.at[number], n.most = a, max(n.most, number)
		n.given = append(n.given, Numbered{thing.ID, thing.Delivery, number})
	}
	slices.SortFunc(n.given, func(a, b Numbered) int { return a.Number - b.Number })
	return n
}

// giving is numbers being given.
type giving struct {
	by        map[Numbered]int // by the thing, whose Number is 0
	to        map[int]Numbered
	most      int
	contested map[int]bool // written down for two things
}

// written takes over the numbers that a record has written down. Where two records differ
// the older one holds; a number of the newer one that is free leads to its thing too.
func (g *giving) written(r Record) {
	for _, x := range r {
		number, thing := x.Number, Numbered{ID: x.ID, Delivery: x.Delivery}
		if number == 0 {
			continue
		}
		if other, taken := g.to[number]; taken {
			g.contested[number] = g.contested[number] || other != thing
			continue
		}
		g.to[number], g.most = thing, max(g.most, number)
		if g.by[thing] == 0 {
			g.by[thing] = number
		}
	}
}

// next gives what has none yet the next numbers.
func (g *giving) next(r Record) {
	for _, x := range r {
		thing := Numbered{ID: x.ID, Delivery: x.Delivery}
		if g.by[thing] == 0 {
			g.most++
			g.by[thing], g.to[g.most] = g.most, thing
		}
	}
}

// Of is the number of an activity.
func (n *Numbers) Of(a schedule.Activity) int { return n.of[a] }

// OfID is the number of a task or a delivery that the plan may have lost; 0 for none.
func (n *Numbers) OfID(id string, delivery bool) int {
	return n.by[Numbered{ID: id, Delivery: delivery}]
}

// Find is the activity with a number, or Nothing if the plan has none with it.
func (n *Numbers) Find(number int) schedule.Activity {
	if a, ok := n.at[number]; ok {
		return a
	}
	return schedule.Nothing
}

// Sure says whether a number has been its activity's since an issue or a baseline: on a
// sheet that was printed before the plan changed, another may stand for what it is now.
// Without any record nobody can tell, and all count as sure.
func (n *Numbers) Sure(number int) bool { return n.loose || n.held[number] }

// Most is the highest number.
func (n *Numbers) Most() int { return n.most }

// Given lists all numbers that are given, also to what has left the plan, lowest first.
func (n *Numbers) Given() []Numbered { return n.given }

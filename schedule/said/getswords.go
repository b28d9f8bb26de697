package said

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// getRules are what tasks need, use and are called, and where they are.
func getRules() []rule[schedule.Change] {
	return []rule[schedule.Change]{
		to(needs, "<task> /needing/ <needs>", "put <needs> on <task>", "<needs> for <task>", "<needs> on <task>"),
		to(insteadOf, "<task> /needing/ <needs> instead of <staff>", "<needs> instead of <staff> on <task>",
			"<needs> instead of <staff> for <task>"),
		to(moreAt, "<count> <more> <crew> on <at>", "<count> <more> <crew> for <at>", "<count> <more> <crew> at <at>",
			"<crew> <count> <more> on <at>", "<count> <crew> <more> on <at>", "add <count> <crew> to <at>",
			"another <crew> on <at>", "another <crew> for <at>"),
		to(moreOn, "<at> /needing/ <count> <more> <crew>", "<at> /needing/ another <crew>"),
		to(without, "<task> /lacking/ <staff>", "take <staff> off <task>", "no <staff> for <task>", "no <staff> on <task>"),
		to(uses, "<task> /using/ <load>"),
		to(inZones, "<task> /goes/? in <zones>", "move <task> to <zones>", "move <task> into <zones>",
			"<task> moved to <zones>", "<task> moved into <zones>"),
		to(each(schedule.ChangeCure, byLength), "<task> /cures/ <length>", "<task> needs <length> to /curing/",
			"<length> cure for <task>", "<length> cure on <task>", "<task> has? a? cure of? <length>",
			"<task> has? a? <length> cure"),
		to(renamed, "rename <act> to <text>", "rename <act> as <text>", "call <act> <text>", "<act> /called/ <text>"),
	}
}

// others reads things beside those that a text is about.
func others(of kind) func(*saying, int, found) []step {
	read := list(of)
	return func(s *saying, i int, f found) []step {
		about := f.things
		f.things = nil
		out := read(s, i, f)
		for k := range out {
			out[k].others, out[k].things = out[k].things, about
		}
		return out
	}
}

// readNeeds reads what work needs: "2 masons and the crane".
func (s *saying) readNeeds(i int, f found) []step {
	var out []step
	for _, st := range s.readNeed(i, f) {
		out = append(out, st)
		next := st.to
		for slices.Contains([]string{",", "and", "+", "with"}, s.at(next)) {
			next++
		}
		if next > st.to && len(st.needs) < mostListed {
			out = append(out, s.readNeeds(next, st.found)...)
		}
	}
	return out
}

// readNeed reads one crew or machine, and how many of it: before its name or behind it. A machine
// without a number is one.
func (s *saying) readNeed(i int, f found) []step {
	least, most, from := s.heads(s.skip(i, fillersToo))
	var out []step
	for _, st := range s.readThing(crews|machines, s.skip(from, fillersToo), found{}) {
		next, th, need := f, st.things[0], schedule.NewNeed{Name: st.things[0].id, Least: least, Most: most}
		if st.doubt != "" {
			next = next.doubting(st.doubt)
		}
		if least == 0 {
			need.Least, need.Most, st.to = s.heads(st.to)
		}
		if need.Least == 0 && th.kind == crews {
			next = next.doubting("say how many of " + th.id + ", like 2 " + th.id)
		}
		need.Least, need.Most = max(need.Least, 1), max(need.Most, 1)
		next.needs = append(f.needs[:len(f.needs):len(f.needs)], need)
		out = append(out, step{next, st.to})
	}
	return out
}

// heads reads a number or a range of them, like "2 to 4" or 2..4, from word i on; 0 when there is
// none.
func (s *saying) heads(i int) (least, most, to int) {
	least = whole(s.at(i))
	if _, end, ok := s.lengthAt(i); least < 1 || ok && end > i {
		return 0, 0, i
	}
	for _, between := range [...][]string{{".", "."}, {"to"}, {"-"}, {"or"}} {
		at := i + 1 + len(between)
		if most = whole(s.at(at)); s.are(i+1, between...) && most > least {
			return least, most, at + 1
		}
	}
	return least, least, i + 1
}

// needs is tasks that need crews and machines.
func needs(g *Garden, f found) []meaning[schedule.Change] {
	set := func(c *schedule.Change, f found) { c.New = &schedule.NewWork{Needs: f.needs} }
	return each(schedule.ChangeNeeds, set)(g, f)
}

// insteadOf is tasks that need crews or machines, and others no more.
func insteadOf(g *Garden, f found) []meaning[schedule.Change] {
	get, lose := needs(g, f), without(g, f)
	return as(f, slices.Concat(get[0].list, lose[0].list)...)
}

// moreAt is more or fewer of a crew at a task than it needs by the plan.
func moreAt(g *Garden, f found) []meaning[schedule.Change] {
	f.things, f.others = f.others, f.things
	return moreOn(g, found{things: f.things, others: f.others, count: max(f.count, 1), fewer: f.fewer, doubt: f.doubt})
}

// moreOn is moreAt with the task named first.
func moreOn(g *Garden, f found) []meaning[schedule.Change] {
	if len(f.things) > 0 && f.things[0].kind == crews {
		f.things, f.others = f.others, f.things
	}
	f.count = max(f.count, 1)
	if f.fewer {
		f.count = -f.count
	}
	var list []schedule.Change
	for _, th := range f.things {
		c := change(schedule.ChangeNeeds)
		c.Name, c.New = th.id, &schedule.NewWork{}
		for _, crew := range f.others {
			need := schedule.NewNeed{Name: crew.id, Least: f.count, Most: f.count}
			for _, n := range g.Plan.Tasks[th.at].Crew {
				if int(n.Crew) == crew.at {
					need.Least, need.Most = n.Least+f.count, n.Most+f.count
				}
			}
			if need.Least < 1 {
				return asking[schedule.Change](f, fmt.Sprintf("nobody of %s would be left: say %q",
					crew.id, th.id+" without "+crew.id))
			}
			c.New.Needs = append(c.New.Needs, need)
		}
		list = append(list, c)
	}
	return as(f, list...)
}

// ofOthers sets what a change names beside its own name.
func ofOthers(c *schedule.Change, f found) { c.After = idsOf(f.others) }

func idsOf(list []thing) []string {
	var out []string
	for _, th := range list {
		out = append(out, th.id)
	}
	return out
}

// without is tasks that do without crews, machines or lorries.
func without(g *Garden, f found) []meaning[schedule.Change] {
	return each(schedule.ChangeWithout, ofOthers)(g, f)
}

// uses is tasks that use lorries.
func uses(g *Garden, f found) []meaning[schedule.Change] {
	return each(schedule.ChangeUses, ofOthers)(g, f)
}

// inZones is tasks in other zones.
func inZones(g *Garden, f found) []meaning[schedule.Change] {
	set := func(c *schedule.Change, f found) { c.New = &schedule.NewWork{Zones: idsOf(f.others)} }
	return each(schedule.ChangeZones, set)(g, f)
}

// renamed is a task or a lorry that is called otherwise.
func renamed(g *Garden, f found) []meaning[schedule.Change] {
	name := plainName(f.text)
	if len(f.things) > 1 || name == "" {
		return asking[schedule.Change](f, "say of each by itself what it is called")
	}
	if f.things[0].kind == tasks {
		name = titled(f.text)
	}
	f.free = -f.free // all of it is read: the longest name is meant
	set := func(c *schedule.Change, _ found) {
		c.New = &schedule.NewWork{Name: strings.Trim(name, `"“”`)}
	}
	return each(schedule.ChangeName, set)(g, f)
}

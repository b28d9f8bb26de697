package use_test

import (
	"testing"
	_ "time/tzdata"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/use"
)

// TestEveryUse checks random plans in both scopes, minute by minute: use that
// no slot of ours covers is to be booked, and what is given back is ours and
// unused.
func TestEveryUse(t *testing.T) {
	booked, returned := 0, 0
	for seed, c := range randomCases() {
		for _, m := range use.Machines(c) {
			b, r := checkMachine(t, seed, c.Plan, c.Programme, m)
			booked, returned = booked+b, returned+r
		}
	}
	if booked == 0 || returned == 0 {
		t.Errorf("%d minutes to book, %d to give back: the plans show nothing", booked, returned)
	}
}

// checkMachine compares one machine with its use by minute, and counts the
// minutes that are to be booked and given back.
func checkMachine(t *testing.T, seed uint64, p *schedule.Plan,
	g *schedule.Programme, m use.Machine) (booked, returned int) {
	t.Helper()
	name, ours := p.Machines[m.Machine].ID, p.Machines[m.Machine].Ours
	used := worked(p, g, m.Machine)
	var needed calendars.Minutes
	for at, n := range used {
		needed += calendars.Minutes(n)
		if !inAny(ours, at) {
			booked++
			if !inSlot(m.Book, at) {
				t.Fatalf("seed %d: %s is used at %d, neither ours nor to be booked", seed, name, at)
			}
		}
	}
	if m.Needed < needed {
		t.Errorf("seed %d: %s needed %d, works %d", seed, name, m.Needed, needed)
	}
	for _, slot := range m.Return {
		for at := slot.Span.Start; at < slot.Span.End; at++ {
			returned++
			if used[at] > 0 {
				t.Fatalf("seed %d: %s is given back at %d and used", seed, name, at)
			}
		}
	}
	return booked, returned
}

// worked counts the machines at work by minute; what stands in pauses is left out.
func worked(p *schedule.Plan, g *schedule.Programme, m schedule.MachineID) map[calendars.Instant]int {
	out := map[calendars.Instant]int{}
	add := func(needs []schedule.MachineNeed, spans ...calendars.Span) {
		for _, need := range needs {
			for _, s := range spans {
				for at := s.Start; at < s.End && need.Machine == m; at++ {
					out[at] += need.Count
				}
			}
		}
	}
	for i := range p.Tasks {
		if d := &g.Tasks[i]; !d.Dropped && d.Start.IsReal() {
			add(p.Tasks[i].Machines, d.Work...)
		}
	}
	for i := range p.Deliveries {
		if u := &g.Unloads[i]; u.Start.IsReal() {
			add(p.Deliveries[i].Unload.Machines, calendars.Span{Start: u.Start, End: u.Finish})
		}
	}
	return out
}

func inAny(spans []calendars.Span, at calendars.Instant) bool {
	for _, s := range spans {
		if s.Holds(at) {
			return true
		}
	}
	return false
}

func inSlot(slots []use.Slot, at calendars.Instant) bool {
	for _, s := range slots {
		if s.Span.Holds(at) {
			return true
		}
	}
	return false
}

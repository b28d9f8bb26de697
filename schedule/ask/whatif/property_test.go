package whatif_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
)

// someChange is a change of some kind to a plan, as text.
func someChange(src plans.Source, p *schedule.Plan) string {
	in := src.Int
	either := func(a, b string) string { return []string{a, b}[in(0, 1)] }
	first := calendars.DateIn(p.Site.Opens, p.Site.Location)
	date := func() string { return (first + calendars.Date(in(0, 6))).String() }
	length := func() string { return fmt.Sprintf("%dm", 15*in(1, 200)) }
	forms := []func() string{
		func() string {
			return p.Tasks[in(0, len(p.Tasks)-1)].ID + " " + length() + either(" longer", " shorter")
		},
		func() string { return "drop " + p.Tasks[in(0, len(p.Tasks)-1)].ID },
		func() string { return "wet on " + date() },
		func() string { return fmt.Sprintf("site open %s %02d:00 to %02d:00", date(), in(5, 12), in(13, 22)) },
		func() string { return fmt.Sprintf("site closed %s %02d:00 to %02d:00", date(), in(5, 12), in(13, 22)) },
		func() string {
			return p.Crews[in(0, len(p.Crews)-1)].ID + fmt.Sprintf(" %d ", in(1, 3)) + either("more", "fewer") + " on " + date()
		},
		func() string { return p.Crews[in(0, len(p.Crews)-1)].ID + " away on " + date() },
		func() string {
			return fmt.Sprintf("%s work %s %02d:00 to %02d:00", p.Crews[in(0, len(p.Crews)-1)].ID, date(), in(5, 12), in(13, 22))
		},
	}
	if n := len(p.Deliveries); n > 0 {
		forms = append(forms, func() string {
			return p.Deliveries[in(0, n-1)].ID + " " + length() + either(" later", " earlier")
		}, func() string { return fmt.Sprintf("%s on %s %02d:30", p.Deliveries[in(0, n-1)].ID, date(), in(5, 20)) })
	}
	if n := len(p.Machines); n > 0 {
		forms = append(forms, func() string {
			return fmt.Sprintf("%s away %s %02d:00 to %02d:00", p.Machines[in(0, n-1)].ID, date(), in(5, 12), in(13, 22))
		}, func() string {
			return fmt.Sprintf("%s ours %s %02d:00 to %02d:00", p.Machines[in(0, n-1)].ID, date(), in(5, 12), in(13, 22))
		})
	}
	for i := range p.Tasks {
		if h := p.Tasks[i].Hold; h != nil && len(h.Appointments) > 0 {
			forms = append(forms, func() string {
				return fmt.Sprintf("%s appointment %s %02d:15", p.Tasks[i].ID, date(), in(5, 20))
			})
		}
	}
	if n := len(p.Givens); n > 0 {
		forms = append(forms, func() string { return p.Givens[in(0, n-1)].ID + " " + length() + " later" })
	}
	forms = append(forms, getForms(src, p)...)
	return forms[in(0, len(forms)-1)]()
}

// getForms are changes of what tasks are and need.
func getForms(src plans.Source, p *schedule.Plan) []func() string {
	in := src.Int
	any := func() string { return p.Tasks[in(0, len(p.Tasks)-1)].ID }
	forms := []func() string{
		func() string {
			return fmt.Sprintf("%s needs %s %d", any(), p.Crews[in(0, len(p.Crews)-1)].ID, in(1, 4))
		},
		func() string { return any() + " without " + p.Crews[in(0, len(p.Crews)-1)].ID },
		func() string { return any() + " in " + p.Zones[in(0, len(p.Zones)-1)].ID },
		func() string { return fmt.Sprintf("%s cures %dh", any(), in(0, 30)) },
		func() string { return fmt.Sprintf(`rename %s to "Part %d"`, any(), in(1, 99)) },
		func() string {
			text := "link " + any() + " after " + any() + []string{"", ", start-start, lag 2h", ", within 3d", ", cure 5h",
				", finish-finish, lead 1h", ", start-finish"}[in(0, 5)]
			c, err := planfile.ParseChange(text)
			if err != nil {
				panic(err)
			}
			if q, err := whatif.Apply(p, []schedule.Change{c}); err == nil {
				if _, ring := solve.New(q); ring != nil {
					return "wet on 2027-05-04"
				}
			}
			return text
		},
		func() string { return "measure drop " + any() + ", cost 20" },
	}
	if n := len(p.Machines); n > 0 {
		forms = append(forms, func() string { return any() + " needs " + p.Machines[in(0, n-1)].ID + " 1" })
	}
	if n := len(p.Deliveries); n > 0 {
		lorry := func() string { return p.Deliveries[in(0, n-1)].ID }
		forms = append(forms, func() string { return "drop " + lorry() }, func() string { return any() + " uses " + lorry() },
			func() string { return any() + " without " + lorry() })
	}
	return forms
}

// same compares plans; two zones of one name are the same.
var same = cmp.Comparer(sameLocation)

// A few changes make a plan whose programmes pass their check, and leave the
// plan itself alone. Read back from their text they make the same plan.
func TestChangedPlans(t *testing.T) {
	for seed := range uint64(60) {
		src := plans.Seeded(seed + 1000)
		p, untouched := plans.Dryish(seed), plans.Dryish(seed)
		before := crews(t, p, nil)
		var list []schedule.Change
		q := p
		for range src.Int(1, 4) {
			next := append(list[:len(list):len(list)], changes(t, someChange(src, p))...)
			changed, err := whatif.Apply(p, next)
			if err != nil {
				continue // refused; TestApplyFaults has why
			}
			if _, err := solve.New(changed); err != nil {
				continue // a link closes a ring, which is told once it is solved
			}
			list, q = next, changed
		}
		var again []schedule.Change
		for _, c := range list {
			again = append(again, changes(t, c.String())...)
		}
		twice, err := whatif.Apply(p, again)
		if diff := cmp.Diff(q, twice, same); err != nil || diff != "" {
			t.Fatalf("plan %d, %v: %v\n%s", seed, list, err, diff)
		}
		if diff := cmp.Diff(untouched, p, same); diff != "" {
			t.Fatalf("plan %d: %v changed the plan itself\n%s", seed, list, diff)
		}
		after := crews(t, q, whatif.Reference(before, q))
		checkDifference(t, whatif.Compare(before, after))
		checkReads(t, q)
	}
}

// crews is a crew programme that passes its check, and so does the logic one.
func crews(t *testing.T, p *schedule.Plan, reference *schedule.Programme) network.Case {
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Crews(context.Background(), solve.Options{Schedules: 10, Reference: reference})
	for _, g := range []*schedule.Programme{c.Programme, s.Logic().Programme} {
		if found := verify.Check(p, g, g.Scope); len(found.Rules) > 0 {
			t.Fatalf("%v", found.Rules)
		}
	}
	return c
}

// checkReads checks that the reader accepts the changed plan, as far as a plan
// file can hold it.
func checkReads(t *testing.T, q *schedule.Plan) {
	said := *q
	said.Site.WetOn = nil
	said.Machines = append([]schedule.Machine(nil), q.Machines...)
	for i := range said.Machines {
		said.Machines[i].Away = nil
	}
	said.Tasks = append([]schedule.Task(nil), q.Tasks...)
	for i := range said.Tasks {
		if e := &said.Tasks[i].Effort; e.Shared() && e.Num*1000%(e.Den*60) != 0 && e.Amount == "" {
			*e = schedule.Effort{Num: 60, Den: 1} // more decimals than a file may have
		}
	}
	if read, problems := planfile.Read(strings.NewReader(plans.YAML(&said))); read == nil {
		t.Fatalf("the reader refuses it: %v\n%s", problems.Faults(), plans.YAML(&said))
	}
}

// checkDifference checks that everything that moved is listed, and nothing
// else.
func checkDifference(t *testing.T, d *whatif.Difference) {
	moved := make(map[string]bool)
	for _, m := range d.Moved {
		if m.Before != schedule.None {
			moved[d.Before.Plan.Tasks[m.Before].ID] = true
		}
	}
	for i := range d.Before.Plan.Tasks {
		id := d.Before.Plan.Tasks[i].ID
		a, b := d.Before.Programme.Tasks[i], schedule.TaskDates{Dropped: true}
		if j := d.After.Plan.FindTask(id); j != schedule.None {
			b = d.After.Programme.Tasks[j]
		}
		placed := func(t schedule.TaskDates) bool { return !t.Dropped && t.Start != calendars.Never }
		stays := placed(a) == placed(b) && (!placed(a) || a.Start == b.Start && a.Finish == b.Finish)
		if stays == moved[id] {
			t.Fatalf("%s: moved is %v, from %v-%v to %v-%v", id, moved[id], a.Start, a.Finish, b.Start, b.Finish)
		}
	}
	if len(d.Broken)+len(d.Still) != len(d.After.Programme.Breaks) || len(d.Mended) > len(d.Before.Programme.Breaks) {
		t.Fatalf("%d dates newly break and %d still, of %d", len(d.Broken), len(d.Still), len(d.After.Programme.Breaks))
	}
}

// Without changes the programme is again the one before, to the byte, whatever
// was tried in between.
func TestUndoneIsAsBefore(t *testing.T) {
	for seed := range uint64(25) {
		p := plans.Small(plans.Seeded(seed))
		before := crews(t, p, nil)
		if q, err := whatif.Apply(p, changes(t, someChange(plans.Seeded(seed), p))); err == nil {
			crews(t, q, whatif.Reference(before, q))
		}
		q, err := whatif.Apply(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(before.Programme, crews(t, q, nil).Programme); diff != "" {
			t.Fatalf("plan %d\n%s", seed, diff)
		}
	}
}

// A programme whose own starts are the reference stays as it is.
func TestReferenceHolds(t *testing.T) {
	for seed := range uint64(25) {
		p := plans.Small(plans.Seeded(seed))
		for i := range p.Tasks {
			p.Tasks[i].Optional = false
		}
		for i := range p.Deliveries {
			p.Deliveries[i].Movable = nil
		}
		held := crews(t, p, nil).Programme
		if held.Blocked != nil {
			continue // what is blocked has no dates to keep
		}
		if diff := cmp.Diff(held, crews(t, p, held).Programme); diff != "" {
			t.Fatalf("plan %d\n%s", seed, diff)
		}
	}
}

// Where nothing must come soon after something else, a later lorry can't make
// more possible: no programme then finishes before the earliest finish proven
// without it, and the logic finish gets no earlier.
func TestLaterNeverImprovesTheBound(t *testing.T) {
	for seed := range uint64(50) {
		p := lasting(plans.Small(plans.Seeded(seed)))
		if len(p.Deliveries) == 0 {
			continue
		}
		src := plans.Seeded(seed + 1000)
		late := fmt.Sprintf("%s %dm later", p.Deliveries[src.Int(0, len(p.Deliveries)-1)].ID, 15*src.Int(1, 400))
		q, err := whatif.Apply(p, changes(t, late))
		if err != nil {
			t.Fatal(err)
		}
		before, after := crews(t, p, nil).Programme, crews(t, q, nil).Programme
		if after.Blocked == nil && after.Finish < before.Bound {
			t.Fatalf("plan %d, %s: it finishes %d minutes before what was proven", seed, late, before.Bound-after.Finish)
		}
		was, _ := solve.New(p)
		now, _ := solve.New(q)
		if a, b := was.Logic().Programme.Finish, now.Logic().Programme.Finish; b < a {
			t.Fatalf("plan %d, %s: the logic finish comes %d minutes earlier", seed, late, a-b)
		}
	}
}

// lasting takes out of a plan what must come soon after something else, what
// may be left out and what may be booked again.
func lasting(p *schedule.Plan) *schedule.Plan {
	for i := range p.Tasks {
		p.Tasks[i].Optional = false
		for k := range p.Tasks[i].After {
			p.Tasks[i].After[k].HasWithin, p.Tasks[i].After[k].Within = false, 0
		}
	}
	for i := range p.Deliveries {
		p.Deliveries[i].Keep, p.Deliveries[i].Movable = 0, nil
		for k := range p.Deliveries[i].After {
			p.Deliveries[i].After[k].HasWithin, p.Deliveries[i].After[k].Within = false, 0
		}
	}
	return p
}

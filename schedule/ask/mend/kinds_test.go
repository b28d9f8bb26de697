package mend_test

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
)

// yard is a plan of which each test of kinds says the rest.
const yard = `garden: Small Yard
site:
  timezone: Europe/London
  opens: 2027-05-04 07:00
  handover: HANDOVER
  hours: {mon-fri: 07:00-17:00}
  gate: {at_once: 1, hours: {mon-fri: 08:00-10:00}}
zones:
  wall: {people: 6}
crews:
  masons: {people: 2}
  helpers: {people: 2}
`

// Of each kind of thing there is a plan that it alone mends: what is one's own call comes
// without "Ask", what others must grant with it.
func TestEachKindMends(t *testing.T) {
	for _, c := range []struct {
		name, handover, rest string
		held                 bool // the lorry isn't moved
		kind                 mend.Kind
		ask                  bool
		want                 []string
	}{
		{"a head more on a day", "2027-05-05 12:00", "tasks:\n" +
			"  face: {zone: wall, stage: cladding, crew: {masons: 2}, takes: 10h}\n" +
			"  cope: {zone: wall, stage: cladding, crew: {masons: 1}, takes: 10h}\n",
			false, mend.Heads, false, []string{"masons 1 more on 2027-05-04"}},
		{"a slot an hour longer", "2027-05-05 12:00",
			lifted("2027-05-04 08:00 to 2027-05-04 10:00, 2027-05-05 13:00 to 2027-05-05 15:00", "3h"),
			false, mend.Slots, false,
			[]string{"crane ours 2027-05-04 10:00 to 11:00", "crane ours 2027-05-05 07:00 to 12:00"}},
		{"a slot a day more", "2027-05-05 17:00",
			lifted("2027-05-04 08:00 to 2027-05-04 10:00, 2027-05-06 08:00 to 2027-05-06 10:00", "4h"),
			false, mend.Slots, false, []string{"crane ours 2027-05-05 07:00 to 17:00"}},
		{"an appointment more", "2027-05-05 17:00", "tasks:\n" +
			"  dig: {zone: wall, stage: groundworks, crew: {masons: 2}, takes: 12h, " +
			"hold_point: {what: depth, takes: 30m, by_appointment: [2027-05-04 16:00, 2027-05-06 10:00]}}\n",
			false, mend.Appointments, false, []string{"dig appointment 2027-05-05 09:00"}},
		{"an overlap that measures lists", "2027-05-05 07:00", "tasks:\n" +
			"  soil: {zone: wall, stage: soil, crew: {masons: 2}, takes: 10h}\n" +
			"  pots: {zone: wall, stage: planting, crew: {helpers: 2}, takes: 2h, after: [soil]}\n" +
			"measures:\n  - {overlap: [soil, pots], by: 2h, cost: 0}\n",
			false, mend.OwnMeasure, false, []string{"measure 0"}},
		{"a booking moved, before what must be asked for", "2027-05-04 17:00", slated,
			false, mend.Rebooked, false, []string{"slate on 2027-05-04 09:00"}},
		{"the gate open for longer", "2027-05-04 17:00", slated,
			true, mend.PlaceHours, true, []string{"gate open 2027-05-04 10:00 to 11:00"}},
	} {
		p := read(t, strings.Replace(yard, "HANDOVER", c.handover, 1)+c.rest)
		o := mend.Options{Schedules: few}
		if c.held {
			o.Held = []schedule.DeliveryID{0}
		}
		r, err := mend.Find(context.Background(), crews(t, p, nil), o)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, m := range r.Mends {
			if m.Brings == mend.EveryDate && (m.Kind() == c.kind || m.Ask == c.ask) {
				got = append(got, acted(&m.Act))
			}
			if m.Kind() == c.kind && m.Ask != c.ask {
				t.Errorf("%s: that it must be asked for is %v", c.name, m.Ask)
			}
		}
		if slices.Sort(got); !slices.Equal(got, sorted(c.want)) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// lifted is work that takes so long with a crane that has some slots.
func lifted(slots, takes string) string {
	return "machines:\n  crane: {count: 1, ours: [" + slots + "]}\ntasks:\n" +
		"  lift: {zone: wall, stage: structure, crew: {masons: 2}, machines: {crane: 1}, takes: " + takes + "}\n"
}

// slated is work that uses a lorry which comes too late to be unloaded that morning.
const slated = `deliveries:
  slate: {what: slate, arrives: 2027-05-04 09:30, unload: 1h}
tasks:
  face: {zone: wall, stage: cladding, crew: {masons: 2}, takes: 2h, uses: [slate]}
`

func sorted(list []string) []string {
	list = slices.Clone(list)
	slices.Sort(list)
	return list
}

// acted is an act as a change, or the place of a measure.
func acted(a *mend.Act) string {
	if a.Measure != schedule.None {
		return fmt.Sprintf("measure %d", a.Measure)
	}
	var all []string
	for _, c := range a.Changes {
		all = append(all, c.String())
	}
	return strings.Join(all, "; ")
}

// Nothing on the list loosens a cure, a hold point, loud hours, what a task clears or
// keeps apart, a wait or a rule, whether it mends anything or not.
func TestNothingIsLoosened(t *testing.T) {
	acts, kinds := 0, make(map[mend.Kind]int)
	for seed := range uint64(120) {
		c, ok := broken(t, seed)
		if !ok {
			continue
		}
		list := mend.Acts(c)
		for k := range list {
			a := &list[k]
			q, err := a.Apply(c.Plan)
			if err != nil {
				continue
			}
			acts++
			kinds[a.Kind()]++
			checkKept(t, c.Plan, q)
			for i := range q.Tasks {
				now := q.Tasks[i]
				was := c.Plan.Tasks[c.Plan.FindTask(now.ID)]
				if !reflect.DeepEqual(now.Dries, was.Dries) || now.Unbroken != was.Unbroken || now.Stays != was.Stays ||
					now.Closes != was.Closes || now.Loud != was.Loud || now.Weather != was.Weather ||
					now.NotBefore != was.NotBefore || now.By != was.By || now.OnBoards != was.OnBoards ||
					len(q.Tasks) == len(c.Plan.Tasks) && !reflect.DeepEqual(now.Apart, was.Apart) {
					t.Errorf("plan %d, %s: %s is loosened", seed, acted(a), now.ID)
				}
				if a.Measure == schedule.None && a.Kind() != mend.LeftOut && !reflect.DeepEqual(now.After, was.After) {
					t.Errorf("plan %d, %s: what %s waits for is loosened", seed, acted(a), now.ID)
				}
			}
		}
	}
	if acts < 500 || len(kinds) < 6 {
		t.Errorf("only %d acts of the kinds %v", acts, kinds)
	}
}

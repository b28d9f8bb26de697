package baseline_test

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/baseline"
)

// TestFreeze freezes programmes of random plans: the baselines read back the
// same, with the starts, finishes, heads and bookings that were agreed.
func TestFreeze(t *testing.T) {
	blocked := 0
	for seed := range uint64(60) {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		frozen := s.Crews(context.Background(), solve.Options{Schedules: 40})
		g := frozen.Programme
		if g.Blocked != nil {
			blocked++
		}
		b := baseline.Freeze(frozen)
		b.Number, b.Agreed, b.By, b.Why, b.Digest, b.Seed = 2, p.Site.Opens, "Ann", "rain", "sha256 0", seed
		var out bytes.Buffer
		if err := b.Write(&out, p.Site.Location); err != nil {
			t.Fatal(err)
		}
		back, err := baseline.Read(out.Bytes())
		if err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, out.String())
		}
		if diff := cmp.Diff(b, back); diff != "" {
			t.Fatalf("seed %d (-written +read):\n%s", seed, diff)
		}
		h := back.Programme(p)
		for i := range g.Tasks {
			a, c := &g.Tasks[i], &h.Tasks[i]
			without := g.HasNoPlace(schedule.Activity(i))
			if h.HasNoPlace(schedule.Activity(i)) != without || without && (c.Start.IsReal() || c.Dropped) {
				t.Fatalf("seed %d: %s has no place: %v, and read back %+v", seed, p.Tasks[i].ID, without, c)
			}
			if a.Dropped != c.Dropped || !a.Dropped && !without &&
				(a.Start != c.Start || a.Finish != c.Finish || a.Done != c.Done || cmp.Diff(a.Heads, c.Heads) != "") {
				t.Fatalf("seed %d: %s was %+v, is %+v", seed, p.Tasks[i].ID, a, c)
			}
		}
		for i := range g.Unloads {
			without := g.HasNoPlace(p.Unload(schedule.DeliveryID(i)))
			if h.HasNoPlace(p.Unload(schedule.DeliveryID(i))) != without {
				t.Fatalf("seed %d: %s has no place: %v", seed, p.Deliveries[i].ID, without)
			}
			if a, c := &g.Unloads[i], &h.Unloads[i]; a.Arrives != c.Arrives || a.Start != c.Start && !without {
				t.Fatalf("seed %d: %s was %+v, is %+v", seed, p.Deliveries[i].ID, a, c)
			}
		}
		if diff := baseline.Compare(b, back); len(diff) > 0 {
			t.Fatalf("seed %d: %v", seed, diff)
		}
	}
	if blocked < 3 {
		t.Errorf("in only %d programmes something has no place", blocked)
	}
}

func TestCompare(t *testing.T) {
	at := func(h int) calendars.Instant { return calendars.Instant(30_000_000 + 60*h) }
	task := func(id string, from, to int) baseline.Task {
		return baseline.Task{ID: id, Start: at(from), Finish: at(to), Done: at(to), Signed: at(to)}
	}
	out := func(id string) baseline.Task { return baseline.Task{ID: id, Dropped: true} }
	none := func(id string) baseline.Task { return baseline.Task{ID: id, NoPlace: true} }
	shut := func(id string, h int) baseline.Delivery {
		return baseline.Delivery{ID: id, Arrives: at(h), NoPlace: true}
	}
	lorry := func(id string, h int) baseline.Delivery {
		return baseline.Delivery{ID: id, Arrives: at(h), Start: at(h), Finish: at(h + 1)}
	}
	a := &baseline.Baseline{
		Tasks: []baseline.Task{task("same", 0, 1), task("moved", 1, 2),
			task("longer", 2, 3), task("gone", 3, 4), task("out", 4, 5), out("back"),
			none("never"), none("placed"), task("lost", 6, 7), none("left"), out("worse"), none("dead")},
		Deliveries: []baseline.Delivery{lorry("same", 0), lorry("moved", 1), lorry("gone", 2),
			lorry("lost", 3), shut("placed", 3), shut("never", 4), shut("booked", 5)},
	}
	b := &baseline.Baseline{
		Tasks: []baseline.Task{task("new", 9, 10), task("same", 0, 1),
			task("moved", 2, 3), task("longer", 2, 5), out("out"), task("back", 5, 6),
			none("never"), task("placed", 6, 7), none("lost"), out("left"), none("worse"), none("born")},
		Deliveries: []baseline.Delivery{lorry("same", 0), lorry("moved", 3), lorry("new", 4),
			shut("lost", 3), lorry("placed", 3), shut("never", 4), shut("booked", 6)},
	}
	want := []baseline.Difference{
		{ID: "new", Change: baseline.Added, Now: at(9), NowFinish: at(10)},
		{ID: "moved", Change: baseline.Moved, Was: at(1), Now: at(2), WasFinish: at(2), NowFinish: at(3)},
		{ID: "longer", Change: baseline.Longer, Was: at(2), Now: at(2), WasFinish: at(3), NowFinish: at(5)},
		{ID: "out", Change: baseline.LeftOut, Was: at(4), WasFinish: at(5)},
		{ID: "back", Change: baseline.PutBack, Now: at(5), NowFinish: at(6)},
		{ID: "placed", Change: baseline.Placed, Now: at(6), NowFinish: at(7)},
		{ID: "lost", Change: baseline.Lost, Was: at(6), WasFinish: at(7)},
		{ID: "left", Change: baseline.LeftOut},
		{ID: "worse", Change: baseline.Lost},
		{ID: "born", Change: baseline.Added, NoPlace: true},
		{ID: "gone", Change: baseline.Gone, Was: at(3), WasFinish: at(4)},
		{ID: "dead", Change: baseline.Gone, NoPlace: true},
		{ID: "moved", Delivery: true, Change: baseline.Moved, Was: at(1), Now: at(3), WasFinish: at(2), NowFinish: at(4)},
		{ID: "new", Delivery: true, Change: baseline.Added, Now: at(4), NowFinish: at(5)},
		{ID: "lost", Delivery: true, Change: baseline.Lost, Was: at(3), Now: at(3), WasFinish: at(4)},
		{ID: "placed", Delivery: true, Change: baseline.Placed, Was: at(3), Now: at(3), NowFinish: at(4)},
		{ID: "booked", Delivery: true, Change: baseline.Moved, Was: at(5), Now: at(6)},
		{ID: "gone", Delivery: true, Change: baseline.Gone, Was: at(2), WasFinish: at(3)},
	}
	if diff := cmp.Diff(want, baseline.Compare(a, b)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestReadFaults checks the place of a fault and what is wrong.
func TestReadFaults(t *testing.T) {
	const head = `{"baseline": 1, "garden": "g", "agreed": "2027-05-03T07:10+01:00", "by": "", "plan": "", "seed": 0,
 "finish": "2027-05-03T07:10+01:00", "handover": "2027-05-03T07:10+01:00", "margin_minutes": 0,
`
	tasks := func(list string) string { return head + ` "tasks": [` + list + `], "deliveries": []}` }
	for _, c := range []struct{ text, want string }{
		{"", "1:1: the baseline ends too soon"},
		{"{\n  \"baseline\": 2,\n", "3:1: the baseline ends too soon"},
		{`{"format": 2}`,
			"1:2: this baseline is of format 2, and this turflast reads up to 1: a newer one wrote it; use that one"},
		{"[]", "1:2: no array belongs here"},
		{tasks(`{"id": "a", "start": "soon"}`),
			`3:33: start "soon" is no moment; write it as 2027-05-03T07:10:00+01:00`},
		{tasks(`{"id": "a", "dropped": true}, {"id": "a", "dropped": true}`),
			`3:19: task "a" is there twice, or has no id`},
		{tasks(`{"id": "a", "dropped": true, "crew": [{"crew": "c", "heads": 1}]}`),
			"3:19: a is left out, so it has no dates and no crew"},
		{tasks(`{"id": "a", "no_place": true, "start": "2027-05-03T07:10:00+01:00"}`),
			"3:19: a has no place, so it has no dates and no crew"},
		{tasks(`{"id": "a", "no_place": true, "dropped": true}`),
			"3:19: a is left out, so it needs no place"},
		{strings.Replace(tasks(""), `"deliveries": []`, `"deliveries": [{"id": "d", "arrives": "2027-05-03T07:10:00Z",
 "finish": "2027-05-03T08:10:00Z", "no_place": true}]`, 1), "3:37: d has no place, so it isn't unloaded"},
		{tasks("") + " {}", "3:34: something follows the baseline"},
		{strings.Replace(tasks(""), `"baseline": 1`, `"baseline": 0`, 1),
			"1:2: a baseline needs its number, from 1"},
	} {
		_, err := baseline.Read([]byte(c.text))
		var fault *baseline.Fault
		if !errors.As(err, &fault) || err.Error() != c.want {
			t.Errorf("%s\ngot  %v\nwant %s", c.text, err, c.want)
		}
	}
}

// TestSeconds reads a file whose moments have no seconds, as older ones are
// written.
func TestSeconds(t *testing.T) {
	const at = 30_000_010
	b := &baseline.Baseline{
		Number: 1, Agreed: at, Finish: at, Handover: at, Tasks: []baseline.Task{
			{ID: "a", Start: at, Finish: at + 60, Done: at + 60, Signed: at + 60},
		},
	}
	var out bytes.Buffer
	if err := b.Write(&out, time.UTC); err != nil {
		t.Fatal(err)
	}
	if want := `"agreed": "2027-01-15T08:10:00Z"`; !strings.Contains(out.String(), want) {
		t.Errorf("no %s in\n%s", want, out.String())
	}
	older := strings.ReplaceAll(out.String(), ":00Z", "Z")
	back, err := baseline.Read([]byte(older))
	if diff := cmp.Diff(b, back); err != nil || diff != "" {
		t.Errorf("%v (-written +read):\n%s", err, diff)
	}
}

// FuzzRead reads any text; what is read is written and read back the same.
func FuzzRead(f *testing.F) {
	var out bytes.Buffer
	b := &baseline.Baseline{
		Number: 1, Agreed: 30_000_000, Finish: 30_000_000,
		Handover: 30_000_000, Tasks: []baseline.Task{{ID: "a", Dropped: true}},
	}
	if err := b.Write(&out, time.UTC); err != nil {
		f.Fatal(err)
	}
	f.Add(out.String())
	f.Add("{}")
	f.Fuzz(func(t *testing.T, text string) {
		b, err := baseline.Read([]byte(text))
		if err != nil {
			return
		}
		var again bytes.Buffer
		if err := b.Write(&again, time.UTC); err != nil {
			t.Fatal(err)
		}
		back, err := baseline.Read(again.Bytes())
		if diff := cmp.Diff(b, back); err != nil || diff != "" {
			t.Fatalf("%v\n%s", err, diff)
		}
	})
}

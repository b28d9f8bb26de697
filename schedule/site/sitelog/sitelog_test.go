package sitelog_test

import (
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

var london, _ = time.LoadLocation("Europe/London")

// at is a minute of Monday 3 May 2027 in London.
func at(clock string) calendars.Instant {
	t, err := time.ParseInLocation("2006-01-02 15:04", "2027-05-03 "+clock, london)
	if err != nil {
		panic(err)
	}
	return calendars.InstantOf(t)
}

func plan() *schedule.Plan {
	return &schedule.Plan{
		Site: schedule.Site{Location: london},
		Tasks: []schedule.Task{
			{ID: "set-out"}, {ID: "frame", Hold: &schedule.HoldPoint{What: "engineer signs"}},
			{ID: "wall", Hold: &schedule.HoldPoint{Appointments: []calendars.Instant{at("10:00"), at("15:00")}}},
			{ID: "pool", Hold: &schedule.HoldPoint{OnTheClock: true}},
		},
		Deliveries: []schedule.Delivery{{ID: "larch"}, {ID: "stone"}, {ID: "spoil", Out: true}},
		Crews:      []schedule.Crew{{ID: "joiners"}},
		Givens:     []schedule.Given{{ID: "power"}},
		Desk:       []schedule.DeskItem{{ID: "permit"}},
		Machines: []schedule.Machine{
			{ID: "crane", Ours: []calendars.Span{{Start: at("08:00"), End: at("12:00")}}}, {ID: "saw"}},
	}
}

// event is one of the tests' own, written a minute after it was true.
func event(id string, what sitelog.Kind, clock, about string) sitelog.Event {
	e := sitelog.Event{ID: id, What: what, At: at(clock), Written: at(clock) + 1, By: "Ann"}
	switch {
	case what.OfLorry():
		e.Delivery = about
	case what == sitelog.Settled:
		e.Desk = about
	case what == sitelog.Given:
		e.Given = about
	case what == sitelog.People:
		e.Crew = about
	case what == sitelog.Away, what == sitelog.Back:
		e.Machine = about
	case what == sitelog.SlotGot, what == sitelog.SlotLost:
		e.Machine, e.From, e.Until = about, at("13:00"), at("14:00")
	case what == sitelog.DutyDone:
		e.Duty = about
	case what == sitelog.SnagClosed, what == sitelog.Closed, what == sitelog.Undone:
		e.Of = about
	case what == sitelog.SnagOpened, what == sitelog.Note, what == sitelog.Wet, what == sitelog.Accident,
		what == sitelog.NearMiss:
		e.Text = about
	default:
		e.Task = about
	}
	return e
}

func why(e sitelog.Event, text string) sitelog.Event { e.Text = text; return e }

// TestCheck checks further events after a fixed few against what is wrong with
// them, word for word; the sentence is empty when nothing is.
func TestCheck(t *testing.T) {
	log := []sitelog.Event{
		event("a", sitelog.Started, "07:10", "set-out"),
		event("b", sitelog.Finished, "09:00", "set-out"),
		event("c", sitelog.Started, "09:05", "frame"),
		why(event("d", sitelog.Paused, "10:00", "frame"), "no screws"),
		event("e", sitelog.SnagOpened, "10:05", "a post leans"),
		event("f", sitelog.Arrived, "10:10", "stone"),
	}
	left := event("z", sitelog.Left, "11:00", "frame")
	left.Left = 120
	turnout := event("z", sitelog.People, "07:00", "joiners")
	turnout.Date, turnout.People = calendars.DateOf(2027, time.May, 3), 3
	booked := event("z", sitelog.Rebooked, "11:00", "larch")
	booked.To = at("10:00")
	rain := event("z", sitelog.Wet, "11:00", "")
	rain.Date = calendars.DateOf(2027, time.May, 4)
	shower := event("z", sitelog.Wet, "11:00", "")
	shower.Date, shower.From, shower.Until = calendars.DateOf(2027, time.May, 3), at("14:00"), at("15:00")
	for _, c := range []struct {
		e    sitelog.Event
		want string
	}{
		{left, ""},
		{booked, "it can't have been booked at Mon 3 May 11:00 for Mon 3 May 10:00, which was before that; " +
			"log its arrival if it has come"},
		{rain, "2027-05-04 is still to come; log the weather once it has been, " +
			`and try with "turflast whatif" what it would do`},
		{shower, "Mon 3 May 14:00 is in the future, by more than 10 minutes; log what has happened, once it has"},
		{turnout, ""},
		{event("z", sitelog.Resumed, "10:30", "frame"), ""},
		{event("z", sitelog.Finished, "12:00", "frame"), ""},
		{event("z", sitelog.Arrived, "06:50", "larch"), ""},
		{event("z", sitelog.Undone, "12:00", "d"), ""},
		{event("z", sitelog.Arrived, "10:30", "stone"), "stone has come already; undo that first if it was wrong"},
		{why(event("z", sitelog.Refused, "10:30", "stone"), "cracked"), ""},
		{event("z", sitelog.SnagClosed, "11:00", "e"), ""},
		{event("z", sitelog.Started, "07:20", "set-out"), "set-out is started already; undo that first if it was wrong"},
		{event("z", sitelog.Finished, "09:30", "set-out"), "set-out is finished already; undo that first if it was wrong"},
		{event("z", sitelog.Started, "07:00", "set-out"),
			"set-out is started already, Mon 3 May 07:10; undo that first if it was wrong"},
		{event("z", sitelog.Finished, "09:00", "frame"), "frame isn't started at that time; log its start first, " +
			"or both in one: finish it with --started TIME"},
		{event("z", sitelog.Resumed, "09:30", "frame"), "frame doesn't pause at that time"},
		{why(event("z", sitelog.Paused, "10:10", "frame"), "rain"), "frame pauses already"},
		{event("z", sitelog.Paused, "10:10", "frame"), `an event "paused" needs "text"`},
		{event("z", sitelog.Signed, "11:00", "set-out"), "set-out has no hold point to sign"},
		{event("z", sitelog.Signed, "11:00", "frame"), "frame isn't finished at that time; log its finish first"},
		{event("z", sitelog.Started, "11:00", "fram"), `the plan has no task "fram"; did you mean frame?`},
		{event("z", sitelog.Arrived, "11:00", "turf"), `the plan has no delivery "turf"`},
		{event("z", sitelog.Undone, "12:00", "q"), "no event has the id q; see log show"},
		{event("z", sitelog.Undone, "12:00", "a"),
			"event b (finished set-out, Mon 3 May 09:00) could then not have been; undo that first"},
		{event("z", sitelog.Started, "13:11", "frame"),
			"Mon 3 May 13:11 is in the future, by more than 10 minutes; log what has happened, once it has"},
		{event("a", sitelog.Arrived, "11:00", "larch"), "the log has an event a already"},
		{event("z", sitelog.Unloaded, "10:30", "stone"), ""},
		{event("z", sitelog.Unloaded, "10:00", "stone"),
			"event f (arrived stone, Mon 3 May 10:10) could then not have been; undo that first"},
		{event("z", sitelog.Unloaded, "10:30", "larch"), ""},
		{event("z", sitelog.Gone, "10:30", "stone"),
			"stone brings something; log it as unloaded, or as refused if it was sent away"},
		{event("z", sitelog.Unloaded, "10:30", "spoil"), "spoil is a collection; log it as gone once it is loaded"},
		{event("z", sitelog.Gone, "10:30", "spoil"), ""},
		{event("z", sitelog.Ordered, "10:00", "stone"), ""},
		{event("z", sitelog.Ordered, "10:30", "stone"), "stone has come already; undo that first if it was wrong"},
		{event("z", sitelog.Confirmed, "10:30", "larch"), ""},
		{event("z", sitelog.SnagClosed, "10:00", "e"), "no snag e is open at that time; see log show"},
	} {
		got := ""
		if err := sitelog.Check(plan(), log, &c.e, at("13:00")); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s of %s%s%s at %d:\ngot  %s\nwant %s", c.e.What, c.e.Task, c.e.Delivery, c.e.Of, c.e.At, got, c.want)
		}
	}
}

// TestRead reads a log with every fault that a line may have.
func TestRead(t *testing.T) {
	good := event("a", sitelog.Started, "07:10", "set-out")
	text := string(good.Line(london)) + `
{"id":"b","what":"started","at":"2027-05-03T07:10+01:00","written":"2027-05-03T07:11+01:00","by":"Ann","tsk":"set-out"}
{"id":"c","what":"begun","at":"2027-05-03T07:10+01:00","written":"2027-05-03T07:11+01:00","by":"Ann","task":"set-out"}
{"id":"d","what":"started","at":"3 May","written":"2027-05-03T07:11+01:00","by":"Ann","task":"set-out"}
not JSON
{"id":"e","what":"left","at":"2027-05-03T07:10+01:00","written":"2027-05-03T07:11+01:00","by":"Ann","task":"set-out"}
` + string(good.Line(london)) + `{"id":"f","what":"star`
	events, aside := sitelog.Read([]byte(text))
	if diff := cmp.Diff([]sitelog.Event{good}, events); diff != "" {
		t.Errorf("events (-want +got):\n%s", diff)
	}
	want := []sitelog.Aside{
		{Line: 3, Column: 104, Why: `"tsk" is no key of an event; did you mean "task"?`},
		{Line: 4, Column: 11, Why: `"begun" is no kind of event that this turflast knows`},
		{Line: 5, Column: 28, Why: `at "3 May" is no moment; write it as 2027-05-03T07:10:00+01:00`},
		{Line: 6, Column: 1, Why: `there should be '{' here; an event is a line like {"id": ..., "what": ...}`},
		{Line: 7, Column: 1, Why: `left_minutes belongs to an event "left", and to no other`},
		{Line: 9, Column: 1, Why: "the line has no end: its writing was cut off", Torn: true},
	}
	for i := range aside {
		aside[i].Text = ""
	}
	if diff := cmp.Diff(want, aside); diff != "" {
		t.Errorf("set aside (-want +got):\n%s", diff)
	}
}

// drawnEvents makes a log of events that mostly can be.
func drawnEvents(t *rapid.T, name string) []sitelog.Event {
	var out []sitelog.Event
	clocks := []string{"07:00", "08:00", "09:00", "10:00", "11:00"}
	for range rapid.IntRange(0, 8).Draw(t, name) {
		kind := rapid.SampledFrom(sitelog.Kinds()).Draw(t, "what")
		about := map[sitelog.Kind]string{sitelog.Given: "power", sitelog.Settled: "permit", sitelog.People: "joiners",
			sitelog.SlotGot: "crane", sitelog.SlotLost: "saw", sitelog.Away: "saw", sitelog.Back: "saw",
			sitelog.Undone:     rapid.SampledFrom([]string{"id0", "id1", "id2"}).Draw(t, "of"),
			sitelog.SnagClosed: "id1", sitelog.SnagOpened: "crack", sitelog.Note: "hm", sitelog.Wet: "",
			sitelog.DutyDone: "watering", sitelog.Accident: "a fall", sitelog.NearMiss: "a slip", sitelog.Closed: "id1",
			sitelog.Windy: "", sitelog.Frost: "", sitelog.Heat: ""}
		task, named := about[kind]
		switch {
		case kind.OfLorry():
			task = "larch"
		case !named:
			task = rapid.SampledFrom([]string{"set-out", "frame", "gone"}).Draw(t, "task")
		}
		e := event("id"+rapid.SampledFrom([]string{"0", "1", "2", "3", "4", "5", "6", "7"}).Draw(t, "id"), kind,
			rapid.SampledFrom(clocks).Draw(t, "at"), task)
		switch kind {
		case sitelog.Paused, sitelog.Failed, sitelog.Refused, sitelog.Short:
			e.Text = "so it was"
		case sitelog.Rebooked, sitelog.Appointed:
			e.To = at("12:00")
		case sitelog.Wet, sitelog.Windy, sitelog.Frost, sitelog.Heat, sitelog.People, sitelog.DutyDone:
			e.Date = calendars.DateOf(2027, time.May, 3)
		}
		more(t, &e)
		if err := e.Shape(); err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
		out = append(out, e)
	}
	return out
}

// TestMerge checks that merging is commutative, associative and idempotent, and
// loses nothing.
func TestMerge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawnEvents(t, "a"), drawnEvents(t, "b"), drawnEvents(t, "c")
		ab := sitelog.Merge(a, b)
		if diff := cmp.Diff(ab, sitelog.Merge(b, a)); diff != "" {
			t.Fatalf("not commutative:\n%s", diff)
		}
		if diff := cmp.Diff(sitelog.Merge(ab, c), sitelog.Merge(a, sitelog.Merge(b, c))); diff != "" {
			t.Fatalf("not associative:\n%s", diff)
		}
		if diff := cmp.Diff(ab, sitelog.Merge(ab, ab)); diff != "" {
			t.Fatalf("not idempotent:\n%s", diff)
		}
		for _, e := range slices.Concat(a, b) {
			if !slices.Contains(ab, e) {
				t.Fatalf("%v is lost", e)
			}
		}
	})
}

// TestSeconds merges a log with the same log written without seconds, as older
// ones are: every event is there once, with the same id.
func TestSeconds(t *testing.T) {
	rain := event("b", sitelog.Wet, "15:00", "")
	rain.Date, rain.From, rain.Until = calendars.DateOf(2027, time.May, 3), at("14:00"), at("15:00")
	booked := event("c", sitelog.Rebooked, "16:00", "larch")
	booked.To = at("16:30")
	want := []sitelog.Event{event("a", sitelog.Started, "07:10", "set-out"), rain, booked}
	var lines strings.Builder
	for i := range want {
		lines.Write(want[i].Line(london))
	}
	written := lines.String()
	if !strings.Contains(written, `"at":"2027-05-03T07:10:00+01:00"`) {
		t.Errorf("moments aren't RFC 3339:\n%s", written)
	}
	older := strings.ReplaceAll(written, ":00+01:00", "+01:00")
	var read [2][]sitelog.Event
	for i, text := range []string{written, older} {
		events, aside := sitelog.Read([]byte(text))
		if len(aside) > 0 {
			t.Fatalf("set aside: %v", aside)
		}
		read[i] = events
	}
	if diff := cmp.Diff(want, sitelog.Merge(read[0], read[1])); diff != "" {
		t.Errorf("(-want +merged):\n%s", diff)
	}
}

// TestReplay checks that the order of lines doesn't matter, that every event
// counts, is taken back or is shown as a conflict, and that an undo leaves the
// same state as a log without the event.
func TestReplay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := sitelog.Merge(drawnEvents(t, "events"), nil)
		s := sitelog.Replay(events, calendars.Never)
		mixed := rapid.Permutation(events).Draw(t, "mixed")
		if diff := cmp.Diff(s, sitelog.Replay(mixed, calendars.Never)); diff != "" {
			t.Fatalf("the order of lines matters:\n%s", diff)
		}
		if len(events) == 0 {
			return
		}
		victim := rapid.SampledFrom(events).Draw(t, "victim")
		if victim.What == sitelog.Undone || s.Undone[victim.ID] {
			return
		}
		undo := event("undo", sitelog.Undone, "12:00", victim.ID)
		got := sitelog.Replay(append(slices.Clone(events), undo), calendars.Never)
		want := sitelog.Replay(slices.DeleteFunc(slices.Clone(events),
			func(e sitelog.Event) bool { return e.ID == victim.ID }), calendars.Never)
		if diff := cmp.Diff(want.Tasks, got.Tasks); diff != "" {
			t.Fatalf("an undo of %s isn't as if it hadn't been:\n%s", victim.ID, diff)
		}
		if diff := cmp.Diff(want.Deliveries, got.Deliveries); diff != "" {
			t.Fatalf("deliveries:\n%s", diff)
		}
	})
}

// FuzzRead reads any text: the events in it are written and read back the same,
// and every line is an event or set aside.
func FuzzRead(f *testing.F) {
	good := event("a", sitelog.Started, "07:10", "set-out")
	f.Add(string(good.Line(london)))
	f.Add(`{"id":"b","what":"wet","at":"2027-05-03T07:10Z","written":"2027-05-03T07:10Z","by":"",` +
		`"date":"2027-05-03"}` + "\n" + "x")
	f.Add("{}\n[]\n\x00\n")
	f.Fuzz(func(t *testing.T, text string) {
		events, aside := sitelog.Read([]byte(text))
		var again strings.Builder
		for i := range events {
			again.Write(events[i].Line(time.UTC))
		}
		back, wrong := sitelog.Read([]byte(again.String()))
		if diff := cmp.Diff(events, back); diff != "" || len(wrong) > 0 {
			t.Fatalf("%v\n%s", wrong, diff)
		}
		lines := 0
		for line := range strings.Lines(text) {
			if strings.TrimSpace(line) != "" {
				lines++
			}
		}
		if len(aside) > lines || len(events)+len(aside) < min(lines, 1) {
			t.Fatalf("%d lines, %d events, %d set aside", lines, len(events), len(aside))
		}
	})
}

// A log that an editor saved: a byte order mark at the front and no end after the last line
// lose no event; what was cut off is set aside.
func TestReadWhatAnEditorLeft(t *testing.T) {
	one := `{"id":"a","what":"note","at":"2027-05-03T07:10:00Z","written":"2027-05-03T07:11:00Z","by":"Ann","text":"x"}`
	two := strings.Replace(one, `"a"`, `"b"`, 1)
	events, aside := sitelog.Read([]byte("\ufeff" + one + "\n" + two))
	if len(events) != 2 || len(aside) != 0 {
		t.Errorf("%d events, aside %v", len(events), aside)
	}
	events, aside = sitelog.Read([]byte(one + "\n" + two[:len(two)-1]))
	if len(events) != 1 || len(aside) != 1 || !aside[0].Torn {
		t.Errorf("%d events, aside %v", len(events), aside)
	}
}

// What can't be read back, or by people, isn't confirmed.
func TestCheckReadsBack(t *testing.T) {
	p := plan()
	on := func(year int) calendars.Instant {
		return calendars.InstantOf(time.Date(year, 5, 3, 7, 10, 0, 0, london))
	}
	note := func(year int, text string) *sitelog.Event {
		return &sitelog.Event{ID: "n", What: sitelog.Note, At: on(year), Written: on(year), By: "Ann", Text: text}
	}
	for _, test := range []struct {
		name string
		e    *sitelog.Event
		want string
	}{
		{"a clock that is far off", note(7000, "x"), "couldn't be read back"},
		{"a note that nobody reads", note(2027, strings.Repeat("é", sitelog.MostText+1)), "2001 characters is too long"},
		{"a line turned round", note(2027, "gate \u202eopen"), "turns the direction"},
		{"an isolate", note(2027, "gate \u2067open\u2069"), "turns the direction"},
	} {
		err := sitelog.Check(p, nil, test.e, on(7001))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v", test.name, err)
		}
	}
	for _, text := range []string{strings.Repeat("é", sitelog.MostText), "שער פתוח", "e\u0301 \U0001f331"} {
		if err := sitelog.Check(p, nil, note(2027, text), on(2028)); err != nil {
			t.Errorf("%.20q is refused: %v", text, err)
		}
	}
}

// A failed sign-off opens the work again: it is started or resumed, said to take so long, and
// finished anew, then signed; or it is signed without any of that, as older logs have it.
func TestPutRight(t *testing.T) {
	frame := func(k sitelog.Kind, clock string) sitelog.Event {
		e := event(string(k)+clock, k, clock, "frame")
		switch k {
		case sitelog.Failed, sitelog.Paused:
			e.Text = "leans"
		case sitelog.Left:
			e.Left = 90
		}
		return e
	}
	const started, finished, failed, signed = sitelog.Started, sitelog.Finished, sitelog.Failed, sitelog.Signed
	pause := func(from, to string) []calendars.Span {
		if to == "" {
			return []calendars.Span{{Start: at(from), End: calendars.Never}}
		}
		return []calendars.Span{{Start: at(from), End: at(to)}}
	}
	begun := []sitelog.Event{frame(started, "07:00"), frame(finished, "08:00"), frame(failed, "08:30")}
	for _, c := range []struct {
		name   string
		more   []sitelog.Event
		finish string // empty for none
		pauses []calendars.Span
		left   calendars.Minutes
	}{
		{"nothing since", nil, "", pause("08:00", ""), 0},
		{"how long is said", []sitelog.Event{frame(sitelog.Left, "08:40")}, "", pause("08:00", ""), 90},
		{"started", []sitelog.Event{frame(started, "09:00")}, "", pause("08:00", "09:00"), 0},
		{"resumed", []sitelog.Event{frame(sitelog.Resumed, "09:00")}, "", pause("08:00", "09:00"), 0},
		{"finished at once", []sitelog.Event{frame(finished, "10:00")}, "10:00", pause("08:00", "10:00"), 0},
		{"signed unticked", []sitelog.Event{frame(signed, "10:00")}, "08:00", nil, 0},
		{"failed twice", []sitelog.Event{frame(sitelog.Left, "08:40"), frame(failed, "09:00")}, "", pause("08:00", ""), 0},
		{"signed while in hand", []sitelog.Event{frame(started, "09:00"), frame(signed, "10:00")}, "10:00",
			pause("08:00", "09:00"), 0},
		{"failed again while in hand", []sitelog.Event{frame(started, "09:00"), frame(failed, "10:00")}, "",
			append(pause("08:00", "09:00"), pause("10:00", "")...), 0},
		{"failed again once put right, then signed", []sitelog.Event{frame(finished, "09:00"), frame(failed, "10:00"),
			frame(signed, "11:00")}, "09:00", pause("08:00", "09:00"), 0},
	} {
		s := sitelog.Replay(append(slices.Clone(begun), c.more...), calendars.Never)
		if len(s.Conflicts) > 0 {
			t.Errorf("%s: %v", c.name, s.Conflicts)
		}
		want, got := calendars.Instant(0), s.Tasks["frame"]
		if c.finish != "" {
			want = at(c.finish)
		}
		if got.Finish != want || !slices.Equal(got.Pauses, c.pauses) || got.Left != c.left || got.Before != at("08:00") ||
			got.PutRight() != (c.finish == "") || got.Wrong != "leans" {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
	for _, c := range []struct {
		more []sitelog.Event
		want string
	}{
		{[]sitelog.Event{frame(sitelog.Paused, "09:00")}, "frame pauses already"},
		{[]sitelog.Event{frame(started, "09:00"), frame(started, "09:30")},
			"frame is being put right already; undo that first if it was wrong"},
		{[]sitelog.Event{frame(finished, "09:00"), frame(started, "09:30")},
			"frame is started already; undo that first if it was wrong"},
		{[]sitelog.Event{frame(signed, "09:00"), frame(sitelog.Left, "09:30")},
			"frame is finished already; undo that first if it was wrong"},
	} {
		s := sitelog.Replay(append(slices.Clone(begun), c.more...), calendars.Never)
		if len(s.Conflicts) != 1 || s.Conflicts[0].Why != c.want {
			t.Errorf("%v, want %s", s.Conflicts, c.want)
		}
	}
}

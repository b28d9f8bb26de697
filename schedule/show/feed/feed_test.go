package feed_test

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/hostile"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/feed"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/testdata"
)

// clocksChange is a garden over the night of 28 March 2027, when the clocks in London go
// forward.
const clocksChange = `
garden: One
site: {timezone: Europe/London, opens: 2027-03-26 07:00, handover: 2027-03-31 15:00, hours: {mon-sun: 07:00-12:00 13:00-17:00}}
zones: {lawn: {}, rear: {}}
crews: {gang: {name: The gang, people: 2}, stone: {people: 2}}
machines: {crane: {count: 1, ours: [2027-03-28 00:00 to 2027-03-28 02:30]}}
deliveries:
  turf: {what: 40 m2 turf, arrives: 2027-03-28 07:00, unload: {takes: 30m, crew: {gang: 1}}, order_ahead: 2w}
tasks:
  dig: {name: Dig, zone: lawn, stage: soil, crew: {gang: 2}, takes: 25h, note: mind the roots}
  wall: {name: Wall, zone: rear, stage: structure, crew: {gang: 1, stone: 1}, takes: 3h, after: [dig],
    hold_point: {what: engineer signs, takes: 30m, notice: 36h}}
  sit: {name: Let it settle, zone: rear, stage: soil, takes: 1h, after: [wall]}
`

var wednesday = time.Date(2027, 3, 10, 12, 0, 0, 0, time.UTC)

func plan(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return p
}

func entries(t *testing.T, p *schedule.Plan) []feed.Entry {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return feed.Entries(sheets.New(s.Logic(), sheets.Number(p)), 0)
}

func text(t *testing.T, l *feed.Ledger, list []feed.Entry, c feed.Choice) string {
	t.Helper()
	var b bytes.Buffer
	if err := feed.Write(&b, l, list, c); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// event is an entry as an independent reader finds it.
type event struct {
	begins, ends, title, where, notes, alarm string
	sequence                                 string
	off                                      bool
}

// read reads a calendar with an independent reader.
func read(t *testing.T, text string) map[string]event {
	t.Helper()
	c, err := ics.ParseCalendar(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]event{}
	for _, e := range c.Events() {
		get := func(name ics.ComponentProperty) string {
			if p := e.GetProperty(name); p != nil {
				return p.Value
			}
			return ""
		}
		x := event{
			begins: get(ics.ComponentPropertyDtStart), ends: get(ics.ComponentPropertyDtEnd),
			title: get(ics.ComponentPropertySummary), where: get(ics.ComponentPropertyLocation),
			notes: get(ics.ComponentPropertyDescription), sequence: get(ics.ComponentPropertySequence),
			off: get(ics.ComponentPropertyStatus) == "CANCELLED",
		}
		for _, a := range e.Alarms() {
			x.alarm = a.GetProperty(ics.ComponentPropertyTrigger).Value
		}
		if _, twice := out[e.Id()]; twice {
			t.Errorf("%s is there twice", e.Id())
		}
		out[e.Id()] = x
	}
	return out
}

// Moments are right before and after the clocks change, and alarms are where they belong.
func TestMomentsWhenTheClocksChange(t *testing.T) {
	p := plan(t, clocksChange)
	l := feed.NewLedger(p.Garden, p.Site.Handover.In(p.Site.Location))
	list := entries(t, p)
	l.Revise(list, wednesday)
	got := read(t, text(t, l, list, feed.Choice{Name: p.Garden}))
	for key, want := range map[string]event{
		"task.dig.gang.1": {begins: "20270326T070000Z", ends: "20270326T170000Z", title: "Dig", where: "lawn",
			notes: "Day 1 of 3.\nThe gang 2.\nmind the roots"},
		"task.dig.gang.3": {begins: "20270328T060000Z", ends: "20270328T140000Z", title: "Dig", where: "lawn",
			notes: "Day 3 of 3.\nThe gang 2.\nmind the roots"},
		"task.sit.1": {begins: "20270329T073000Z", ends: "20270329T083000Z", title: "Let it settle", where: "rear"},
		"lorry.turf": {begins: "20270328T060000Z", ends: "20270328T063000Z", title: "Lorry: 40 m2 turf", where: "One",
			notes: "Unloading from Sun 28 Mar 07:00 until 07:30.\nThe gang 1.", alarm: "-P1D"},
		"slot.crane.1": {begins: "20270328T000000Z", ends: "20270328T013000Z", title: "crane is ours", where: "One",
			alarm: "-P1D"},
		"order.turf": {begins: "20270314", title: "Last day to order: 40 m2 turf", where: "One",
			notes: "To come Sun 28 Mar 07:00.", alarm: "-PT15H"},
		"handover": {begins: "20270331T140000Z", title: "Hand-over: One", where: "One"},
	} {
		x, there := got[key+"@"+l.Plan+".turflast"]
		x.sequence = ""
		if !there || x != want {
			t.Errorf("%s: %+v, want %+v", key, x, want)
		}
	}
	if x := got["sign.wall@"+l.Plan+".turflast"]; x.alarm != "-PT36H" || x.title != "Sign-off: engineer signs (Wall)" {
		t.Errorf("the sign-off: %+v", x)
	}
	stone := read(t, text(t, l, list, feed.Choice{Crew: "stone"}))
	if len(stone) != 4 { // two days of the wall, its sign-off, the hand-over
		t.Errorf("stone has %v", stone)
	}
	orders := read(t, text(t, l, list, feed.Choice{Kinds: []feed.Kind{feed.Order}}))
	if len(orders) != 1 {
		t.Errorf("orders alone: %v", orders)
	}
}

// take reads a feed into a calendar as RFC 5546 says: what has a higher or equal sequence
// takes the place of what has its identifier, and what is called off goes.
func take(calendar, feed map[string]event) {
	for id, x := range feed {
		if was, known := calendar[id]; known && len(x.sequence) == len(was.sequence) && x.sequence < was.sequence {
			continue
		}
		if calendar[id] = x; x.off {
			delete(calendar, id)
		}
	}
}

// A calendar that reads a feed again after each change has what a fresh one has, and no more.
func TestReadingAgainDoublesNothing(t *testing.T) {
	change := strings.NewReplacer
	texts := []string{
		clocksChange,
		change("arrives: 2027-03-28 07:00", "arrives: 2027-03-28 09:00").Replace(clocksChange), // moved
		change("garden: One", "garden: Another", "name: Dig", "name: Dig deep").Replace(clocksChange),
		change("takes: 25h", "takes: 8h").Replace(clocksChange),                                // fewer days
		change(", order_ahead: 2w", "").Replace(clocksChange),                                  // no order any more
		strings.Split(clocksChange, "  sit:")[0],                                               // a task leaves
		clocksChange,                                                                           // and comes back
		change("{gang: 1, stone: 1}, takes: 3h", "{gang: 1}, takes: 3h").Replace(clocksChange), // a crew leaves
		change("opens: 2027-03-26", "opens: 2027-03-27").Replace(clocksChange),
	}
	l := feed.NewLedger("One", wednesday)
	everyone, stone := map[string]event{}, map[string]event{}
	for i, s := range texts {
		p := plan(t, s)
		list := entries(t, p)
		now := wednesday.Add(time.Duration(i%3) * time.Minute) // the clock may even go back
		before := l.Text()
		if !l.Revise(list, now) {
			t.Errorf("change %d isn't noticed", i)
		}
		kept, err := feed.ReadLedger(l.Text())
		if err != nil {
			t.Fatal(err)
		}
		l = kept
		if l.Revise(list, now.Add(time.Hour)) {
			t.Errorf("change %d is told twice", i)
		}
		monotone(t, before, l.Text())
		take(everyone, read(t, text(t, l, list, feed.Choice{})))
		take(stone, read(t, text(t, l, list, feed.Choice{Crew: "stone"})))
		same(t, everyone, list, l, "")
		same(t, stone, list, l, "stone")
	}
	fresh := feed.NewLedger("One", wednesday)
	list := entries(t, plan(t, clocksChange))
	fresh.Revise(list, wednesday.Add(24*time.Hour))
	take(everyone, read(t, text(t, fresh, list, feed.Choice{})))
	same(t, everyone, list, fresh, "")
}

// same compares a calendar with the entries that it should have.
func same(t *testing.T, calendar map[string]event, list []feed.Entry, l *feed.Ledger, crew string) {
	t.Helper()
	want := 0
	for _, e := range list {
		if crew != "" && e.Kind != feed.Handover && !slices.Contains(e.For, crew) {
			continue
		}
		want++
		x, there := calendar[e.Key+"@"+l.Plan+".turflast"]
		begins := e.Start.In(time.UTC).Format("20060102T150405Z")
		if !there || x.title != e.Title || e.Kind != feed.Order && x.begins != begins {
			t.Errorf("%s is %+v, not %+v", e.Key, x, e)
		}
	}
	if len(calendar) != want {
		t.Errorf("the calendar has %d entries, not %d: %v", len(calendar), want, calendar)
	}
}

// monotone checks that no sequence went down, and that what changed went up.
func monotone(t *testing.T, before, after []byte) {
	t.Helper()
	was, is := &feed.Ledger{}, &feed.Ledger{}
	if json.Unmarshal(before, was) != nil || json.Unmarshal(after, is) != nil {
		t.Fatal("a ledger doesn't read")
	}
	for _, a := range was.Entries {
		i := slices.IndexFunc(is.Entries, func(b feed.Record) bool { return b.Key == a.Key })
		switch {
		case i < 0:
			t.Errorf("%s is forgotten", a.Key)
		case is.Entries[i].Sequence < a.Sequence:
			t.Errorf("%s: the sequence goes down", a.Key)
		case is.Entries[i].Sequence == a.Sequence && (is.Entries[i].Says != a.Says || is.Entries[i].Gone != a.Gone):
			t.Errorf("%s has changed, and its sequence hasn't", a.Key)
		}
	}
}

// Hostile names come through whole, folded within no character.
func TestHostileNamesInCalendars(t *testing.T) {
	p, _ := hostile.Plan(plan(t, testdata.Demo))
	l := feed.NewLedger(p.Garden, p.Site.Handover.In(p.Site.Location))
	list := entries(t, p)
	l.Revise(list, wednesday)
	got := text(t, l, list, feed.Choice{Name: p.Garden})
	for line := range strings.SplitSeq(strings.TrimSuffix(got, "\r\n"), "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) || strings.ContainsAny(line, "\r\n") {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
	}
	events := read(t, got)
	for _, e := range list {
		if x := events[e.Key+"@"+l.Plan+".turflast"]; x.title != e.Title || x.where != e.Where || x.notes != e.Notes {
			t.Errorf("%s reads back as %+v, not %+v", e.Key, x, e)
		}
	}
	if len(events) != len(list) {
		t.Errorf("%d events of %d entries", len(events), len(list))
	}
}

// What a note could bring in, though no plan file can, does nothing.
func TestRawTextsInCalendars(t *testing.T) {
	for _, raw := range hostile.Raw {
		list := []feed.Entry{{Key: "handover", Kind: feed.Handover, Start: 1e6, End: 1e6, Title: raw, Notes: raw}}
		l := feed.NewLedger("One", wednesday)
		l.Revise(list, wednesday)
		got := text(t, l, list, feed.Choice{Name: raw})
		for _, r := range strings.ReplaceAll(got, "\r\n", "") {
			if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 {
				t.Errorf("%q leaves %q", raw, r)
			}
		}
		if len(read(t, got)) != 1 {
			t.Errorf("%q makes more than one event of one", raw)
		}
	}
}

func TestReadLedgerRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":   "this is no file of calendar revisions that turflast wrote",
		"{}": "this is no file of calendar revisions that turflast wrote",
		`{"format": "turflast.calendar", "version": 2}`: "these calendar revisions are of format 2, " +
			"and this turflast reads up to 1: a newer one wrote them",
		`{"format": "turflast.calendar", "version": 1, "entries": [{"kind": "feast"}]}`: "this is no file of calendar " +
			"revisions that turflast wrote",
	} {
		if l, err := feed.ReadLedger([]byte(text)); l != nil || err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// Python's reader of calendars finds the same texts and moments. Old ones of it (4.0) take an
// escaped backslash before an n for a line break, so texts with backslashes are left aside.
func TestCalendarsReadElsewhere(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil || exec.Command(python, "-c", "import icalendar").Run() != nil {
		t.Skip("there is no python3 with icalendar to read them with")
	}
	const program = `import icalendar,json,sys
c=icalendar.Calendar.from_ical(sys.stdin.buffer.read())
json.dump({str(e["UID"]):[str(e["SUMMARY"]),str(e.get("DESCRIPTION","")),e.decoded("DTSTART").isoformat()]
  for e in c.walk("VEVENT")},sys.stdout)`
	p, _ := hostile.Plan(plan(t, testdata.Demo))
	l := feed.NewLedger(p.Garden, p.Site.Handover.In(p.Site.Location))
	list := entries(t, p)
	l.Revise(list, wednesday)
	cmd := exec.Command(python, "-c", program)
	cmd.Stdin = strings.NewReader(text(t, l, list, feed.Choice{Name: p.Garden}))
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var events map[string][]string
	if err := json.Unmarshal(out, &events); err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		begins := e.Day.String()
		if e.Kind != feed.Order {
			begins = e.Start.In(time.UTC).Format("2006-01-02T15:04:05-07:00")
		}
		if strings.Contains(e.Title+e.Notes, `\`) {
			continue
		}
		if got := events[e.Key+"@"+l.Plan+".turflast"]; !slices.Equal(got, []string{e.Title, e.Notes, begins}) {
			t.Errorf("%s reads as %q", e.Key, got)
		}
	}
}

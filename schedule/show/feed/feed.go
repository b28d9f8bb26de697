// Package feed writes what a programme dates as calendar entries (RFC 5545): the work of
// each crew by day, lorries, slots of machines, sign-offs, orders and the hand-over. A
// ledger, kept beside the plan, has the revision of each entry, so that a calendar that
// reads the feed again changes what it has and doubles nothing.
package feed

import (
	"fmt"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Kind is what an entry is about.
type Kind uint8

// The kinds.
const (
	Work     Kind = iota // of a crew, or a task without one, on a day
	Lorry                // at the gate
	Slot                 // of a machine that is ours
	SignOff              // a hold point
	Order                // the last day to place it
	Handover             // the line
)

// kindNames are their categories in calendars, and their names in a ledger.
var kindNames = [...]string{"work", "lorry", "machine", "sign-off", "order", "hand-over"}

// MarshalText is the kind's name.
func (k Kind) MarshalText() ([]byte, error) { return []byte(kindNames[k]), nil }

// UnmarshalText reads a kind's name.
func (k *Kind) UnmarshalText(text []byte) error {
	i := slices.Index(kindNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("%q is no kind of entry", text)
	}
	*k = Kind(i)
	return nil
}

// Entry is one entry of a calendar.
type Entry struct {
	Key  string // its own in the plan, whatever the dates
	Kind Kind
	For  []string // the ids of the crews in whose feed it stands; everyone's has all entries

	Start, End calendars.Instant
	Day        calendars.Date // of an order, in place of both: the whole day

	Title, Where, Notes string
	Alarm               calendars.Minutes // before the start, or the day; 0: none
}

// Entries are all entries of a programme, in the order of the plan. Optional work that is
// left out, and what has no place, has none.
func Entries(b *sheets.Book, now calendars.Instant) []Entry {
	e := &entries{Book: b, words: wording.New(b.Plan)}
	e.work()
	e.lorries()
	e.slots()
	e.signOffs()
	e.orders(now)
	p := b.Plan
	e.add(Entry{Key: "handover", Kind: Handover, Start: p.Site.Handover, End: p.Site.Handover,
		Title: e.words.FeedHandover(), Where: p.Garden, Notes: e.words.FeedAim()})
	return e.all
}

// entries collects the entries of one programme.
type entries struct {
	*sheets.Book
	words *wording.Writer
	all   []Entry
}

func (e *entries) add(x Entry) { e.all = append(e.all, x) }

// crews are the ids of crews that are needed.
func (e *entries) crews(needs []schedule.CrewNeed) []string {
	var ids []string
	for _, n := range needs {
		ids = append(ids, e.Plan.Crews[n.Crew].ID)
	}
	return ids
}

// work adds an entry for each crew of a task and each day on which it is worked on; the
// first day of a task is its first, whatever its date.
func (e *entries) work() {
	for i := range e.Plan.Tasks {
		t := &e.Plan.Tasks[i]
		d := &e.Programme.Tasks[i]
		if d.Dropped || !d.Start.IsReal() {
			continue
		}
		days := e.DaysOf(schedule.TaskID(i).Activity())
		for n, day := range days {
			x := Entry{
				Kind: Work, Start: day.Start, End: day.End, Title: t.Name,
				Where: e.words.Where(schedule.TaskID(i)), Notes: e.words.FeedWork(d.Heads, schedule.TaskID(i), n, len(days)),
			}
			if len(t.Crew) == 0 {
				x.Key = fmt.Sprintf("task.%s.%d", t.ID, n+1)
				e.add(x)
			}
			for _, need := range t.Crew {
				x.Key = fmt.Sprintf("task.%s.%s.%d", t.ID, e.Plan.Crews[need.Crew].ID, n+1)
				x.For = []string{e.Plan.Crews[need.Crew].ID}
				e.add(x)
			}
		}
	}
}

// lorries adds the lorries, from when they come until they are unloaded.
func (e *entries) lorries() {
	for i := range e.Plan.Deliveries {
		d, u := &e.Plan.Deliveries[i], &e.Programme.Unloads[i]
		if !u.Start.IsReal() {
			continue
		}
		x := Entry{
			Key: "lorry." + d.ID, Kind: Lorry, Start: u.Arrives, End: u.Finish, Title: e.words.FeedLorry(schedule.DeliveryID(i)),
			Where: e.Plan.Garden, Notes: e.words.FeedUnload(schedule.DeliveryID(i), u), Alarm: calendars.Day,
		}
		x.For = e.crews(d.Unload.Crew)
		e.add(x)
	}
}

// slots adds the slots of machines that are ours, in order.
func (e *entries) slots() {
	for i := range e.Plan.Machines {
		m := &e.Plan.Machines[i]
		for n, s := range m.Ours {
			e.add(Entry{Key: fmt.Sprintf("slot.%s.%d", m.ID, n+1), Kind: Slot, Start: s.Start, End: s.End,
				Title: e.words.FeedSlot(schedule.MachineID(i)), Where: e.Plan.Garden, Alarm: calendars.Day})
		}
	}
}

// signOffs adds the hold points, from when somebody must come.
func (e *entries) signOffs() {
	for _, a := range e.Appointments() {
		if !a.At.IsReal() {
			continue
		}
		x := Entry{
			Key: "sign." + e.Plan.Tasks[a.Task].ID, Kind: SignOff, Start: a.At, End: max(a.At, a.Over),
			Title: e.words.FeedSignOff(a.Task), Where: e.words.Where(a.Task), Notes: e.words.FeedSigned(e.Book, &a),
			Alarm: calendars.Day,
		}
		if a.Hold.Notice != nil && *a.Hold.Notice > 0 {
			x.Alarm = *a.Hold.Notice
		}
		x.For = e.crews(e.Plan.Tasks[a.Task].Crew)
		e.add(x)
	}
}

// orders adds what is still to be ordered, on the last day for it, with an alarm in the
// morning of the day before.
func (e *entries) orders(now calendars.Instant) {
	const morning = 15 * calendars.Hour // from nine o'clock to midnight
	for _, o := range sheets.Orders(e.Plan, e.Programme, now) {
		d := &e.Plan.Deliveries[o.Delivery]
		e.add(Entry{Key: "order." + d.ID, Kind: Order, Day: o.By, Title: e.words.FeedOrder(o.Delivery),
			Where: e.Plan.Garden, Notes: e.words.FeedOrdered(o.Arrives), Alarm: morning})
	}
}

package sitelog

import (
	"fmt"
	"slices"
	"time"

	"build.example/turflast/calendars"
)

// State is what the events of a log add up to, as at a moment. It includes what
// is said of things that the plan hasn't got.
type State struct {
	Tasks      map[string]*Task
	Deliveries map[string]*Delivery
	Givens     map[string]calendars.Instant // when each was there
	Desk       map[string]calendars.Instant // when each item of the desk list was settled
	Weather    []Event                      // wet, windy, frost and heat
	People     []Event
	Slots      []Event              // of machines: got and lost
	Away       map[string][]Absence // of machines, by id
	Duties     map[Due]*Event       // done, by which and on which date
	Accidents  []Snag               // and near misses
	Notes      []*Event
	Snags      []Snag
	Works      []Work          // that it adds to the plan
	Undone     map[string]bool // ids of the events taken back, undos too
	Events     []*Event        // those that count, in order
	Conflicts  []Conflict
}

// Task is what happened to one task.
type Task struct {
	Start, Finish  calendars.Instant // zero when it didn't
	Left           calendars.Minutes // what was said to be left
	LeftAt         calendars.Instant // when; zero when nothing was said
	Pauses         []calendars.Span  // the last ends Never while it goes on
	Signed, Failed calendars.Instant // zero when it wasn't; Failed also when it was signed after
	Wrong          string            // why it last failed
	Appointed      []Event           // what was agreed of its sign-off, in order
	Before         calendars.Instant // when its work was finished before it first failed; else zero
	Cancelled      calendars.Instant // when it was taken out of the plan; zero when it wasn't
	CancelledWhy   string
	SignedBy       string // who signed
	Condition      string // the id of the work on condition of which it was signed
	Teams          []Team // who is at it where that isn't as planned, in order
}

// PutRight says whether a task's sign-off, or another check, failed and putting it right isn't finished: its
// work is in hand again, and pauses until that begins.
func (t *Task) PutRight() bool { return t.Failed != 0 && t.Finish == 0 }

// Snag is something to put right, or an accident or near miss to be dealt with.
type Snag struct {
	Event
	Closed calendars.Instant // zero while it is open
}

// Conflict is an event that can't be beside those before it. It doesn't count.
type Conflict struct {
	Event Event
	Why   string // and what to do
}

// Replay adds up the events of a log that were true by a moment, in their
// order. Events that others have taken back are left out, at whatever moment
// that was written. The order of the list doesn't matter. Of two events that
// can't both be, the first holds.
func Replay(events []Event, upto calendars.Instant) *State { return replay(ordered(events), upto) }

// replay is [Replay] of events in their order, each once.
func replay(sorted []*Event, upto calendars.Instant) *State {
	s := &State{
		Tasks: make(map[string]*Task), Deliveries: make(map[string]*Delivery),
		Givens: make(map[string]calendars.Instant), Desk: make(map[string]calendars.Instant),
		Away: make(map[string][]Absence), Duties: make(map[Due]*Event),
		Undone: undone(sorted),
	}
	ids := make(map[string]bool, len(sorted))
	s.Events = make([]*Event, 0, len(sorted))
	for _, e := range sorted {
		if e.At > upto || s.Undone[e.ID] {
			continue
		}
		if ids[e.ID] {
			s.Conflicts = append(s.Conflicts, Conflict{*e, "another event has the same id; log it anew if it is true"})
			continue
		}
		ids[e.ID] = true
		if why := s.apply(e); why != "" {
			s.Conflicts = append(s.Conflicts, Conflict{*e, why})
			continue
		}
		s.Events = append(s.Events, e)
	}
	s.tell(sorted, upto)
	return s
}

// undone finds the events that are taken back by an event that isn't taken back
// itself.
func undone(events []*Event) map[string]bool {
	by := make(map[string][]string)
	for _, e := range events {
		if e.What == Undone {
			by[e.Of] = append(by[e.Of], e.ID)
		}
	}
	out := make(map[string]bool)
	asked := make(map[string]bool)
	var back func(id string) bool
	back = func(id string) bool {
		if asked[id] {
			return out[id]
		}
		asked[id] = true // an event that takes itself back in a ring takes back nothing
		for _, u := range by[id] {
			if !back(u) {
				out[id] = true
			}
		}
		return out[id]
	}
	for i := range events { // in their order, which settles a ring
		if e := events[i]; e.What == Undone {
			back(e.Of)
		}
	}
	return out
}

// tell shows undos of events that aren't there, and second undos of one event.
func (s *State) tell(events []*Event, upto calendars.Instant) {
	known, taken := make(map[string]bool), make(map[string]bool)
	for _, e := range events {
		if e.What == Undone {
			known[e.Of] = false
		}
	}
	for _, e := range events {
		if _, asked := known[e.ID]; asked {
			known[e.ID] = true
		}
	}
	for _, e := range events {
		if e.What != Undone || e.At > upto || s.Undone[e.ID] {
			continue
		}
		switch {
		case !known[e.Of]:
			s.Conflicts = append(s.Conflicts, Conflict{*e, fmt.Sprintf("no event has the id %s; see log show", e.Of)})
		case taken[e.Of]:
			s.Conflicts = append(s.Conflicts, Conflict{*e, fmt.Sprintf("%s is taken back already", e.Of)})
		}
		taken[e.Of] = true
	}
}

func (s *State) task(id string) *Task { return entry(s.Tasks, id) }

func (s *State) delivery(id string) *Delivery { return entry(s.Deliveries, id) }

// entry is the entry of an id, made when there is none.
func entry[T any](in map[string]*T, id string) *T {
	x, known := in[id]
	if !known {
		x = new(T)
		in[id] = x
	}
	return x
}

// apply adds an event, or says why it can't be.
func (s *State) apply(e *Event) (why string) {
	switch {
	case e.What.OfLorry():
		return s.lorry(e)
	case e.Machine != "" || e.What == Appointed:
		return s.booked(e)
	}
	switch e.What {
	case Started, Finished, Left, Paused, Resumed:
		return s.work(e)
	case Signed, Failed:
		return s.signOff(e)
	case Given, Settled:
		return s.give(e)
	case SnagClosed:
		return closed(s.Snags, "snag", e)
	case Closed:
		return closed(s.Accidents, "accident or near miss", e)
	case DutyDone:
		return s.duty(e)
	case Added:
		return s.add(Work{*e})
	case Cancelled:
		return s.cancel(e)
	}
	s.note(e)
	return ""
}

// note adds an event that can always be.
func (s *State) note(e *Event) {
	switch e.What {
	case Wet, Windy, Frost, Heat:
		s.Weather = append(s.Weather, *e)
	case People:
		s.People = append(s.People, *e)
	case Note:
		s.Notes = append(s.Notes, e)
	case SnagOpened:
		s.Snags = append(s.Snags, Snag{Event: *e})
	case Accident, NearMiss:
		s.Accidents = append(s.Accidents, Snag{Event: *e})
	}
}

// give adds that what others give is there, or that an item of the desk list is settled.
func (s *State) give(e *Event) string {
	if e.What == Settled {
		if _, done := s.Desk[e.Desk]; done {
			return fmt.Sprintf("%s is settled already; undo that first if it was wrong", e.Desk)
		}
		s.Desk[e.Desk] = e.At
		return ""
	}
	if _, there := s.Givens[e.Given]; there {
		return fmt.Sprintf("%s is given already; undo that first if it was wrong", e.Given)
	}
	s.Givens[e.Given] = e.At
	return ""
}

func (s *State) work(e *Event) string {
	t := s.task(e.Task)
	if why := t.cannot(e); why != "" {
		return e.Task + " " + why
	}
	switch e.What {
	case Started:
		t.joined(e)
		if t.PutRight() {
			t.goOn(e.At)
			break
		}
		t.Start = e.At
	case Finished:
		t.Finish = e.At
		t.goOn(e.At)
	case Left:
		t.Left, t.LeftAt = e.Left, e.At
	case Paused:
		t.Pauses = append(t.Pauses, calendars.Span{Start: e.At, End: calendars.Never})
	case Resumed:
		t.goOn(e.At)
	}
	return ""
}

// Paused says whether nobody is at a task that is in hand.
func (t *Task) Paused() bool {
	return len(t.Pauses) > 0 && t.Pauses[len(t.Pauses)-1].End == calendars.Never
}

// goOn ends a pause, if there is one.
func (t *Task) goOn(at calendars.Instant) {
	if t.Paused() {
		t.Pauses[len(t.Pauses)-1].End = at
	}
}

// cannot says why an event of a task's work can't be.
func (t *Task) cannot(e *Event) string {
	switch {
	case t.Cancelled != 0:
		return "is cancelled; undo that first if it goes on"
	case e.What == Started:
		return t.cannotStart()
	case t.Start == 0 && e.What == Finished:
		return "isn't started at that time; log its start first, or both in one: finish it with --started TIME"
	case t.Start == 0:
		return "isn't started at that time; log its start first"
	case t.Finish != 0:
		return "is finished already; undo that first if it was wrong"
	case e.What == Paused && t.Paused():
		return "pauses already"
	case e.What == Resumed && !t.Paused():
		return "doesn't pause at that time"
	}
	return ""
}

// cannotStart says why a task's work, or putting it right, can't be started.
func (t *Task) cannotStart() string {
	switch {
	case t.PutRight() && t.Paused(), t.Start == 0:
		return ""
	case t.PutRight():
		return "is being put right already; undo that first if it was wrong"
	}
	return "is started already; undo that first if it was wrong"
}

func (s *State) signOff(e *Event) string {
	t := s.task(e.Task)
	switch {
	case t.Cancelled != 0:
		return fmt.Sprintf("%s is cancelled; undo that first if it goes on", e.Task)
	case t.Finish == 0 && !t.PutRight():
		return fmt.Sprintf("%s isn't finished at that time; log its finish first", e.Task)
	case t.Signed != 0:
		return fmt.Sprintf("%s is signed already; undo that first if it was wrong", e.Task)
	case e.conditional():
		if why := s.add(Work{*e}); why != "" {
			return why
		}
		fallthrough
	case e.What == Signed:
		t.rightBy(e.At)
		t.Signed, t.SignedBy = e.At, e.Who
		if e.conditional() {
			t.Condition = (&Work{*e}).ID()
		}
	default:
		t.fail(e)
	}
	return ""
}

// fail opens a task's work again: it is to be put right, and nobody is at that yet.
func (t *Task) fail(e *Event) {
	since := e.At
	if t.Finish != 0 {
		since, t.Finish = t.Finish, 0
	}
	if t.Failed == 0 {
		t.Before = since
	}
	if !t.Paused() {
		t.Pauses = append(t.Pauses, calendars.Span{Start: since, End: calendars.Never})
	}
	t.Failed, t.Wrong, t.Left, t.LeftAt = e.At, e.Text, 0, 0
	if e.Takes != 0 {
		t.Left, t.LeftAt = e.Takes, e.At
	}
	t.joined(e)
}

// rightBy finishes what is put right without being ticked by the moment at which it is
// signed: when somebody was last known to be at it.
func (t *Task) rightBy(signed calendars.Instant) {
	switch last := len(t.Pauses) - 1; {
	case t.Finish != 0:
	case t.Paused():
		t.Finish, t.Pauses = t.Pauses[last].Start, t.Pauses[:last]
	default:
		t.Finish = signed
	}
}

// closed closes the one of some open things that an event names.
func closed(open []Snag, what string, e *Event) string {
	for k := range open {
		if x := &open[k]; x.ID == e.Of {
			if x.Closed != 0 {
				return fmt.Sprintf("the %s %s is closed already", what, e.Of)
			}
			x.Closed = e.At
			return ""
		}
	}
	return fmt.Sprintf("no %s %s is open at that time; see log show", what, e.Of)
}

// Merge is the events of two logs, each once, in order. It doesn't matter which
// log comes first, nor in what order several are merged. Two different events
// with one id both stay; [Replay] shows the second as a conflict.
func Merge(a, b []Event) []Event { return inOrder(slices.Concat(a, b)) }

// inOrder sorts events in place and keeps each once.
func inOrder(events []Event) []Event {
	slices.SortFunc(events, func(x, y Event) int { return compareAll(&x, &y) })
	return slices.Compact(events)
}

// ordered is events in order, each once, without a copy of any.
func ordered(events []Event, more ...*Event) []*Event {
	list := make([]*Event, 0, len(events)+len(more))
	for i := range events {
		list = append(list, &events[i])
	}
	list = append(list, more...)
	slices.SortFunc(list, compareAll)
	return slices.CompactFunc(list, func(a, b *Event) bool { return *a == *b })
}

// compareAll is compare, then by all that the events say: what is equal in that is one event.
func compareAll(x, y *Event) int {
	if by := compare(x, y); by != 0 || *x == *y {
		return by
	}
	return slices.Compare(x.Line(time.UTC), y.Line(time.UTC))
}

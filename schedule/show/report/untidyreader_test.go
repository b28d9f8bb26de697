package report_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
)

// ticked is what a log says of a task, read without the program's own replay.
type ticked struct {
	started, finished, failed, signed calendars.Instant

	open bool // begun, and not finished since it was started or failed
}

// reader checks the words of run sheets against a plan and its log.
type reader struct {
	p      *schedule.Plan
	at     calendars.Instant
	events []*sitelog.Event // those in force, in order
	tasks  []ticked
	signed map[string]bool // by id
	book   *sheets.Book
}

func newReader(p *schedule.Plan, b *sheets.Book, events []*sitelog.Event, at calendars.Instant) *reader {
	r := &reader{p: p, at: at, events: events, tasks: make([]ticked, len(p.Tasks)), book: b,
		signed: make(map[string]bool)}
	for _, e := range events {
		id := p.FindTask(e.Task)
		if id == schedule.None {
			continue
		}
		if e.What == sitelog.Signed {
			r.signed[e.Task] = true
		}
		switch x := &r.tasks[id]; e.What {
		case sitelog.Started:
			if x.started == 0 {
				x.started = e.At
			}
			x.open = true
		case sitelog.Cancelled:
			x.open = false
		case sitelog.Finished:
			x.finished, x.open = e.At, false
		case sitelog.Failed:
			x.failed, x.open = e.At, true
		case sitelog.Signed:
			x.signed, x.open = e.At, false
		}
	}
	return r
}

// facts are words that tell of something that happened, and the events that they tell of.
var facts = map[string]sitelog.Kind{
	"signed": sitelog.Signed, "done": sitelog.Finished, "unloaded": sitelog.Unloaded,
	"loaded": sitelog.Loaded, "gone": sitelog.Gone,
	"came": sitelog.Arrived, "started": sitelog.Started, "finished": sitelog.Finished, "begun": sitelog.Started,
	"failed": sitelog.Failed, "failed its sign-off": sitelog.Failed, "failed its check": sitelog.Failed,
	"cancelled": sitelog.Cancelled, "cancelled since": sitelog.Cancelled, "away since": sitelog.Away,
}

// told finds such a word with a moment behind it.
var told = regexp.MustCompile(`(?i)\b(will be |would be |to be )?` +
	`(signed|done|unloaded|loaded|gone|came|started|finished|begun|failed(?: its sign-off| its check)?|` +
	`cancelled(?: since)?|away since)((?: by)?) ` +
	`((?:\w{3} \d{1,2} \w{3} )?\d\d:\d\d)`)

// signer finds who signed, and when.
var signer = regexp.MustCompile(`signed ((?:\w{3} \d{1,2} \w{3} )?\d\d:\d\d) by (Ana Ruiz)`)

// plainly are words that tell of something that happened without a moment.
var plainly = map[string]sitelog.Kind{
	"refused at the gate": sitelog.Refused, ", paused; ": sitelog.Paused, "on condition: ": sitelog.Signed,
	" short: ": sitelog.Short, "put right since": sitelog.Failed,
}

// lies lists what a sheet tells as done that isn't logged.
func (r *reader) lies(text string) []string {
	var out []string
	for _, m := range told.FindAllStringSubmatch(text, -1) {
		if m[1] != "" || m[3] == " by" {
			continue // a forecast
		}
		word, then := strings.ToLower(m[2]), r.then(m[4])
		logged := func(e *sitelog.Event) bool { // what is gone is loaded
			return then(e.At) && (e.What == facts[word] || word == "loaded" && e.What == sitelog.Gone ||
				word == "done" && e.What == sitelog.DutyDone ||
				word == "finished" && r.signed[e.Task] && e.What != sitelog.Started) // when somebody was last at it
		}
		if !slices.ContainsFunc(r.events, logged) && (word != "done" || !r.over(then)) {
			out = append(out, m[0])
		}
	}
	for _, m := range signer.FindAllStringSubmatch(text, -1) {
		then := r.then(m[1])
		if !slices.ContainsFunc(r.events, func(e *sitelog.Event) bool { return then(e.At) && e.Who == m[2] }) {
			out = append(out, m[0])
		}
	}
	for words, kind := range plainly {
		is := func(e *sitelog.Event) bool { return e.What == kind && (kind != sitelog.Signed || e.Text != "") }
		if strings.Contains(strings.ToLower(text), words) && !slices.ContainsFunc(r.events, is) {
			out = append(out, words)
		}
	}
	return out
}

// then says of moments whether they are the one that is written.
func (r *reader) then(written string) func(calendars.Instant) bool {
	return func(at calendars.Instant) bool {
		local := at.In(r.p.Site.Location)
		return written == local.Format("15:04") || written == local.Format("Mon 2 Jan 15:04")
	}
}

// over says whether the work of a task is cured or signed at a moment that is past, which
// makes it done then.
func (r *reader) over(then func(calendars.Instant) bool) bool {
	for i := range r.tasks {
		x := &r.tasks[i]
		cured := x.finished.Plus(r.p.Tasks[i].Cure)
		if x.finished != 0 && !x.open && (cured <= r.at && then(cured) || x.signed != 0 && then(x.signed)) {
			return true
		}
	}
	return false
}

// misses lists the begun work that a crew's sheet leaves out or has after other work, and the
// failed sign-offs and checks that it doesn't tell.
func (r *reader) misses(text string, crew schedule.CrewID) []string {
	numbers, flat, first := heads(text), strings.Join(strings.Fields(text), " "), 0
	var out []string
	for i := range r.tasks {
		x, number := &r.tasks[i], r.book.Number(schedule.Activity(i))
		mine := sheets.Needs(r.p.Tasks[i].Crew, crew)
		if mine && x.open && !slices.Contains(numbers, number) {
			out = append(out, fmt.Sprintf("%d is begun", number))
		}
		if mine && x.open {
			first++
		}
		failed := fmt.Sprintf("(%d) failed its sign-off ", number)
		if r.p.Tasks[i].Hold == nil { // then it is right once it is ticked as finished again
			failed = fmt.Sprintf("(%d) failed its check ", number)
		}
		wrong := x.failed > x.signed && (r.p.Tasks[i].Hold != nil || x.open)
		if mine && wrong && !strings.Contains(flat, failed) {
			out = append(out, fmt.Sprintf("%d failed", number))
		}
	}
	for _, n := range numbers[:min(first, len(numbers))] {
		a := r.book.Numbers.Find(n)
		if t, task := r.p.Task(a); crew != sheets.Everyone && (!task || !r.tasks[t].open) {
			out = append(out, fmt.Sprintf("%d stands before begun work", n))
		}
	}
	return out
}

// atHead is the head of a line of work.
var atHead = regexp.MustCompile(`^(?:begun|\d\d:\d\d) +(\d+)  [^◌●]`)

func atoi(s string) (n int) {
	_, _ = fmt.Sscan(s, &n)
	return n
}

// heads are the numbers of the lines of work of a sheet.
func heads(text string) (numbers []int) {
	for line := range strings.Lines(text) {
		if m := atHead.FindStringSubmatch(line); m != nil {
			numbers = append(numbers, atoi(m[1]))
		}
	}
	return numbers
}

// again lists what a sheet of a day to come has as work though the log has it as over or cancelled.
func (r *reader) again(text string) (out []string) {
	for _, n := range heads(text) {
		a := r.book.Numbers.Find(n)
		if t, task := r.p.Task(a); task && r.tasks[t].finished != 0 && !r.tasks[t].open {
			out = append(out, fmt.Sprintf("%d is finished", n))
		}
		d, lorry := r.p.Delivery(a)
		if lorry && r.unloaded(r.p.Deliveries[d].ID) {
			out = append(out, fmt.Sprintf("%d is over", n))
		}
	}
	for _, e := range r.events {
		if e.What == sitelog.Cancelled && slices.Contains(heads(text), r.book.Numbers.Was(e.Task)) {
			out = append(out, e.Task+" is cancelled")
		}
	}
	return out
}

// unloaded says whether all of a load is logged as unloaded, or loaded and gone.
func (r *reader) unloaded(delivery string) (is bool) {
	for _, e := range r.events {
		switch {
		case e.Delivery != delivery:
		case e.What == sitelog.Short:
			return false
		case e.What == sitelog.Unloaded, e.What == sitelog.Gone:
			is = true
		}
	}
	return is
}

// unended is what the log has begun and not ended of what isn't work.
type unended struct {
	away       map[string]*sitelog.Event // machines, by id
	conditions map[string]bool           // tasks signed on condition
	hurt       map[string]*sitelog.Event // accidents and near misses
	refused    map[string]bool           // deliveries
}

func (r *reader) unended() *unended {
	o := &unended{make(map[string]*sitelog.Event), make(map[string]bool), make(map[string]*sitelog.Event),
		make(map[string]bool)}
	for _, e := range r.events {
		switch e.What {
		case sitelog.Away:
			o.away[e.Machine] = e
		case sitelog.Back:
			delete(o.away, e.Machine)
		case sitelog.Accident, sitelog.NearMiss:
			o.hurt[e.ID] = e
		case sitelog.Closed:
			delete(o.hurt, e.Of)
		case sitelog.Signed, sitelog.Failed:
			o.conditions[e.Task] = e.What == sitelog.Signed && e.Text != ""
		case sitelog.Refused, sitelog.Arrived, sitelog.Unloaded, sitelog.Gone:
			o.refused[e.Delivery] = e.What == sitelog.Refused
		}
	}
	return o
}

// silent lists what the lead's sheet of today and the gate list leave out: machines that are away, or of
// which it isn't asked whether they are back, conditions that aren't done, accidents that aren't dealt
// with, loads sent away.
func (r *reader) silent(today, gate string) (out []string) {
	o := r.unended()
	for id, e := range o.away {
		m := r.p.FindMachine(id)
		name := r.p.Machines[m].Name
		switch over := e.Until != 0 && e.Until <= r.at; {
		case !over && !strings.Contains(today, name+" is away since"):
			out = append(out, name+" is away")
		case over && r.needed(m) != r.asked(m):
			out = append(out, fmt.Sprintf("%s needed %v, asked for %v", name, r.needed(m), r.asked(m)))
		}
	}
	for id, is := range o.conditions {
		if is && !strings.Contains(today, "on condition:") && r.isOpen(id) {
			out = append(out, id+" was signed on condition")
		}
	}
	for _, e := range o.hurt {
		if !strings.Contains(today, e.Text) {
			out = append(out, string(e.What)+" isn't dealt with")
		}
	}
	for id, is := range o.refused {
		if is && !strings.Contains(strings.ToLower(gate), "refused at the gate") {
			out = append(out, id+" was refused")
		}
	}
	return out
}

// isOpen says whether the work on condition of which a task was signed isn't done.
func (r *reader) isOpen(task string) bool {
	t := r.p.FindTask(task)
	if t == schedule.None {
		return false
	}
	work := r.p.FindTask(r.p.Progress.Tasks[t].Terms)
	return work != schedule.None && (r.tasks[work].finished == 0 || r.tasks[work].open)
}

// needed says whether what isn't over by the log needs a machine.
func (r *reader) needed(m schedule.MachineID) bool {
	needs := func(all []schedule.MachineNeed) bool {
		return slices.ContainsFunc(all, func(n schedule.MachineNeed) bool { return n.Machine == m })
	}
	for i := range r.p.Tasks {
		if (r.tasks[i].finished == 0 || r.tasks[i].open) && needs(r.p.Tasks[i].Machines) {
			return true
		}
	}
	for i := range r.p.Deliveries {
		if d := schedule.DeliveryID(i); !r.p.Over(r.p.Unload(d)) && needs(r.p.Deliveries[i].Unload.Machines) {
			return true
		}
	}
	return false
}

// asked says whether it is asked whether a machine is back.
func (r *reader) asked(m schedule.MachineID) bool {
	return slices.ContainsFunc(r.book.Questions(sheets.Everyone), func(q sheets.Question) bool {
		return q.Kind == sheets.IsBack && q.Machine == m
	})
}

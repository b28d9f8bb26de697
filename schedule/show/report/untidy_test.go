package report_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
)

var builds = flag.Int("builds", 100, "untidy builds whose run sheets are checked against their logs")

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

// facts are words that tell of something done, and the events that they tell of.
var facts = map[string]sitelog.Kind{
	"signed": sitelog.Signed, "done": sitelog.Finished, "unloaded": sitelog.Unloaded,
	"loaded": sitelog.Loaded, "gone": sitelog.Gone,
	"came": sitelog.Arrived, "started": sitelog.Started, "finished": sitelog.Finished, "begun": sitelog.Started,
}

// told finds such a word with a moment behind it.
var told = regexp.MustCompile(`(?i)\b(will be |would be |to be )?` +
	`(signed|done|unloaded|loaded|gone|came|started|finished|begun)((?: by)?) ` +
	`((?:\w{3} \d{1,2} \w{3} )?\d\d:\d\d)`)

// lies lists what a sheet tells as done that isn't logged.
func (r *reader) lies(text string) []string {
	var out []string
	for _, m := range told.FindAllStringSubmatch(text, -1) {
		if m[1] != "" || m[3] == " by" {
			continue // a forecast
		}
		word := strings.ToLower(m[2])
		then := func(at calendars.Instant) bool {
			local := at.In(r.p.Site.Location)
			return m[4] == local.Format("15:04") || m[4] == local.Format("Mon 2 Jan 15:04")
		}
		logged := func(e *sitelog.Event) bool { // what is gone is loaded
			return then(e.At) && (e.What == facts[word] || word == "loaded" && e.What == sitelog.Gone ||
				word == "finished" && r.signed[e.Task] && e.What != sitelog.Started) // when somebody was last at it
		}
		if !slices.ContainsFunc(r.events, logged) && (word != "done" || !r.over(then)) {
			out = append(out, m[0])
		}
	}
	return out
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
	var numbers []int
	for line := range strings.Lines(text) {
		if m := atHead.FindStringSubmatch(line); m != nil {
			numbers = append(numbers, atoi(m[1]))
		}
	}
	flat, first := strings.Join(strings.Fields(strings.ReplaceAll(text, "\n", " ")), " "), 0
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
var atHead = regexp.MustCompile(`^(?:begun|\d\d:\d\d) +(\d+)  `)

func atoi(s string) (n int) {
	_, _ = fmt.Sscan(s, &n)
	return n
}

// The run sheets of untidy builds, of the day and of the next, and the answers of plan, slip and
// why tell nothing as done that isn't logged; the sheets leave out no begun work, and no sign-off that failed.
func TestSheetsOfUntidyBuilds(t *testing.T) {
	tried, open, failed := 0, 0, 0
	for seed := uint64(0); tried < *builds; seed++ {
		p := plans.Small(plans.Seeded(seed))
		s, err := solve.New(p)
		if err != nil {
			continue
		}
		agreed := s.Crews(context.Background(), solve.Options{Schedules: 20})
		g := agreed.Programme
		if g.Blocked != nil || g.Finish <= p.Site.Opens {
			continue
		}
		tried++
		r := rand.New(rand.NewPCG(seed, 3))
		at := p.Site.Opens.Plus(calendars.Minutes(r.IntN(int(g.Finish-p.Site.Opens) + 600)))
		events := plans.Untidy(r, p, g, at)
		planned := sitelog.Planned(p, events, at)
		g = baseline.Freeze(agreed).Programme(planned)
		said := progress.At(planned, events, g, at)
		x, err := solve.New(said.Plan)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		c := x.Logic()
		if seed%2 == 0 {
			c = x.Crews(context.Background(), solve.Options{Schedules: 20, Reference: g})
		}
		b := sheets.New(c, sheets.Number(said.Plan))
		b.Logged(said)
		b.Agreed = g
		reads := newReader(said.Plan, b, said.State.Events, at)
		for i := range reads.tasks {
			if reads.tasks[i].open {
				open++
			}
			if reads.tasks[i].failed > reads.tasks[i].signed {
				failed++
			}
		}
		reads.check(t, fmt.Sprintf("seed %d", seed))
		reads.answers(t, fmt.Sprintf("seed %d", seed), c, slip.Of(said, c, g), said)
		if t.Failed() {
			return
		}
	}
	if open == 0 || failed == 0 {
		t.Errorf("%d begun tasks and %d failed sign-offs in all builds", open, failed)
	}
}

// answers reads the plan, what slipped, and why each activity starts when it does.
func (r *reader) answers(t *testing.T, name string, c network.Case, s *slip.Slip, said *progress.Standing) {
	t.Helper()
	answer := report.New(c).Standing(said)
	pages := []*page.Document{answer.Page(), answer.Slip(s, 1, false, said)}
	for a := range c.Plan.Activities() {
		pages = append(pages, answer.Why(a, nil))
	}
	for _, d := range pages {
		var text bytes.Buffer
		if err := d.Write(&text, 200); err != nil {
			t.Fatal(err)
		}
		for _, wrong := range r.lies(strings.Join(strings.Fields(text.String()), " ")) {
			t.Errorf("%s: %s\n%s", name, wrong, text.String())
		}
	}
}

// check reads the sheets of a day and the next, of everyone and of each crew.
func (r *reader) check(t *testing.T, name string) {
	t.Helper()
	today := calendars.DateIn(r.at, r.p.Site.Location)
	for on := today; on <= today+1; on++ {
		for crew := sheets.Everyone; int(crew) < len(r.p.Crews); crew++ {
			var page bytes.Buffer
			if err := report.NewSheets(r.book).Today(r.book.Of(on, crew)).Write(&page, 80); err != nil {
				t.Fatal(err)
			}
			text := page.String()
			for _, wrong := range append(r.lies(strings.Join(strings.Fields(text), " ")), r.misses(text, crew)...) {
				t.Errorf("%s, %s, crew %d: %s\n%s", name, on, crew, wrong, text)
			}
		}
	}
}

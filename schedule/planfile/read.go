package planfile

import (
	"fmt"
	"io"
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Read reads a plan. The problems are all that is wrong with it, by place, and
// warnings; the plan is nil when any of them is fatal. A failure of r is a
// problem without a place. Reading takes time in the length of the file.
func Read(r io.Reader) (*schedule.Plan, schedule.Problems) {
	data, problems := readAll(r, "one file holds one plan")
	if problems != nil {
		return nil, problems
	}
	rd := readPlan(data)
	problems = rd.result()
	if problems.Fatal() {
		return nil, problems
	}
	return rd.plan, problems
}

// ReadNames reads of a plan with faults what its site log needs: the ids and names of what it
// has, and its time zone. Nothing else of it can be relied on. It is nil where not even that
// can be read.
func ReadNames(r io.Reader) *schedule.Plan {
	data, problems := readAll(r, "one file holds one plan")
	if problems != nil {
		return nil
	}
	if rd := readPlan(data); rd.plan.Site.Location != nil && len(rd.plan.Tasks) > 0 {
		return rd.plan
	}
	return nil
}

func readPlan(data []byte) *reader {
	rd := newReader("plan")
	rd.weather = fixedNames("weather", []string{"dry", "calm", "mild"})
	rd.hazards = fixedNames("hazard", schedule.Hazards())
	if root := rd.parse(data); root != nil {
		rd.sweep(root, 1)
		rd.readPlan(root)
	}
	return rd
}

// readAll is the text of a file that isn't too large.
func readAll(r io.Reader, hint string) ([]byte, schedule.Problems) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, schedule.Problems{{Text: fmt.Sprintf("the file can't be read: %v", err)}}
	}
	if len(data) > maxBytes {
		return nil, schedule.Problems{{Text: "the file is larger than 4 MiB", Hint: hint}}
	}
	return data, nil
}

func newReader(what string) *reader {
	return &reader{what: what, plan: &schedule.Plan{}, faulty: map[*yaml.Node]bool{}, twin: map[*yaml.Node]bool{}}
}

// reader is one reading of a file.
type reader struct {
	what     string // the file holds: "plan", "what-if" or "price list"
	plan     *schedule.Plan
	src      *source
	problems schedule.Problems
	fatal    int // problems so far that are no warnings
	dropped  int // problems beyond maxKept

	faulty   map[*yaml.Node]bool // nodes with a problem: nothing more is said of them
	twin     map[*yaml.Node]bool // those of them that are keys given twice
	compared int                 // names compared so far to find near ones

	zones, crews, machines, givens, deliveries, tasks, desk, stages *names

	weather, hazards *names // words from fixed sets

	before []string // what a task may come after: tasks, then givens

	dates           []saidDate // every date in the file, to be checked against the time a plan may cover
	slots           []saidSlot // times in the file, to be checked against the window
	siteHoursAt     *yaml.Node
	holidaysUnknown bool // the region's holidays could not be told

	ruleByText  map[string]schedule.RuleID // the first rule with a text
	rulesBroken bool                       // the rules could not be read
}

// saidDate is a moment written in the plan.
type saidDate struct {
	at   calendars.Instant
	text string
	pos  schedule.Pos
	of   label
}

// saidSlot is a time with its own hours, people or machines.
type saidSlot struct {
	span  calendars.Span
	text  string
	pos   schedule.Pos
	of    label
	early bool // it may lie before the gate opens
}

// report adds a problem.
func (r *reader) report(p schedule.Problem) {
	if r.full(p.Warning) {
		return
	}
	r.problems = append(r.problems, p)
}

// full counts a problem and says whether there is no more room for it.
func (r *reader) full(warning bool) bool {
	if !warning {
		r.fatal++
	}
	if len(r.problems) >= maxKept {
		r.dropped++
		return true
	}
	return false
}

// fault reports what is wrong at a place; hint may be empty.
func (r *reader) fault(at schedule.Pos, hint, format string, args ...any) {
	if !r.full(false) {
		r.problems = append(r.problems, schedule.Problem{Pos: at, Text: fmt.Sprintf(format, args...), Hint: hint})
	}
}

// warn reports a warning.
func (r *reader) warn(at schedule.Pos, hint, format string, args ...any) {
	if !r.full(true) {
		r.problems = append(r.problems,
			schedule.Problem{Pos: at, Text: fmt.Sprintf(format, args...), Hint: hint, Warning: true})
	}
}

// result is the problems by place, cut to maxProblems; errors push warnings
// out.
func (r *reader) result() schedule.Problems {
	ps := r.problems
	ps.Sort()
	ps = slices.Compact(ps) // a mark before the first key is reported for its mapping too
	if len(ps)+r.dropped <= maxProblems {
		return ps
	}
	more := len(ps) + r.dropped
	if r.fatal > 0 {
		ps = ps.Faults()
		more = r.fatal
	}
	if len(ps) > maxProblems {
		ps = ps[:maxProblems]
	}
	if more -= len(ps); more > 0 {
		ps = append(ps, schedule.Problem{
			Pos: ps[len(ps)-1].Pos, Text: fmt.Sprintf("and %d more", more),
			Hint: "put these right first", Warning: r.fatal == 0,
		})
	}
	return ps
}

// posOf is the place of a node; zero for none.
func posOf(n *yaml.Node) schedule.Pos {
	if n == nil {
		return schedule.Pos{}
	}
	return schedule.Pos{Line: n.Line, Column: n.Column}
}

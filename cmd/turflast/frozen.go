package main

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/issue"
)

// Baselines and issues are files beside the plan, numbered and never written over:
// plan.yaml has plan.baseline-1.json and plan.issue-1.json.

// frozenPath is the file of a plan's baseline or issue with this number.
func (s source) frozenPath(kind string, number int) string {
	return fmt.Sprintf("%s.%s-%d.json", strings.TrimSuffix(s.path, filepath.Ext(s.path)), kind, number)
}

// frozenFile is the name of such a file and its number.
type frozenFile struct {
	name   string
	number int
}

// frozenFiles finds those of a kind, by number.
func (s source) frozenFiles(kind string) ([]frozenFile, error) {
	if s.path == "" {
		return nil, nil
	}
	stem := strings.TrimSuffix(filepath.Base(s.path), filepath.Ext(s.path))
	entries, err := os.ReadDir(filepath.Dir(s.path))
	if err != nil {
		return nil, fmt.Errorf("can't read the folder of %s: %w", s.path, reason(err))
	}
	end := regexp.MustCompile(`\.` + kind + `-([1-9][0-9]{0,5})\.json$`)
	var out []frozenFile
	for _, e := range entries {
		if m := end.FindStringSubmatch(e.Name()); m != nil && strings.TrimSuffix(e.Name(), m[0]) == stem {
			number, _ := strconv.Atoi(m[1]) // six digits at most
			out = append(out, frozenFile{filepath.Join(filepath.Dir(s.path), e.Name()), number})
		}
	}
	slices.SortFunc(out, func(a, b frozenFile) int { return cmp.Compare(a.number, b.number) })
	return out, nil
}

// mostFrozen is more bytes than any of them takes.
const mostFrozen = 64 << 20

// text is the content of a file.
func (f frozenFile) text() ([]byte, error) {
	err := logfile.Regular(f.name, mostFrozen)
	var text []byte
	if err == nil {
		text, err = os.ReadFile(f.name)
	}
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", f.name, reason(err))
	}
	return text, nil
}

// readFrozen reads those of a kind, oldest first. Its name has its number: files are moved
// about by it. The error is that of the first one that can't be read; those that can are
// there all the same.
func readFrozen[T any](s source, kind string,
	read func([]byte) (*T, error), name func(*T, int)) (list []*T, err error) {
	files, err := s.frozenFiles(kind)
	for _, f := range files {
		text, fault := f.text()
		var x *T
		if fault == nil {
			x, fault = read(text)
		}
		if place, ok := errors.AsType[*baseline.Fault](fault); ok {
			fault = fmt.Errorf("%s:%w", f.name, place)
		}
		if fault != nil {
			err = cmp.Or(err, fault)
			continue
		}
		name(x, f.number)
		list = append(list, x)
	}
	return list, err
}

// records are the baselines and the issues of a plan, oldest first.
type records struct {
	baselines []*baseline.Baseline
	issues    []*issue.Issue
	unread    error // of the first one of either that can't be read, and is left out
	unagreed  error // of the first such baseline
}

// records reads the baselines and the issues of a plan.
func (p *program) records(src source) records {
	var r records
	var unissued error
	r.baselines, r.unagreed = p.baselines(src)
	r.issues, unissued = p.issues(src)
	r.unread = cmp.Or(r.unagreed, unissued)
	return r
}

// newest is the newest baseline's programme of a plan; nil when there is none.
func (r *records) newest(plan *schedule.Plan) *schedule.Programme {
	if n := len(r.baselines); n > 0 {
		return r.baselines[n-1].Programme(plan)
	}
	return nil
}

// planned is when each task of a plan was to be, as agreed or issued last: what one issue
// doesn't tell of, an earlier one or the newest baseline does. nil where neither was.
func (r *records) planned(plan *schedule.Plan) *schedule.Programme {
	g, since := r.newest(plan), calendars.Past
	if n := len(r.baselines); n > 0 {
		since = r.baselines[n-1].Agreed
	}
	for _, x := range r.issues {
		if x.At < since {
			continue
		}
		if g == nil {
			g = &schedule.Programme{Tasks: make([]schedule.TaskDates, len(plan.Tasks))}
		}
		x.Onto(g, plan)
	}
	return g
}

// withoutSome prints that a baseline or an issue couldn't be read, where what is asked can do
// without it.
func (p *program) withoutSome(err error) {
	fmt.Fprintln(p.stderr, printable(fmt.Sprintf("turflast: warning: %v; what it holds is left out, "+
		"and numbers may be others than on the sheets: mend the file, or move it away", err)))
}

// numbered is what issues and baselines have numbered, each oldest first.
func (r *records) numbered() []sheets.Record {
	var out []sheets.Record
	for _, x := range r.issues {
		var of sheets.Record
		for _, n := range x.Numbers {
			of = append(of, sheets.Numbered(n))
		}
		out = append(out, of)
	}
	for _, b := range r.baselines {
		var tasks, deliveries []string
		for _, t := range b.Tasks {
			tasks = append(tasks, t.ID)
		}
		for _, d := range b.Deliveries {
			deliveries = append(deliveries, d.ID)
		}
		out = append(out, sheets.InOrder(tasks, deliveries))
	}
	return out
}

// numbers are the short numbers of a plan's tasks and deliveries.
func (r *records) numbers(plan *schedule.Plan) *sheets.Numbers {
	return sheets.Number(plan, r.numbered()...)
}

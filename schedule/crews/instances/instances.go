// Package instances reads the open benchmark formats of project scheduling:
// .sm files with one mode and renewable resources, and .sch files with minimum
// and maximum time lags between starts.
package instances

import (
	"io"
	"slices"
	"strings"
)

// Instance is a scheduling problem in time units from 0, as its file says.
// Activities 0 and len(Durations)-1 are the dummy start and end.
type Instance struct {
	Durations []int
	Needs     [][]int // by activity and resource
	Capacity  []int
	Lags      []Lag
}

// Lag requires that To starts at least Least after From starts. A negative Least
// makes a longest wait: From starts at most -Least after To.
type Lag struct{ From, To, Least int }

// ReadSM reads a .sm file: the sections on precedence, on requests and
// durations, and on availabilities. Jobs are counted from 1.
func ReadSM(r io.Reader) (*Instance, error) {
	lines, last, err := readLines(r)
	if err != nil {
		return nil, err
	}
	x := &Instance{}
	f := smFile{x: x}
	for _, l := range lines {
		if err := f.read(l); err != nil {
			return nil, err
		}
	}
	end := line{number: max(last, 1)}
	if len(f.after) == 0 || len(f.after) != len(x.Durations) {
		return nil, end.fault("there are %d jobs with successors, %d with durations", len(f.after), len(x.Durations))
	}
	if x.Capacity == nil {
		return nil, end.fault("the availabilities are missing")
	}
	return x, f.join()
}

// smFile is a .sm file while it is read.
type smFile struct {
	x       *Instance
	section string  // the last line of words
	after   []smJob // by job
	needs   []line  // where each job's needs are
}

// smJob is a line of the section on precedence.
type smJob struct {
	line
	list []int // successors, from 1
}

// read takes in one line: words begin a section, numbers are its rows.
func (f *smFile) read(l line) error {
	if strings.Trim(l.text, "*-") == "" {
		return nil
	}
	if !strings.Contains("0123456789-", l.text[:1]) {
		f.section = strings.Join(strings.Fields(l.text), " ")
		return nil
	}
	row, err := l.wholes()
	switch {
	case strings.HasPrefix(f.section, "jobnr. #modes"):
		if err == nil {
			err = f.follow(l, row)
		}
	case strings.HasPrefix(f.section, "jobnr. mode"):
		if err == nil {
			err = f.need(l, row)
		}
	case strings.HasPrefix(f.section, "R 1"):
		f.x.Capacity = row
	default:
		return nil // of a section without data of the problem
	}
	return err
}

// follow reads: job, modes (1), the number of successors, the successors.
func (f *smFile) follow(l line, row []int) error {
	if len(row) < 3 || len(row) != 3+row[2] {
		return l.fault("job %d doesn't list the successors it counts", row[0])
	}
	if row[0] != len(f.after)+1 || row[1] != 1 {
		return l.fault("expected job %d with 1 mode", len(f.after)+1)
	}
	f.after = append(f.after, smJob{l, row[3:]})
	return nil
}

// need reads: job, mode (1), duration, the amount of each resource.
func (f *smFile) need(l line, row []int) error {
	if len(row) < 4 || slices.Min(row[2:]) < 0 {
		return l.fault("job %d has no duration and needs", row[0])
	}
	if row[0] != len(f.needs)+1 || row[1] != 1 {
		return l.fault("expected job %d in mode 1", len(f.needs)+1)
	}
	f.needs = append(f.needs, l)
	f.x.Durations, f.x.Needs = append(f.x.Durations, row[2]), append(f.x.Needs, row[3:])
	return nil
}

// join turns successors into lags. It returns an error when the sections don't
// agree.
func (f *smFile) join() error {
	x := f.x
	for from, j := range f.after {
		for _, to := range j.list {
			if to < 1 || to > len(f.after) {
				return j.fault("there is no job %d to follow job %d", to, from+1)
			}
			x.Lags = append(x.Lags, Lag{from, to - 1, x.Durations[from]})
		}
	}
	for i, needs := range x.Needs {
		if len(needs) != len(x.Capacity) {
			return f.needs[i].fault("job %d needs %d resources of %d", i+1, len(needs), len(x.Capacity))
		}
		for r, n := range needs {
			if n > x.Capacity[r] {
				return f.needs[i].fault("job %d needs %d of %d", i+1, n, x.Capacity[r])
			}
		}
	}
	return nil
}

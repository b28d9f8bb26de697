// Package instances reads the open benchmark formats of project scheduling:
// .sm files with one mode and renewable resources, and .sch files with minimum
// and maximum time lags between starts.
package instances

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
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

// Lag asks that To starts at least Least after From starts. A Lag with a
// negative Least from a later activity to an earlier one is a longest wait.
type Lag struct{ From, To, Least int }

// fields reads the lines of whole numbers in a file, others left out.
type fields struct {
	lines [][]int
	heads []string // the text of the last other line before each
}

func scan(r io.Reader) (fields, error) {
	var f fields
	head := ""
	s := bufio.NewScanner(r)
	for s.Scan() {
		var row []int
		text := strings.TrimSpace(s.Text())
		for _, w := range strings.Fields(strings.NewReplacer("[", " ", "]", " ").Replace(text)) {
			n, err := strconv.Atoi(w)
			if err != nil {
				row = nil
				break
			}
			row = append(row, n)
		}
		if row == nil {
			if text != "" && strings.Trim(text, "*-") != "" {
				head = text
			}
			continue
		}
		f.lines, f.heads = append(f.lines, row), append(f.heads, head)
	}
	return f, s.Err()
}

// ReadSM reads a .sm file.
func ReadSM(r io.Reader) (*Instance, error) {
	f, err := scan(r)
	if err != nil {
		return nil, err
	}
	x := &Instance{}
	var after [][]int
	for i, row := range f.lines {
		switch head := f.heads[i]; {
		case strings.HasPrefix(head, "jobnr.    #modes"):
			if len(row) < 3 || len(row) != 3+row[2] {
				return nil, fmt.Errorf("instances: job %v doesn't list the successors it counts", row)
			}
			after = append(after, row[3:])
		case strings.HasPrefix(head, "jobnr. mode"):
			if len(row) < 4 {
				return nil, fmt.Errorf("instances: job %v has no duration and needs", row)
			}
			x.Durations, x.Needs = append(x.Durations, row[2]), append(x.Needs, row[3:])
		case strings.HasPrefix(head, "R 1"):
			x.Capacity = row
		}
	}
	if len(after) == 0 || len(after) != len(x.Durations) {
		return nil, fmt.Errorf("instances: %d jobs with successors, %d with durations", len(after), len(x.Durations))
	}
	x.follow(after)
	return x, x.check()
}

// follow adds a lag from each activity to its successors, which a .sm file
// counts from 1.
func (x *Instance) follow(after [][]int) {
	for from, list := range after {
		for _, to := range list {
			x.Lags = append(x.Lags, Lag{from, to - 1, x.Durations[from]})
		}
	}
}

// check says what is inconsistent.
func (x *Instance) check() error {
	for i, needs := range x.Needs {
		if len(needs) != len(x.Capacity) {
			return fmt.Errorf("instances: activity %d needs %d resources of %d", i, len(needs), len(x.Capacity))
		}
		for r, n := range needs {
			if n < 0 || n > x.Capacity[r] {
				return fmt.Errorf("instances: activity %d needs %d of %d", i, n, x.Capacity[r])
			}
		}
	}
	for _, l := range x.Lags {
		if min(l.From, l.To) < 0 || max(l.From, l.To) >= len(x.Durations) {
			return fmt.Errorf("instances: a lag from %d to %d, of %d activities", l.From, l.To, len(x.Durations))
		}
	}
	return nil
}

package instances

import (
	"io"
	"strings"
)

// ReadSCH reads a .sch file: the counts; each job with its successors and the
// lags to them, from start to start; each job with its duration and needs; the
// capacities. Job 0 starts at 0.
func ReadSCH(r io.Reader) (*Instance, error) {
	lines, last, err := readLines(r)
	if err != nil {
		return nil, err
	}
	jobs, resources, err := counts(lines, last)
	if err != nil {
		return nil, err
	}
	x := &Instance{}
	for i, l := range lines[1 : jobs+1] {
		if err := x.readLags(l, i, jobs); err != nil {
			return nil, err
		}
	}
	for i, l := range lines[jobs+1 : 2*jobs+1] {
		if err := x.readNeeds(l, i, resources); err != nil {
			return nil, err
		}
	}
	return x, x.readCapacity(lines[2*jobs+1], resources)
}

// counts reads the first line and checks that the file has as many lines as that
// requires. jobs includes the dummies.
func counts(lines []line, last int) (jobs, resources int, err error) {
	if len(lines) == 0 {
		return 0, 0, &Fault{max(last, 1), "the counts of jobs and resources are missing"}
	}
	head, err := lines[0].wholes()
	if err != nil {
		return 0, 0, err
	}
	if len(head) != 4 || min(head[0], head[1]) < 0 || head[2] != 0 || head[3] != 0 {
		return 0, 0, lines[0].fault("expected the number of jobs, the number of resources and two zeros, not %q",
			lines[0].text)
	}
	jobs = head[0] + 2
	if want := 2*jobs + 2; len(lines) < want {
		return 0, 0, &Fault{last, "the file ends early: " + missing(len(lines)-1, jobs)}
	} else if len(lines) > want {
		return 0, 0, lines[want].fault("nothing should follow the capacities")
	}
	return jobs, head[1], nil
}

// missing says what a file lacks when it ends after the given number of lines about
// jobs.
func missing(lines, jobs int) string {
	switch {
	case lines < jobs:
		return "successors are missing"
	case lines < 2*jobs:
		return "durations and needs are missing"
	}
	return "the capacities are missing"
}

// readLags reads: job, modes (1), the number of successors, the successors, the
// lag to each in brackets.
func (x *Instance) readLags(l line, job, jobs int) error {
	words := strings.Fields(l.text)
	if len(words) < 3 {
		return l.fault("expected a job, 1, the number of its successors, these and their lags")
	}
	var row [3]int
	for i := range row {
		n, err := l.whole(words[i])
		if err != nil {
			return err
		}
		row[i] = n
	}
	if row[0] != job || row[1] != 1 {
		return l.fault("expected job %d with 1 mode, not job %d with %d", job, row[0], row[1])
	}
	if words = words[3:]; row[2] < 0 || len(words) != 2*row[2] {
		return l.fault("job %d counts %d successors, which takes %d more numbers, not %d", job, row[2], 2*row[2], len(words))
	}
	for k := range row[2] {
		lag, err := l.lag(job, words[k], words[row[2]+k], jobs)
		if err != nil {
			return err
		}
		x.Lags = append(x.Lags, lag)
	}
	return nil
}

// lag reads a successor and the lag to it.
func (l line) lag(job int, successor, inBrackets string, jobs int) (Lag, error) {
	to, err := l.whole(successor)
	if err != nil {
		return Lag{}, err
	}
	if to < 0 || to >= jobs {
		return Lag{}, l.fault("there is no job %d to follow job %d", to, job)
	}
	inner, ok := strings.CutPrefix(inBrackets, "[")
	inner, closed := strings.CutSuffix(inner, "]")
	if !ok || !closed {
		return Lag{}, l.fault("expected a lag in brackets, not %q", inBrackets)
	}
	least, err := l.whole(inner)
	return Lag{job, to, least}, err
}

// readNeeds reads: job, mode (1), duration, the amount of each resource.
func (x *Instance) readNeeds(l line, job, resources int) error {
	row, err := l.wholes()
	if err != nil {
		return err
	}
	if len(row) != 3+resources {
		return l.fault("expected a job, 1, its duration and %d amounts, not %d numbers", resources, len(row))
	}
	if row[0] != job || row[1] != 1 {
		return l.fault("expected job %d in mode 1, not job %d in mode %d", job, row[0], row[1])
	}
	for _, n := range row[2:] {
		if n < 0 {
			return l.fault("%d is below 0", n)
		}
	}
	x.Durations, x.Needs = append(x.Durations, row[2]), append(x.Needs, row[3:])
	return nil
}

func (x *Instance) readCapacity(l line, resources int) error {
	row, err := l.wholes()
	if err != nil {
		return err
	}
	if len(row) != resources {
		return l.fault("expected the capacities of %d resources, not %d numbers", resources, len(row))
	}
	for _, n := range row {
		if n < 0 {
			return l.fault("%d is below 0", n)
		}
	}
	x.Capacity = row
	return nil
}

package instances_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/crews/instances"
)

// bed is an invented instance of four jobs between two dummies.
const bed = `************************************************************************
jobs (incl. supersource/sink ):  6
RESOURCES
  - renewable                 :  2   R
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           5
   4        1          1           6
   5        1          1           6
   6        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       2    0
  3      1     2       1    1
  4      1     4       0    1
  5      1     1       2    0
  6      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    2    1
************************************************************************
`

func TestReadSM(t *testing.T) {
	x, err := instances.ReadSM(strings.NewReader(bed))
	if err != nil {
		t.Fatal(err)
	}
	want := &instances.Instance{
		Durations: []int{0, 3, 2, 4, 1, 0},
		Needs:     [][]int{{0, 0}, {2, 0}, {1, 1}, {0, 1}, {2, 0}, {0, 0}},
		Capacity:  []int{2, 1},
		Lags: []instances.Lag{
			{From: 0, To: 1}, {From: 0, To: 2}, {From: 1, To: 3, Least: 3}, {From: 2, To: 4, Least: 2},
			{From: 3, To: 5, Least: 4}, {From: 4, To: 5, Least: 1},
		},
	}
	if diff := cmp.Diff(want, x); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got := x.CriticalPath(); got != 7 {
		t.Errorf("the critical path is %d, not 3 + 4", got)
	}
}

func TestCheck(t *testing.T) {
	x, err := instances.ReadSM(strings.NewReader(bed))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		starts []int
		fault  string // empty when the schedule is sound
	}{
		{"sound", []int{0, 0, 3, 5, 5, 9}, ""},
		{"a start missing", []int{0, 0, 3, 5, 5}, "5 starts for 6"},
		{"before time 0", []int{0, -1, 3, 5, 5, 9}, "starts at -1"},
		{"too soon after another", []int{0, 0, 3, 2, 5, 9}, "2 after 1, not 3"},
		{"the first resource twice", []int{0, 0, 2, 5, 5, 9}, "3 of resource 0"},
		{"the second resource twice", []int{0, 0, 3, 4, 5, 9}, "2 of resource 1"},
	} {
		err := x.Check(c.starts)
		if (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %v, want %q", c.name, err, c.fault)
		}
	}
}

func TestMalformed(t *testing.T) {
	for _, c := range []struct{ name, old, new, fault string }{
		{"empty", bed, "", "0 jobs"},
		{"successors miscounted", "   1        1          2           2   3",
			"   1        1          3           2   3", "doesn't list"},
		{"no needs", "  3      1     2       1    1", "  3      1     2", "no duration and needs"},
		{"a job without duration", "  6      1     0       0    0\n", "", "6 jobs with successors, 5"},
		{"more than there is", "  4      1     4       0    1",
			"  4      1     4       0    2", "line 21: job 4 needs 2 of 1"},
		{"a resource too many", "    2    1\n", "    2    1    1\n", "needs 2 resources of 3"},
		{"an unknown successor", "   5        1          1           6",
			"   5        1          1           9", "line 12: there is no job 9 to follow job 5"},
	} {
		_, err := instances.ReadSM(strings.NewReader(strings.Replace(bed, c.old, c.new, 1)))
		if err == nil || !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %v, want %q", c.name, err, c.fault)
		}
	}
}

func TestCriticalPathOfARing(t *testing.T) {
	x := &instances.Instance{
		Durations: []int{1, 1},
		Lags:      []instances.Lag{{From: 0, To: 1, Least: 3}, {From: 1, To: 0, Least: -2}},
	}
	if got := x.CriticalPath(); got != -1 {
		t.Errorf("a ring that asks for 3 within 2 has a path of %d", got)
	}
	x.Lags[1].Least = -3
	if got := x.CriticalPath(); got != 4 {
		t.Errorf("a ring that just holds has a path of %d, not 4", got)
	}
}

package instances_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/crews/instances"
)

// lorry is an invented instance: job 2 starts at most 6 after job 1, job 3 at
// least 1 before job 2 ends.
const lorry = "3 2 0 0\r\n" +
	"0\t1\t2\t1\t3\t[0]\t[2]\r\n" +
	"1\t1\t2\t2\t4\t[1]\t[3]\r\n" +
	"2\t1\t3\t4\t1\t3\t[4]\t[-6]\t[-3]\r\n" +
	"3\t1\t1\t4\t[3]\r\n" +
	"4\t1\t0\r\n" +
	"0\t1\t0\t0\t0\r\n" +
	"1\t1\t3\t2\t0\r\n" +
	"2\t1\t4\t2\t1\r\n" +
	"3\t1\t3\t0\t1\r\n" +
	"4\t1\t0\t0\t0\r\n" +
	"3\t1\r\n"

func TestReadSCH(t *testing.T) {
	x, err := instances.ReadSCH(strings.NewReader(lorry))
	if err != nil {
		t.Fatal(err)
	}
	want := &instances.Instance{
		Durations: []int{0, 3, 4, 3, 0},
		Needs:     [][]int{{0, 0}, {2, 0}, {2, 1}, {0, 1}, {0, 0}},
		Capacity:  []int{3, 1},
		Lags: []instances.Lag{
			{From: 0, To: 1}, {From: 0, To: 3, Least: 2}, {From: 1, To: 2, Least: 1}, {From: 1, To: 4, Least: 3},
			{From: 2, To: 4, Least: 4}, {From: 2, To: 1, Least: -6}, {From: 2, To: 3, Least: -3}, {From: 3, To: 4, Least: 3},
		},
	}
	if diff := cmp.Diff(want, x); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got := x.CriticalPath(); got != 5 {
		t.Errorf("the critical path is %d, not 1 + 4", got)
	}
	for _, c := range []struct {
		name   string
		starts []int
		fault  string // empty when the schedule is sound
	}{
		{"sound", []int{0, 0, 5, 2, 9}, ""},
		{"the longest wait used up", []int{0, 0, 6, 3, 10}, ""},
		{"waits too long", []int{0, 0, 7, 4, 11}, "1 starts -7 after 2, not -6"},
		{"too long before", []int{0, 0, 6, 2, 10}, "3 starts -4 after 2, not -3"},
		{"too soon", []int{0, 0, 5, 1, 9}, "3 starts 1 after 0, not 2"},
		{"time 0 missed", []int{1, 1, 6, 3, 10}, "activity 0 starts at 1"},
		{"the first resource twice", []int{0, 0, 2, 6, 9}, "4 of resource 0 in use at 2, of 3"},
	} {
		err := x.Check(c.starts)
		if (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %v, want %q", c.name, err, c.fault)
		}
	}
}

func TestMalformedSCH(t *testing.T) {
	for _, c := range []struct{ name, old, new, fault string }{
		{"empty", lorry, "", "line 1: the counts of jobs and resources are missing"},
		{"blank", lorry, "\n\n", "line 2: the counts of jobs and resources are missing"},
		{"counts missing", "3 2 0 0", "3 2 0",
			`line 1: expected the number of jobs, the number of resources and two zeros, not "3 2 0"`},
		{"other resources", "3 2 0 0", "3 2 1 0", "two zeros"},
		{"jobs below 0", "3 2 0 0", "-1 2 0 0", "line 1: expected the number of jobs"},
		{"a word", "3 2 0 0", "3 two 0 0", `line 1: "two" is no whole number up to 1048576`},
		{"far too many jobs", "3 2 0 0", "3000000 2 0 0", `"3000000" is no whole number`},
		{"more jobs", "3 2 0 0", "4 2 0 0", "line 12: the file ends early: durations and needs are missing"},
		{"no capacities", "3\t1\r\n", "", "line 11: the file ends early: the capacities are missing"},
		{"many more jobs", "3 2 0 0", "20 2 0 0", "line 12: the file ends early: successors are missing"},
		{"fewer jobs", "3 2 0 0", "2 2 0 0", "line 11: nothing should follow the capacities"},
		{"jobs out of order", "1\t1\t2\t2\t4\t[1]\t[3]", "2\t1\t2\t2\t4\t[1]\t[3]",
			"line 3: expected job 1 with 1 mode, not job 2 with 1"},
		{"two modes", "3\t1\t1\t4\t[3]", "3\t2\t1\t4\t[3]", "line 5: expected job 3 with 1 mode, not job 3 with 2"},
		{"a job alone", "4\t1\t0\r", "4\r", "line 6: expected a job, 1, the number of its successors"},
		{"successors miscounted", "3\t1\t1\t4\t[3]", "3\t1\t2\t4\t[3]",
			"line 5: job 3 counts 2 successors, which takes 4 more numbers, not 2"},
		{"no job to follow", "3\t1\t1\t4\t[3]", "3\t1\t1\t5\t[3]", "line 5: there is no job 5 to follow job 3"},
		{"no brackets", "3\t1\t1\t4\t[3]", "3\t1\t1\t4\t3", `line 5: expected a lag in brackets, not "3"`},
		{"half a lag", "3\t1\t1\t4\t[3]", "3\t1\t1\t4\t[3x]", `line 5: "3x" is no whole number`},
		{"a need missing", "1\t1\t3\t2\t0", "1\t1\t3\t2",
			"line 8: expected a job, 1, its duration and 2 amounts, not 4 numbers"},
		{"a job's needs twice", "2\t1\t4\t2\t1", "1\t1\t4\t2\t1", "line 9: expected job 2 in mode 1, not job 1 in mode 1"},
		{"a duration below 0", "2\t1\t4\t2\t1", "2\t1\t-4\t2\t1", "line 9: -4 is below 0"},
		{"a capacity missing", "3\t1\r", "3\r", "line 12: expected the capacities of 2 resources, not 1 numbers"},
		{"a capacity below 0", "3\t1\r", "3\t-1\r", "line 12: -1 is below 0"},
	} {
		_, err := instances.ReadSCH(strings.NewReader(strings.Replace(lorry, c.old, c.new, 1)))
		var fault *instances.Fault
		if !errors.As(err, &fault) || !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %v, want %q", c.name, err, c.fault)
		}
	}
}

// FuzzRead: either format is refused with a line, or gives an instance whose
// parts fit together.
func FuzzRead(f *testing.F) {
	f.Add(lorry)
	f.Add(bed)
	f.Add("1 0 0 0\n0 1 1 1 [0]\n1 1 1 2 [2]\n2 1 0\n0 1 0\n1 1 2\n2 1 0\n0\n")
	f.Add(strings.Replace(lorry, "[-6]", "[-1]", 1))
	f.Add("jobnr. #modes\n1 1 0\njobnr. mode\n1 1 0 0\nR 1\n1\n")
	f.Fuzz(func(t *testing.T, text string) {
		sm, errSM := instances.ReadSM(strings.NewReader(text))
		sch, errSCH := instances.ReadSCH(strings.NewReader(text))
		for k, err := range []error{errSM, errSCH} {
			x := []*instances.Instance{sm, sch}[k]
			var fault *instances.Fault
			if err != nil {
				if !errors.As(err, &fault) || fault.Line < 1 || fault.Text == "" {
					t.Errorf("refused with %v", err)
				}
				continue
			}
			n := len(x.Durations)
			if n == 0 || len(x.Needs) != n {
				t.Fatalf("%d durations, %d needs", n, len(x.Needs))
			}
			for _, l := range x.Lags {
				if min(l.From, l.To) < 0 || max(l.From, l.To) >= n {
					t.Errorf("a lag from %d to %d of %d", l.From, l.To, n)
				}
			}
			if n < 1000 {
				x.CriticalPath()
			}
			if err := x.Check(make([]int, n+1)); err == nil {
				t.Error("a start too many is sound")
			}
		}
	})
}

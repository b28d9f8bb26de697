package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"time"
)

// settings are what the command line says.
type settings struct {
	set, best, starts string
	asPlan            string
	schedules         int
	seconds           float64
	every             int
	seed              uint64
	workers           int
	single            string
	quiet             bool
	counted           bool // the number of schedules counts: only the search that builds them may run
}

func flags(s *settings) *flag.FlagSet {
	f := flag.NewFlagSet("benchset", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.StringVar(&s.set, "set", "", "a .tar.gz of .sm or .sch files")
	f.StringVar(&s.best, "best", "", "a CSV of best known bounds: "+header+"; inf where there is no schedule")
	f.StringVar(&s.starts, "starts", "", "write the best schedule of every instance to this CSV")
	f.StringVar(&s.asPlan, "as-plan", "",
		"solve nothing: write the instances to this folder as plan files, the\n"+
			"hand-over at the best known finish with --best, else far")
	f.IntVar(&s.schedules, "schedules", 5000,
		"most schedules to build for an instance, or work worth as much for .sch;\n"+
			"without a limit when only --seconds is given")
	f.Float64Var(&s.seconds, "seconds", 0,
		"most seconds for an instance, 0 for no limit; without --schedules\n"+
			"the search and the solver that learns take turns")
	f.IntVar(&s.every, "every", 1, "take every K-th instance")
	f.Uint64Var(&s.seed, "seed", 1, "seed of the search")
	f.IntVar(&s.workers, "workers", 0,
		"instances solved side by side; 0 for one a processor, or one at a\ntime with --seconds")
	f.StringVar(&s.single, "single", "", "run one raw instance and print each better schedule")
	f.BoolVar(&s.quiet, "quiet", false, "print the closing table only")
	return f
}

func parse(args []string, out io.Writer) (s settings, err error) {
	f := flags(&s)
	if err := f.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			f.SetOutput(out)
			f.PrintDefaults()
		}
		return s, err
	}
	if f.NArg() > 0 {
		return s, fmt.Errorf("nothing is expected after the options, but %q is there", f.Arg(0))
	}
	limited := false
	f.Visit(func(x *flag.Flag) { limited = limited || x.Name == "schedules" })
	s.counted = limited || s.seconds == 0
	if s.workers == 0 {
		s.workers = 1
		if s.seconds == 0 {
			s.workers = runtime.GOMAXPROCS(0)
		}
	}
	return s, s.check()
}

func (s *settings) check() error {
	switch {
	case (s.set == "") == (s.single == ""):
		return fmt.Errorf("give either --set or --single")
	case s.asPlan != "" && s.set == "":
		return fmt.Errorf("--as-plan needs --set")
	case s.schedules < 1 || s.seconds < 0 || s.every < 1 || s.workers < 0:
		return fmt.Errorf("--schedules and --every must be 1 or more, --seconds and --workers not below 0")
	}
	return nil
}

func run(args []string, out io.Writer) error {
	s, err := parse(args, out)
	if err != nil {
		return err
	}
	if s.single != "" {
		return runSingle(s, out)
	}
	items, err := readSet(s.set)
	if err != nil {
		return err
	}
	known, err := readKnown(s.best, s.set)
	if err != nil {
		return err
	}
	var picked []item
	for i := 0; i < len(items); i += s.every {
		picked = append(picked, items[i])
	}
	if s.asPlan != "" {
		return writePlans(s, picked, known, out)
	}
	begun := time.Now()
	told := out
	if s.quiet {
		told = io.Discard
	}
	rows, err := solveAll(s, picked, func(r row) { r.print(told, known) })
	if err != nil {
		return err
	}
	if s.starts != "" {
		if err := writeStarts(s.starts, rows); err != nil {
			return err
		}
	}
	closing(out, rows, known, time.Since(begun).Seconds())
	return nil
}

// solveAll solves the items, some side by side, and reports each in order.
func solveAll(s settings, items []item, told func(row)) ([]row, error) {
	rows, errs := make([]row, len(items)), make([]error, len(items))
	ready := make([]chan struct{}, len(items))
	for i := range ready {
		ready[i] = make(chan struct{})
	}
	next := make(chan int, len(items))
	for i := range items {
		next <- i
	}
	close(next)
	var all sync.WaitGroup
	defer all.Wait()
	for range s.workers {
		all.Go(func() {
			for i := range next {
				rows[i], errs[i] = solveOne(s, items[i], nil)
				close(ready[i])
			}
		})
	}
	for i := range items {
		<-ready[i]
		if errs[i] != nil {
			for range next { // the others need not go on
			}
			return nil, fmt.Errorf("%s: %w", items[i].name, errs[i])
		}
		told(rows[i])
	}
	return rows, nil
}

// runSingle prints each better schedule of one instance, and a line of equals
// signs once nothing can be better, or when it is proven that there is none.
func runSingle(s settings, out io.Writer) error {
	f, err := os.Open(s.single)
	if err != nil {
		return err
	}
	defer f.Close()
	it, err := readItem(s.single, f)
	if err != nil {
		return err
	}
	r, err := solveOne(s, it, func(starts []int) {
		words := make([]string, len(starts))
		for i, n := range starts {
			words[i] = strconv.Itoa(n)
		}
		fmt.Fprintf(out, "s=[%s]\n", strings.Join(words, ","))
	})
	if err == nil && r.proven {
		fmt.Fprintln(out, "==========")
	}
	return err
}

package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"runtime"
	"sync"
	"time"

	"turflast/calendars"
	"turflast/schedule/instances"
	"turflast/schedule/levelling"
)

// settings are what the command line says.
type settings struct {
	set, best, starts string
	schedules         int
	seconds           float64
	every             int
	seed              uint64
	workers           int
	single            string
	quiet             bool
}

func run(args []string, out io.Writer) error {
	var s settings
	f := flag.NewFlagSet("benchset", flag.ContinueOnError)
	f.StringVar(&s.set, "set", "", "a .tar.gz of .sm files")
	f.StringVar(&s.best, "best", "", "a CSV of best known bounds: set,instance,lower_bound,upper_bound,proven")
	f.StringVar(&s.starts, "starts", "", "write every schedule to this CSV")
	f.IntVar(&s.schedules, "schedules", 5000, "most schedules to build for an instance")
	f.Float64Var(&s.seconds, "seconds", 0, "most seconds for an instance; 0 for no limit")
	f.IntVar(&s.every, "every", 1, "take every K-th instance")
	f.Uint64Var(&s.seed, "seed", 1, "seed of the search")
	f.IntVar(&s.workers, "workers", runtime.NumCPU(), "instances solved side by side")
	f.StringVar(&s.single, "single", "", "run one raw instance and print each better schedule")
	f.BoolVar(&s.quiet, "quiet", false, "print the closing table only")
	if err := f.Parse(args); err != nil {
		return err
	}
	if s.single != "" {
		return runSingle(s, out)
	}
	items, err := readSet(s.set)
	if err != nil {
		return err
	}
	known, err := readKnown(s.best)
	if err != nil {
		return err
	}
	begun := time.Now()
	var picked []item
	for i := 0; i < len(items); i += max(s.every, 1) {
		picked = append(picked, items[i])
	}
	rows, err := solveAll(s, picked)
	if err != nil {
		return err
	}
	if !s.quiet {
		for _, r := range rows {
			fmt.Fprintf(out, "%-12s makespan %4d  critical path %4d  best known %4d  schedules %7d  %8.3f s\n",
				r.name, r.makespan, r.path, known[r.name].upper, r.schedules, r.seconds)
		}
	}
	if s.starts != "" {
		if err := writeStarts(s.starts, rows); err != nil {
			return err
		}
	}
	closing(out, rows, known, time.Since(begun).Seconds())
	return nil
}

// row is what one instance came to.
type row struct {
	name      string
	makespan  int
	path      int
	schedules int
	seconds   float64
	starts    []int
}

func solveAll(s settings, items []item) ([]row, error) {
	rows, errs := make([]row, len(items)), make([]error, len(items))
	next := make(chan int)
	var wait sync.WaitGroup
	for range max(s.workers, 1) {
		wait.Go(func() {
			for i := range next {
				rows[i], errs[i] = solveOne(s, items[i], nil)
			}
		})
	}
	for i := range items {
		next <- i
	}
	close(next)
	wait.Wait()
	for i, err := range errs {
		if err != nil {
			return nil, fmt.Errorf("%s: %w", items[i].name, err)
		}
	}
	return rows, nil
}

// solveOne solves an instance through the solver's public face and checks the
// schedule against the raw instance.
func solveOne(s settings, it item, better func([]int)) (row, error) {
	ctx := context.Background()
	if s.seconds > 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, time.Duration(s.seconds*float64(time.Second)))
		defer stop()
	}
	begun := time.Now()
	p, err := it.instance.Problem()
	if err != nil {
		return row{}, err
	}
	path := it.instance.CriticalPath()
	units := func(r levelling.Result) []int {
		starts := make([]int, len(r.Start))
		for i := range starts {
			starts[i] = int(r.Start[p.Net.Number[i]] - instances.Start)
		}
		return starts
	}
	o := levelling.Options{Schedules: s.schedules, Seed: s.seed, Stop: instances.Start + calendars.Instant(path)}
	if better != nil {
		o.Better = func(r levelling.Result) { better(units(r)) }
	}
	r, err := levelling.Search(ctx, p, o)
	if err != nil {
		return row{}, err
	}
	starts := units(r)
	if err := it.instance.Check(starts); err != nil {
		return row{}, err
	}
	return row{it.name, it.instance.Makespan(starts), path, r.Schedules, time.Since(begun).Seconds(), starts}, nil
}

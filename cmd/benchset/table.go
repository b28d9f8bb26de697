package main

import (
	"fmt"
	"io"
)

// closing prints the table that sums a run up.
func closing(out io.Writer, rows []row, known map[string]bounds, seconds float64) {
	var overKnown, overPath, spent float64
	atBest, proven, below, counted := 0, 0, 0, 0
	for _, r := range rows {
		overPath += 100 * float64(r.makespan-r.path) / float64(r.path)
		spent += r.seconds
		if r.makespan == r.path {
			proven++
		}
		k, ok := known[r.name]
		if !ok {
			continue
		}
		counted++
		overKnown += 100 * float64(r.makespan-k.upper) / float64(k.upper)
		switch {
		case r.makespan < k.upper:
			below++
		case r.makespan == k.upper:
			atBest++
		}
	}
	n := float64(max(len(rows), 1))
	fmt.Fprintf(out, "\ninstances                          %d\n", len(rows))
	fmt.Fprintf(out, "mean above the critical path       %.4f %%\n", overPath/n)
	if counted > 0 {
		c := float64(counted)
		fmt.Fprintf(out, "mean above the best known          %.4f %%\n", overKnown/c)
		fmt.Fprintf(out, "at the best known                  %.1f %%\n", 100*float64(atBest)/c)
		fmt.Fprintf(out, "below the best known               %d\n", below)
	}
	fmt.Fprintf(out, "proven by the critical path        %.1f %%\n", 100*float64(proven)/n)
	fmt.Fprintf(out, "schedules checked and found sound  %d\n", len(rows))
	fmt.Fprintf(out, "time an instance                   %.3f s, all %.1f s\n", spent/n, seconds)
}

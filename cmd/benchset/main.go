// Command benchset runs the solvers on open sets of scheduling instances,
// compares what they find with the best known, and checks every schedule against
// the raw instance.
//
//	benchset --set SET.tar.gz [--best BEST.csv] [--schedules N] [--seconds N] [--every K] [--starts OUT.csv]
//	benchset --single FILE [--schedules N] [--seconds N]
//	benchset --set SET.tar.gz --as-plan FOLDER [--best BEST.csv] [--every K]
//
// The last form writes the instances as plan files of turflast.
//
// Exit code 2 says that the input or the command line can't be used, 3 that a
// solver is at fault.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
)

func main() { os.Exit(code(run(os.Args[1:], os.Stdout), os.Stderr)) }

// code prints what went wrong and returns the exit code for it.
func code(err error, errs io.Writer) int {
	var ours *unsound
	if err == nil || errors.Is(err, flag.ErrHelp) {
		return 0
	}
	fmt.Fprintln(errs, "benchset:", err)
	if errors.As(err, &ours) {
		return 3
	}
	return 2
}

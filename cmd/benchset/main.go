// Command benchset runs the solver on open sets of scheduling instances and
// compares its makespans with the best known.
package main

import (
	"fmt"
	"os"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "benchset:", err)
		os.Exit(2)
	}
}

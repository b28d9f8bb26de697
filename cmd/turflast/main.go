// Command turflast plans the build of a garden against a fixed window: a site
// that opens on one date and a hand-over that cannot move.
package main

import (
	"os"

	_ "build.example/turflast/tui/quiet" // keeps start-up from asking the terminal anything
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, system()))
}

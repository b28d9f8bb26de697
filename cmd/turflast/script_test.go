package main

import (
	"flag"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output in testdata/*.txtar")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"turflast": main})
}

// TestScripts runs the program as users do, in empty folders.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata",
		UpdateScripts: *update,
		Cmds:          map[string]func(*testscript.TestScript, bool, []string){"valid": valid},
		Setup: func(e *testscript.Env) error {
			e.Setenv("TZ", "Pacific/Auckland")                    // the zone of the machine must not matter
			e.Setenv("TURFLAST_NOW", "2026-10-05T09:00:00+01:00") // before all there is to order for the built-in garden
			e.Setenv(quickVariable, "1")                          // hundreds of ticks; who tells the margin unsets it
			e.Setenv("GORACE", os.Getenv("GORACE"))
			return os.MkdirAll(e.Getenv("HOME"), 0o755)
		},
	})
}

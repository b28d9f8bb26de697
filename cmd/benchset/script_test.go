package main

import (
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"benchset": main})
}

// TestScripts runs the program as users do, on invented instances.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			// pack SET.tar.gz FILE... makes a set.
			"pack": func(ts *testscript.TestScript, _ bool, args []string) {
				var files []packed
				for _, name := range args[1:] {
					files = append(files, packed{name, ts.ReadFile(name)})
				}
				ts.Check(pack(ts.MkAbs(args[0]), files))
			},
		},
	})
}

package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"build.example/turflast/testdata"
)

func (p *program) newCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "new [FOLDER]",
		Short: "Write a commented plan to start your own from",
		Long: `Write plan.yaml, a small garden with a comment on every part, to change line by
line into your own. It passes "turflast check" as it is. Beside it stands
plan.schema.json, by which editors complete and check the plan as you type: its
first line tells them.

  FOLDER  where to write it; made if it isn't there. Without it: this folder.

An existing file is never overwritten.

Exit code: 0, or 2 when the file is there already or can't be written.`,
		Example: "  turflast new gardens/mine",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return p.write(folder(args), planDocuments(testdata.Starter))
		},
	}
}

func (p *program) demoCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "demo [FOLDER]",
		Short: "Write the built-in garden, Tidewall Court, to a folder",
		Long: `Write the built-in garden, Tidewall Court, as plan.yaml, and beside it
tidewall-broken.yaml, a plan with a dozen faults that shows what
"turflast check" finds. Both are invented. Beside them stands plan.schema.json,
by which editors complete and check the plan as you type.

  FOLDER  where to write them; made if it isn't there. Without it: this folder.

An existing file is never overwritten.

Exit code: 0, or 2 when a file is there already or can't be written.`,
		Example: "  turflast demo gardens/tidewall\n  turflast gardens/tidewall",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			return p.write(folder(args), append(planDocuments(testdata.Demo), document{"tidewall-broken.yaml", testdata.Broken}))
		},
	}
}

func folder(args []string) string {
	if len(args) == 0 {
		return "."
	}
	return args[0]
}

// document is a file to write.
type document struct{ name, text string }

// write puts new files in a folder: all of them, or none when one is there
// already.
func (p *program) write(folder string, files []document) error {
	paths := make([]string, len(files))
	for i, f := range files {
		paths[i] = filepath.Join(folder, f.name)
	}
	if err := allNew(paths); err != nil {
		return err
	}
	if err := makeFolder(folder); err != nil {
		return err
	}
	for i, f := range files {
		if err := createFile(paths[i], []byte(f.text)); err != nil {
			return err
		}
		fmt.Fprintln(p.stdout, printable("wrote "+paths[i]))
	}
	return nil
}

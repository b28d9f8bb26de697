package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"build.example/turflast/schedule/starters"
	"build.example/turflast/testdata"
)

func (p *program) newCommand() *cobra.Command {
	var o starterOptions
	c := &cobra.Command{
		Use:   "new [FOLDER]",
		Short: "Write a commented plan to start your own from, of the elements you name",
		Long: `Write plan.yaml, a small garden with a comment on every part, to change line by
line into your own. It passes "turflast check" as it is. Beside it stands
plan.schema.json, by which editors complete and check the plan as you type: its
first line tells them.

  FOLDER  where to write it; made if it isn't there. Without it: this folder.

With --with the plan is of the elements that you name, on ground that may be dug or,
with --ground protected, on ground where nothing may be: all then stands on boards,
fleece or ballast. It has zones, crews, machines, lorries with their lead times, rules,
and tasks with rates of work, cures, hold points, hazards and the weather that they need.
Above each figure stands where it comes from; a guess says that it is one. Lorries are
booked for what a first programme wants, and the answer says whether that programme meets
the hand-over.

` + elementWords() + `

With --rates-of the rates of a garden that was built, by its plan and log, take the place
of the elements' own where the work is of the same stage, unit and kind; "turflast rates"
lists them. With --strike-of in place of --with it is the plan to take a garden down again:
fittings, plants, turf, what stands, lifts out, surfaces, ground, each zone before those on
its way out, with the machines by which it was built, and the lorries that go out: plants,
waste, and what was hired, back to its owner. A window of a week is guessed, a week after
the hand-over.

Crews are ` + strings.Join(starters.CrewNames(), ", ") + `. Without --opens or --handover a
window of twelve days is guessed, without --hours 45 hours a week from Monday to Friday.

An existing file is never overwritten.

Exit code: 0, whatever the first programme says, or 2 when the file is there already or
can't be written, or for an element that isn't known.`,
		Example: "  turflast new gardens/mine\n" +
			"  turflast new gardens/mine --with deck=20m2,rill=8m,planting,turf --opens 2027-05-10 --handover 2027-05-21",
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed(withFlag) && !c.Flags().Changed(strikeFlag) {
				return p.compose(c, args, &o)
			}
			if c.Flags().Changed(strikeFlag) {
				if err := onlyStrike(c); err != nil {
					return err
				}
				return p.strike(c, args, &o)
			}
			if err := onlyWith(c); err != nil {
				return err
			}
			return p.write(folder(args), planDocuments(testdata.Starter))
		},
	}
	addStarter(c, &o)
	return c
}

// onlyStrike is an error if options that don't go with a strike are given with one.
func onlyStrike(c *cobra.Command) error {
	for _, name := range []string{withFlag, "ground", "region", "crews", "rates-of"} {
		if c.Flags().Changed(name) {
			return &usageError{"--" + name + " doesn't go with --" + strikeFlag + ": the plan says it", c.CommandPath()}
		}
	}
	return nil
}

// onlyWith is an error if options for a plan of elements are given without any element.
func onlyWith(c *cobra.Command) error {
	var err error
	c.LocalNonPersistentFlags().VisitAll(func(f *pflag.Flag) {
		if err == nil && f.Changed {
			err = &usageError{"--" + f.Name + " goes with --" + withFlag + ", which names what is built", c.CommandPath()}
		}
	})
	return err
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
	paths := within(folder, files)
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

// within are the paths of files in a folder.
func within(folder string, files []document) []string {
	paths := make([]string, len(files))
	for i, f := range files {
		paths[i] = filepath.Join(folder, f.name)
	}
	return paths
}

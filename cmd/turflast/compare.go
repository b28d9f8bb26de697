package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) compareCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "compare FILE...",
		Short: "Put several what-ifs in one table",
		Long: `Put several what-ifs in one table, beside the plan as it is: when each hands over,
the margin, how many dates break, how many tasks move and, where the plan has rates,
what it costs more or less.

  FILE  a what-if file, as "turflast whatif --save" writes it.

` + exitWords + `
The code is 1 when a date breaks in any of them.`,
		Example: "  turflast compare late-slate.yaml wet-week.yaml",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"compare needs a what-if file", c.CommandPath()}
			}
			return nil
		},
		ValidArgsFunction: planFiles,
		RunE: func(c *cobra.Command, args []string) error {
			return p.compare(c, args, asJSON)
		},
	}
	addLogic(c)
	addAsAt(c)
	p.addLonger(c)
	addChance(c)
	addJSON(c, &asJSON)
	return c
}

func (p *program) compare(c *cobra.Command, files []string, asJSON bool) error {
	chance, err := p.chanceOf(c)
	if err != nil {
		return err
	}
	var sets []*schedule.WhatIf
	for _, name := range files {
		set, err := p.readWhatIf(name)
		if err != nil {
			return err
		}
		sets = append(sets, set)
	}
	before, solver, err := p.unsolved(c, nil)
	if err != nil {
		return err
	}
	for i, set := range sets {
		if _, err := p.changedPlan(before, set, files[i]); err != nil {
			return err
		}
	}
	if before.Case, err = p.programme(c, solver, before.agreed); err != nil {
		return err
	}
	met := before.met()
	var list []*report.WhatIf
	for i, set := range sets {
		after, err := p.changed(c, before, set, files[i])
		if err != nil {
			return err
		}
		met = errors.Join(met, after.met())
		list = append(list, report.NewWhatIf(set, whatif.Compare(before.Case, after.Case)).Chance(chance))
	}
	err = p.print(asJSON,
		func(out io.Writer) error { return report.CompareJSON(out, list) },
		func() *page.Document { return report.Compare(list) })
	if err != nil {
		return err
	}
	return met
}

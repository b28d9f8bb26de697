package main

import (
	"bytes"
	"cmp"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/flaws"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/said"
)

// set is the set of all changes that the command line names, each of which the plan takes.
func (w *whatIfRun) set(c *cobra.Command, args []string, s *solved) (*schedule.WhatIf, error) {
	set := &schedule.WhatIf{}
	if c.Flags().Changed("with") {
		read, err := w.p.readWhatIf(w.with)
		if err != nil {
			return nil, err
		}
		set = read
	}
	words := s.words(w.p)
	said, err := changesIn(words, args)
	if err != nil {
		return nil, cmp.Or(fileAmong(c, args), misread(c, "", err, s.unread))
	}
	if set.Changes = append(set.Changes, said...); len(set.Changes) == 0 {
		return nil, &usageError{fmt.Sprintf("whatif needs a change, like %q", words.ChangeExample()), c.CommandPath()}
	}
	if err := w.named(c, set); err != nil {
		return nil, err
	}
	_, err = w.p.changedPlan(s, set, w.with)
	return set, err
}

// fileAmong is the fault of a file among arguments that should be changes; nil when none is.
func fileAmong(c *cobra.Command, args []string) error {
	for _, name := range args {
		if _, err := file(name); err == nil && strings.ContainsAny(name, `/\.`) {
			return &usageError{fmt.Sprintf("%q is a file, and a change should stand here: "+
				"a plan goes with --plan %s, changes in a file with --with %s", name, name, name), c.CommandPath()}
		}
	}
	return nil
}

// named gives the set the name that the command line has for it.
func (w *whatIfRun) named(c *cobra.Command, set *schedule.WhatIf) error {
	if c.Flags().Changed("name") {
		if w.save == "" {
			return &usageError{"--name names what --save writes", c.CommandPath()}
		}
		set.Name = strings.Join(strings.Fields(w.name), " ")
	}
	if c.Flags().Changed("save") && set.Name == "" {
		base := filepath.Base(w.save)
		set.Name = strings.TrimSuffix(base, filepath.Ext(base))
	}
	return nil
}

// changesIn reads each argument as changes, or else all of them together, for those who
// leave the quotes out.
func changesIn(words *said.Garden, args []string) ([]schedule.Change, error) {
	var out []schedule.Change
	for _, text := range args {
		list, err := words.Changes(text)
		if err != nil {
			if whole, together := words.Changes(strings.Join(args, " ")); len(args) > 1 && together == nil {
				return whole, nil
			}
			if len(args) > 1 && !strings.Contains(text, " ") {
				_, err = words.Changes(strings.Join(args, " "))
			}
			return nil, err
		}
		out, words = append(out, list...), words.With(list)
	}
	return out, nil
}

// readWhatIf reads a what-if file.
func (p *program) readWhatIf(name string) (*schedule.WhatIf, error) {
	src, err := file(name)
	if err != nil {
		return nil, err
	}
	text, err := src.read()
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", src.name, reason(err))
	}
	set, problems := planfile.ReadWhatIf(bytes.NewReader(text))
	if problems.Fatal() {
		return nil, &problemsError{src.name, problems}
	}
	return set, nil
}

// changedPlan is the plan of a command with a set of changes. The name of the set's file is
// for faults in it.
func (p *program) changedPlan(s *solved, set *schedule.WhatIf, name string) (*schedule.Plan, error) {
	plan, err := whatif.Apply(s.standsAs(), set.Changes)
	if f := schedule.AsChangeFault(err); f != nil {
		at := set.Changes[f.Index].Pos
		if at.Line == 0 {
			return nil, err
		}
		at.Column += f.Column - 1
		return nil, &problemsError{name, schedule.Problems{{Pos: at, Text: f.Text, Hint: f.Hint}}}
	}
	return plan, err
}

// changed solves the plan with a set of changes, keeping as near to the
// programme before as it can. The name of the set's file is for faults in it.
func (p *program) changed(c *cobra.Command, before *solved, set *schedule.WhatIf, name string) (*solved, error) {
	plan, err := p.changedPlan(before, set, name)
	if err != nil {
		return nil, err
	}
	solver, err := solve.New(plan)
	if err != nil {
		return nil, &problemsError{before.source.name, flaws.Rings(plan, err)}
	}
	after := *before
	if before.Programme.Scope == schedule.Logic {
		after.Case, err = p.programme(c, solver, nil)
	} else {
		after.Case, err = p.crewsNear(solver, whatif.Reference(before.Case, plan))
	}
	if err != nil {
		return nil, err
	}
	return &after, nil
}

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

// topic is something other than a command that help tells of.
type topic struct {
	name, short string
	args        string // beside its name, as the usage line has them
	most        int    // of them
	show        func(p *program, args []string) error
	complete    func() []string
}

// topics are all of them.
func topics() []topic {
	return []topic{
		guide("lead", "a page for the project lead"),
		guide("chief", "a page for the crew chief"),
		guide("designer", "a page for the designer"),
		guide("figures", "how the figures are computed, with sources"),
		{"plan-keys", "every key of the plan file: what it says, its unit, an example", " [KEY]", 1,
			(*program).planKeys, planKeyNames},
	}
}

func (p *program) helpCommand() *cobra.Command {
	long := "Show what a command does, its arguments and options, an example and its exit\n" +
		"codes. It also tells of:\n\n"
	for _, t := range topics() {
		long += fmt.Sprintf("  %-16s %s\n", t.name+t.args, t.short)
	}
	return &cobra.Command{
		Use:               "help [COMMAND]",
		Short:             "Show what a command does, and every key of the plan file",
		Long:              long + "\nExit code: 0, or 2 when there is no such command or key.",
		Example:           "  turflast help whatif\n  turflast help plan-keys hold_point",
		ValidArgsFunction: completeHelp,
		RunE:              p.help,
	}
}

func (p *program) help(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		c.Root().InitDefaultHelpFlag()
		return c.Root().Help()
	}
	for _, t := range topics() {
		if t.name == args[0] {
			if err := atMost(1+t.most)(c, args); err != nil {
				return err
			}
			return t.show(p, args[1:])
		}
	}
	if err := atMost(1)(c, args); err != nil {
		return err
	}
	for _, known := range c.Root().Commands() {
		if known.Name() == args[0] {
			known.InitDefaultHelpFlag()
			return known.Help()
		}
	}
	return unknownCommand(c.Root(), args[0], "a command")
}

// planKeys prints all keys of the plan file, or one.
func (p *program) planKeys(args []string) error {
	if len(args) == 0 {
		return report.PlanKeys().Write(p.stdout, page.Wide)
	}
	doc, near := report.PlanKey(args[0])
	if doc != nil {
		return doc.Write(p.stdout, page.Wide)
	}
	text := fmt.Sprintf("no file has a key %q", args[0])
	if near != "" {
		text += fmt.Sprintf("; did you mean %q?", near)
	}
	return &usageError{text, "turflast help"}
}

// planKeyNames are all keys of the plan file with what they say, for completion.
func planKeyNames() []string {
	var out []string
	for _, k := range keys.Paths(keys.Plan) {
		out = append(out, k.String()+"\t"+k.Means)
	}
	return out
}

func completeHelp(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var out []string
	switch len(args) {
	case 0:
		out = commandNames(c.Root())
		for _, t := range topics() {
			out = append(out, t.name+"\t"+t.short)
		}
	case 1:
		for _, t := range topics() {
			if t.name == args[0] && t.complete != nil {
				out = t.complete()
			}
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// commandNames lists the commands.
func commandNames(root *cobra.Command) []string {
	var known []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() || c.Name() == "help" {
			known = append(known, c.Name())
		}
	}
	return known
}

// unknownCommand says that a name is not a known one, and which command is
// near.
func unknownCommand(root *cobra.Command, name, what string) error {
	text := fmt.Sprintf("%q is not %s", name, what)
	if near := schedule.Nearest(name, commandNames(root)); near != "" {
		text += fmt.Sprintf("; did you mean %q?", near)
	} else if root.HasParent() {
		text += meantAsPlan(name)
	}
	return &usageError{text, root.CommandPath()}
}

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
)

func (p *program) helpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Show what a command does",
		Long: "Show what a command does, its arguments and options, an example and its exit\n" +
			"codes.\n\nExit code: 0, or 2 when there is no such command.",
		Args: atMost(1),
		ValidArgsFunction: func(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return commandNames(c.Root()), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				c.Root().InitDefaultHelpFlag()
				return c.Root().Help()
			}
			for _, known := range c.Root().Commands() {
				if known.Name() == args[0] {
					known.InitDefaultHelpFlag()
					return known.Help()
				}
			}
			return unknownCommand(c.Root(), args[0], "a command")
		},
	}
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
	}
	return &usageError{text, root.CommandPath()}
}

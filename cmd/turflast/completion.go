package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
)

// shells are those that a completion script can be written for.
var shells = []string{"bash", "zsh", "fish", "powershell"}

func (p *program) completionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "completion SHELL | man [FOLDER]",
		Short: "Write a completion script for a shell, or the manual pages",
		Long: `Write a script that completes commands, options, plan files, names with what they
are, sheet numbers, dates and words of changes in a shell; or the manual pages.

  SHELL   bash, zsh, fish or powershell
  man     the manual page of turflast, to standard output
  FOLDER  a page for each command goes there, in place of those that are there

Exit code: 0, or 2 for another shell or a folder that can't be written.`,
		Example: `  source <(turflast completion bash)                in bash, for this session
  turflast completion zsh > "${fpath[1]}/_turflast"   in zsh, for good
  turflast completion fish > ~/.config/fish/completions/turflast.fish
  turflast completion man ~/.local/share/man/man1`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"completion needs the name of a shell", c.CommandPath()}
			}
			if args[0] == "man" {
				return atMost(2)(c, args)
			}
			return atMost(1)(c, args)
		},
		ValidArgs: append(shells, "man"),
		RunE: func(c *cobra.Command, args []string) error {
			root := c.Root()
			switch args[0] {
			case "man":
				return p.manPages(root, strings.Join(args[1:], ""))
			case "bash":
				return root.GenBashCompletionV2(p.stdout, true)
			case "zsh":
				return root.GenZshCompletion(p.stdout)
			case "fish":
				return root.GenFishCompletion(p.stdout, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(p.stdout)
			}
			text := fmt.Sprintf("no completion is known for %q", args[0])
			if near := schedule.Nearest(args[0], shells); near != "" {
				text += fmt.Sprintf("; did you mean %q?", near)
			}
			return &usageError{text, c.CommandPath()}
		},
	}
}

// completeFiles makes options of a command complete the names of YAML files.
func completeFiles(c *cobra.Command, options ...string) {
	for _, name := range options {
		if err := c.MarkFlagFilename(name, "yaml", "yml"); err != nil {
			panic(err) // the command has no such option
		}
	}
}

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
		Use:   "completion SHELL",
		Short: "Write a completion script for a shell",
		Long: `Write a script that completes commands, options, plan files, task names and
regions in a shell.

  SHELL  bash, zsh, fish or powershell

Exit code: 0, or 2 for another shell.`,
		Example: `  source <(turflast completion bash)                in bash, for this session
  turflast completion zsh > "${fpath[1]}/_turflast"   in zsh, for good
  turflast completion fish > ~/.config/fish/completions/turflast.fish`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"completion needs the name of a shell", c.CommandPath()}
			}
			return atMost(1)(c, args)
		},
		ValidArgs: shells,
		RunE: func(c *cobra.Command, args []string) error {
			root := c.Root()
			switch args[0] {
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

// completeThings completes the first argument of an event: the ids of what it
// may be about.
func (p *program) completeThings(k logKind) cobra.CompletionFunc {
	words := strings.Fields(k.use)
	return func(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 || len(words) < 2 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		plan, _, err := p.mustLoad(c, nil)
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var out []string
		switch words[1] {
		case "TASK":
			out = idsIn(plan.Tasks, func(t *schedule.Task) string { return t.ID })
		case "LORRY":
			out = idsIn(plan.Deliveries, func(d *schedule.Delivery) string { return d.ID })
		case "CREW":
			out = idsIn(plan.Crews, func(c *schedule.Crew) string { return c.ID })
		case "GIVEN":
			out = idsIn(plan.Givens, func(g *schedule.Given) string { return g.ID })
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
}

func idsIn[T any](list []T, id func(*T) string) []string {
	var out []string
	for i := range list {
		out = append(out, id(&list[i]))
	}
	return out
}

// completeFiles makes options of a command complete the names of YAML files.
func completeFiles(c *cobra.Command, options ...string) {
	for _, name := range options {
		if err := c.MarkFlagFilename(name, "yaml", "yml"); err != nil {
			panic(err) // the command has no such option
		}
	}
}

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
	"build.example/turflast/schedule/show/report"
)

// schemaName is the file beside a plan in which editors find its schema.
const schemaName = "plan.schema.json"

// schemaLine is the comment by which editors find it: what the language server that most
// of them use for YAML reads.
const schemaLine = "# yaml-language-server: $schema=" + schemaName + "\n"

// planDocuments are a plan that names its schema, and the schema.
func planDocuments(text string) []document {
	return []document{{planName, schemaLine + text}, {schemaName, string(keys.Schema(keys.Plan))}}
}

func (p *program) schemaCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "schema NAME",
		Short: "Write the JSON Schema of a file, or of what a command writes as JSON",
		Long: `Write a JSON Schema (2020-12): of the files that you write, by which an editor
completes and checks them as you type, or of what a command writes with --json, for
programs that read it. "turflast new" and "turflast demo" write that of the plan
beside it, and a first line in the plan by which editors find it.

Without NAME it lists the names.

A schema takes every plan that turflast takes. It doesn't know which names are in
use, nor how dates and amounts go together: "turflast check" does.

Exit code: 0, or 2 for a name that isn't known.`,
		Example: "  turflast schema plan > plan.schema.json\n  turflast schema plan-json",
		Args:    atMost(1),
		RunE:    p.schema,
	}
	c.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		var out []string
		for _, s := range report.Schemas() {
			if len(args) == 0 {
				out = append(out, s.Name+"\t"+s.About)
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
	return c
}

func (p *program) schema(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		for _, s := range report.Schemas() {
			fmt.Fprintf(p.stdout, "%-22s %s\n", s.Name, s.About)
		}
		return nil
	}
	if s, ok := report.SchemaNamed(args[0]); ok {
		_, err := p.stdout.Write(s.Text())
		return err
	}
	var names []string
	for _, s := range report.Schemas() {
		names = append(names, s.Name)
	}
	text := fmt.Sprintf("no schema is called %q", args[0])
	if near := schedule.Nearest(args[0], names); near != "" {
		text += fmt.Sprintf("; did you mean %q?", near)
	}
	return &usageError{text, c.CommandPath()}
}

package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/show/page"
)

// addJSON adds the option that prints an answer as JSON.
func addJSON(c *cobra.Command, asJSON *bool) {
	c.Flags().BoolVar(asJSON, "json", false, "as JSON; times are RFC 3339, lengths are minutes")
}

// addTable adds the option that prints an answer as a table, to a command that has --json.
func addTable(c *cobra.Command, asTable *bool) {
	c.Flags().BoolVar(asTable, "csv", false, "as a table for spreadsheets, of comma-separated values (RFC 4180)")
	c.PreRunE = func(c *cobra.Command, _ []string) error {
		if *asTable && c.Flags().Changed("json") {
			return &usageError{"--csv and --json are two forms of one answer: take one", c.CommandPath()}
		}
		return nil
	}
}

// tableWords tells in help how tables are written.
const tableWords = `With --csv it is a table, in UTF-8: the keys of the JSON are its columns, lengths are
minutes, times those of the site's clock. Text that a spreadsheet would run as a
formula gets an apostrophe in front: where after all apostrophes = + - or @ follows,
take one off to have the text as it is in the plan.`

// print prints an answer as JSON, or as a page of the usual width.
func (p *program) print(asJSON bool, json func(io.Writer) error, build func() *page.Document) error {
	return p.printWide(page.Wide, asJSON, json, build)
}

// printWide is the same for a page of another width.
func (p *program) printWide(width int, asJSON bool, json func(io.Writer) error, build func() *page.Document) error {
	if asJSON {
		return json(p.stdout)
	}
	return build().Write(p.stdout, width)
}

// leastWidth is the narrowest page that may be asked for.
const leastWidth = 30

// addWidth adds the option that prints a page of another width.
func addWidth(c *cobra.Command, width *int) {
	c.Flags().IntVar(width, "width", page.Wide, "the widest line, in `COLUMNS`: 40 suits a phone")
}

// tooNarrow is the fault of a width that isn't enough for a page, which it names; nil
// when it is.
func tooNarrow(c *cobra.Command, width int, what string) error {
	if width >= leastWidth {
		return nil
	}
	text := fmt.Sprintf("--width %d is too narrow; %s takes %d columns", width, what, leastWidth)
	return &usageError{text, c.CommandPath()}
}

package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// manPages writes the manual to standard output, or a page for each command to a folder.
func (p *program) manPages(root *cobra.Command, folder string) error {
	if folder == "" {
		_, err := p.stdout.Write([]byte(manPage(root)))
		return err
	}
	if err := makeFolder(folder); err != nil {
		return err
	}
	return eachCommand(root, func(c *cobra.Command) error {
		path := filepath.Join(folder, manName(c)+".1")
		if err := replaceFile(path, []byte(manPage(c))); err != nil {
			return err
		}
		fmt.Fprintln(p.stdout, printable("wrote "+path))
		return nil
	})
}

// eachCommand does something for a command and all under it that help lists.
func eachCommand(c *cobra.Command, do func(*cobra.Command) error) error {
	if err := do(c); err != nil {
		return err
	}
	for _, inner := range c.Commands() {
		if inner.IsAvailableCommand() || inner.Name() == "help" {
			if err := eachCommand(inner, do); err != nil {
				return err
			}
		}
	}
	return nil
}

// manName is the name of a command's page: turflast-log-start.
func manName(c *cobra.Command) string { return strings.ReplaceAll(c.CommandPath(), " ", "-") }

// manPage is the manual page of a command, in the man macros of roff (from memory). What
// help says stays laid out as it is there.
func manPage(c *cobra.Command) string {
	c.InitDefaultHelpFlag()
	var b strings.Builder
	fmt.Fprintf(&b, ".TH %q 1 \"\" \"turflast\" \"turflast\"\n", strings.ToUpper(manName(c)))
	fmt.Fprintf(&b, ".SH NAME\n%s \\- %s\n", roff(manName(c)), roff(c.Short))
	fmt.Fprintf(&b, ".SH SYNOPSIS\n.B %s\n", roff(c.UseLine()))
	laidOut(&b, "DESCRIPTION", c.Long)
	manOptions(&b, "OPTIONS", c.LocalFlags())
	manOptions(&b, "OPTIONS OF ALL COMMANDS", c.InheritedFlags())
	laidOut(&b, "EXAMPLE", c.Example)
	var others []string
	if c.HasParent() {
		others = append(others, c.Parent().CommandPath())
	}
	for _, inner := range c.Commands() {
		if inner.IsAvailableCommand() || inner.Name() == "help" {
			others = append(others, inner.CommandPath())
		}
	}
	b.WriteString(".SH SEE ALSO\n")
	for i, path := range others {
		comma := ","
		if i == len(others)-1 {
			comma = ""
		}
		fmt.Fprintf(&b, ".BR %s (1)%s\n", roff(strings.ReplaceAll(path, " ", "-")), comma)
	}
	return b.String()
}

// laidOut writes a section whose lines stay as they are.
func laidOut(b *strings.Builder, title, text string) {
	if text == "" {
		return
	}
	fmt.Fprintf(b, ".SH %s\n.nf\n", title)
	for line := range strings.Lines(strings.TrimRight(text, "\n") + "\n") {
		b.WriteString(roff(strings.TrimRight(line, " \n")) + "\n")
	}
	b.WriteString(".fi\n")
}

// manOptions writes a section of options.
func manOptions(b *strings.Builder, title string, flags *pflag.FlagSet) {
	if !flags.HasAvailableFlags() {
		return
	}
	fmt.Fprintf(b, ".SH %s\n", title)
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		takes, means := pflag.UnquoteUsage(f)
		name := "--" + f.Name
		if f.Shorthand != "" {
			name = "-" + f.Shorthand + ", " + name
		}
		if takes != "" {
			name += " " + takes
		}
		fmt.Fprintf(b, ".TP\n.B %s\n%s\n", roff(name), roff(means))
	})
}

// roff is a line of text that means nothing to roff.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, "'") {
		s = `\&` + s
	}
	return s
}

package main

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// The exit codes of every command.
const (
	exitMet   = 0 // all dates are met; for check: the file reads
	exitBreak = 1 // a date breaks, or the plan is impossible
	exitInput = 2 // bad input or usage
	exitFault = 3 // our fault

	exitInterrupted = 130 // nothing is shown: as shells say of what an interrupt ended
)

// interruptedError is an interrupt that came before there was anything to show.
type interruptedError struct{ text string }

func (e *interruptedError) Error() string { return e.text }

// exitWords tells the exit codes in a command's help.
const exitWords = `Exit code: 0 when every date is met, 1 when one breaks or the plan is impossible,
2 for a fault in the plan or on the command line, 3 for a fault of ours.`

// errBreaks is the error when a date breaks; what breaks has been printed by
// then.
var errBreaks = errors.New("a date breaks")

// errRefused is the error of a plan that can't be used, when what is wrong with it has
// been printed by then.
var errRefused = errors.New("the plan can't be used")

// problemsError is a plan that can't be used.
type problemsError struct {
	name     string // of the file
	problems schedule.Problems
}

func (e *problemsError) Error() string {
	var b strings.Builder
	for _, q := range e.problems {
		fmt.Fprintf(&b, "%s:%s\n", e.name, q)
	}
	fmt.Fprintf(&b, "%s: %s; nothing was planned", e.name, wording.Count(len(e.problems.Faults()), "fault", "faults"))
	return b.String()
}

// short says how many faults the plan has, and what lists them.
func (e *problemsError) short() error {
	return fmt.Errorf("%s has %s, which \"turflast check\" lists", e.name,
		wording.Count(len(e.problems.Faults()), "fault", "faults"))
}

// usageError is a command line that can't be followed.
type usageError struct {
	text    string
	command string // its help tells more
}

func (e *usageError) Error() string {
	return fmt.Sprintf("%s\n%q says more", e.text, e.command+" --help")
}

// fail prints an error and gives its exit code. It is the one place where
// errors become codes.
func (p *program) fail(err error) int {
	var problems *problemsError
	var ours *fault
	var stopped *interruptedError
	switch {
	case err == nil:
		return exitMet
	case errors.Is(err, errBreaks):
		return exitBreak
	case errors.Is(err, errRefused):
		return exitInput
	case errors.As(err, &ours):
		p.reportFault(ours)
		return exitFault
	case errors.As(err, &problems):
		fmt.Fprintln(p.stderr, printable(problems.Error()))
		return exitInput
	}
	fmt.Fprintln(p.stderr, printable("turflast: "+err.Error()))
	if errors.As(err, &stopped) {
		return exitInterrupted
	}
	return exitInput
}

// printable marks characters that could make a terminal do something, or turn a line round:
// file names and arguments may hold anything. Lines keep their ends.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && page.Harmless(string(r)) != string(r) {
			return unicode.ReplacementChar
		}
		return r
	}, s)
}

// unknownFlag matches the flag library's error about an unknown flag.
var unknownFlag = regexp.MustCompile(`^unknown (?:flag|shorthand flag): (?:--|'.' in -)(\S+)$`)

// flagError words an error about an option, and adds the nearest one to an error about an
// unknown one.
func flagError(c *cobra.Command, err error) error {
	text := err.Error()
	var bad *pflag.InvalidValueError
	var lacks *pflag.ValueRequiredError
	var syntax *pflag.InvalidSyntaxError
	switch m := unknownFlag.FindStringSubmatch(text); {
	case m != nil:
		text = unknownOption(c, m[1], strings.Contains(text, "shorthand"))
	case errors.As(err, &lacks):
		what, _ := pflag.UnquoteUsage(lacks.GetFlag())
		if what == strings.ToLower(what) { // a type of the library's
			what = "value"
		}
		text = fmt.Sprintf("--%s needs a %s", lacks.GetFlag().Name, what)
	case errors.As(err, &syntax):
		text = fmt.Sprintf("%q is no option", syntax.GetSpecifiedFlag())
	case errors.As(err, &bad):
		text = badValue(bad, err)
	}
	return &usageError{text, c.CommandPath()}
}

// unknownOption names an option that there isn't, and the nearest that there is.
func unknownOption(c *cobra.Command, name string, short bool) string {
	dashes := "--"
	if short {
		dashes = "-"
	}
	text := "there is no option " + dashes + name
	var known []string
	c.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
	if near := schedule.Nearest(name, known); near != "" {
		text += "; did you mean --" + near + "?"
	}
	return text
}

// badValue words a value that an option can't have.
func badValue(bad *pflag.InvalidValueError, err error) string {
	if errors.Is(err, errSteps) {
		return stepsWords(bad.GetValue())
	}
	return fmt.Sprintf("--%s can't be %q", bad.GetFlag().Name, bad.GetValue())
}

// atMost takes no more than n arguments.
func atMost(n int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) > n {
			text := fmt.Sprintf("%q is one argument too many", args[n])
			if n == 0 {
				text += meantAsPlan(args[0])
			}
			return &usageError{text, c.CommandPath()}
		}
		return nil
	}
}

// meantAsPlan says how to name a plan to a command that takes none as its argument, if the
// argument is one: the commands beside it do take it so.
func meantAsPlan(arg string) string {
	if _, err := file(arg); err != nil {
		return ""
	}
	return fmt.Sprintf("; for the plan in it say --plan %q", arg)
}

package main

import (
	"errors"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"
)

// longerFlag is the option that has a crew programme looked for longer.
const longerFlag = "longer"

// longerWords explain in help what a longer search is.
const longerWords = `The search takes about a second. --longer goes on in steps, each about as much work as
that, and ends sooner once it is proven that nothing better can be. What it finds is
never worse, and the same on any machine. "turflast baseline set" with the same
--longer agrees what was found: from then on every programme keeps to it where nothing
is lost by that.`

// mostSteps is the most steps that a longer search may take.
const mostSteps = 999

// steps are those of a longer search, as an option; none unless they are given.
type steps int

// errSteps is the error of a number of steps that can't be.
var errSteps = errors.New("the number of steps can't be used")

// String writes the steps as they are given.
func (s *steps) String() string { return strconv.Itoa(int(*s)) }

// Type names the value in help.
func (s *steps) Type() string { return "STEPS" }

// Set reads the steps; the error is errSteps.
func (s *steps) Set(text string) error {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > mostSteps {
		return errSteps
	}
	*s = steps(n)
	return nil
}

// addLonger adds the option to a command that looks for a crew programme.
func (p *program) addLonger(c *cobra.Command) {
	p.addSteps(c, "look longer for a better programme: so many `STEPS` more, each about as much work as without it")
}

// addSteps adds the option with its words in help.
func (p *program) addSteps(c *cobra.Command, words string) {
	c.Flags().Var(&p.longer, longerFlag, words)
	c.Flags().Lookup(longerFlag).DefValue = "0" // which isn't told in help, as it can't be given
}

// stepsWords say what is wrong with a number of steps.
func stepsWords(value string) string {
	return fmt.Sprintf("--%s can't be %q: give 1 to %d steps", longerFlag, value, mostSteps)
}

package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"strings"

	"github.com/spf13/cobra"
)

// usualPager is what shows long output where the environment names nothing.
const usualPager = "less -R"

// pages says whether a command's output may be shown by a pager: that of all but the one
// that takes the screen.
func (p *program) pages(c *cobra.Command) bool {
	return p.env.Rows != nil && !p.noPager && c.HasParent()
}

// pager is the command that shows long output, from PAGER; none when it names cat, or
// nothing that is there.
func (p *program) pager() []string {
	asked := p.env.Getenv("PAGER")
	if strings.TrimSpace(asked) == "" {
		asked = usualPager
	}
	words := strings.Fields(asked)
	if _, err := exec.LookPath(words[0]); err != nil || words[0] == "cat" {
		return nil
	}
	return words
}

// release writes what was held back: by a pager when it is longer than the screen.
func (p *program) release(out *output) {
	held := out.held
	out.held = nil
	if held == nil || held.Len() == 0 {
		return
	}
	words := p.pager()
	if words == nil || bytes.Count(held.Bytes(), []byte("\n")) < p.env.Rows() {
		_, _ = out.write(held.Bytes()) // it keeps its error
		return
	}
	signal.Ignore(os.Interrupt) // the pager takes Ctrl-C for its own
	defer signal.Reset(os.Interrupt)
	page := exec.Command(words[0], words[1:]...)
	page.Stdin, page.Stdout, page.Stderr = held, out.w, p.stderr
	if err := page.Run(); err != nil && page.ProcessState == nil {
		_, _ = out.write(held.Bytes()) // it didn't start
	}
}

// output is standard output. It keeps its first error, so that no command has to check for
// one after each line, and holds everything back for a pager where one may show it.
type output struct {
	w     io.Writer
	err   error
	first func()        // called before the first line; nil after
	held  *bytes.Buffer // nil: nothing is held back
}

func (o *output) Write(b []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	if o.first != nil {
		o.first()
		o.first = nil
	}
	if o.held != nil {
		return o.held.Write(b)
	}
	return o.write(b)
}

func (o *output) write(b []byte) (int, error) {
	n, err := o.w.Write(b)
	o.err = err
	return n, err
}

// failed is the error of writing, if there was one.
func (o *output) failed() error {
	if o.err == nil {
		return nil
	}
	return fmt.Errorf("can't write the output: %w", reason(o.err))
}

package main

import (
	"fmt"
	"path/filepath"
	"runtime"
	"strings"

	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/verify"
)

// fault is an error of ours: a panic, or a programme that the check refused.
type fault struct {
	what  string
	lines []string // where it happened, or what was refused
}

func (f *fault) Error() string { return f.what }

// panicked is the fault of a panic, with the stack of the goroutine in which it
// happened if the value knows it, else the present stack. It must be called
// while the panic is being recovered, or with a value that knows its stack.
func panicked(v any) *fault {
	f := &fault{what: fmt.Sprint(v)}
	var pcs [64]uintptr
	stack := pcs[:runtime.Callers(2, pcs[:])]
	if elsewhere, ok := v.(interface{ Frames() []uintptr }); ok {
		stack = elsewhere.Frames()
	}
	frames := runtime.CallersFrames(stack)
	for {
		frame, more := frames.Next()
		// Base names only: whole paths tell about the machine.
		f.lines = append(f.lines, fmt.Sprintf("%s %s:%d", frame.Function, filepath.Base(frame.File), frame.Line))
		if !more {
			return f
		}
	}
}

// refused is the fault of a programme that breaks rules. It names the rules and
// the places in the plan's lists, not the plan's own words.
func refused(faults []verify.Fault) *fault {
	f := &fault{what: fmt.Sprintf("the programme failed its own check (%s)", wording.Count(len(faults), "rule", "rules"))}
	for i, v := range faults {
		if i == 20 {
			f.lines = append(f.lines, fmt.Sprintf("and %d more", len(faults)-i))
			break
		}
		f.lines = append(f.lines, fmt.Sprintf("rule %s, activity %d", v.Rule, v.Activity))
	}
	return f
}

// reportFault prints what to send us. It holds nothing of the plan but a
// digest, which tells whether two reports are about the same plan.
func (p *program) reportFault(f *fault) {
	digest := p.digest
	if digest == "" {
		digest = "none read"
	}
	fmt.Fprintf(p.stderr, `turflast: this is our fault, not yours: %s
No programme was shown. Please send us the lines below; they hold nothing of
your plan but its digest.
  version  %s, %s, %s/%s
  command  %s
  plan     %s
  %s
`, f.what, version(), runtime.Version(), runtime.GOOS, runtime.GOARCH, p.command, digest, strings.Join(f.lines, "\n  "))
}

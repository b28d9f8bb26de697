package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"sync"
)

// interrupts are those of one run of the program. The first ends whatever is being searched
// for with the best so far, the second the program. Nothing is caught before a search has
// begun, nor once something is being printed.
type interrupts struct {
	ctx     context.Context
	cancel  context.CancelFunc
	signals chan os.Signal
	release func()
}

// interruptible is done at the first interrupt of the run.
func (p *program) interruptible() context.Context {
	if p.interrupts != nil {
		return p.interrupts.ctx
	}
	i := &interrupts{signals: make(chan os.Signal, 2)}
	i.ctx, i.cancel = context.WithCancel(context.Background())
	over := make(chan struct{})
	i.release = sync.OnceFunc(func() {
		signal.Stop(i.signals)
		close(over)
	})
	p.interrupts = i
	signal.Notify(i.signals, os.Interrupt)
	go func() {
		for k := range 2 {
			select {
			case <-over:
				return
			case <-i.signals:
			}
			if i.cancel(); k == 1 {
				p.giveUp()
			}
		}
	}()
	return i.ctx
}

// giveUp ends the program at the second interrupt.
func (p *program) giveUp() {
	if p.env.Rewrites {
		fmt.Fprint(p.stderr, "\r\x1b[K")
	}
	fmt.Fprintln(p.stderr, "turflast: interrupted again; nothing is shown.")
	os.Exit(exitInterrupted)
}

// uninterruptible leaves further interrupts to the system.
func (p *program) uninterruptible() {
	if p.interrupts != nil {
		p.interrupts.release()
	}
}

// Package together runs functions side by side such that a panic in one of them
// reaches whoever waits for them.
package together

import (
	"fmt"
	"runtime"
	"sync"
)

// Group is functions that run side by side. The zero Group has none.
type Group struct {
	all   sync.WaitGroup
	mu    sync.Mutex
	first *Panic
}

// Go runs a function beside the others.
func (g *Group) Go(f func()) {
	g.all.Go(func() {
		defer func() {
			if v := recover(); v != nil {
				g.keep(v)
			}
		}()
		f()
	})
}

// keep keeps the first panic, which is being recovered.
func (g *Group) keep(v any) {
	p, ok := v.(*Panic)
	if !ok {
		var pcs [64]uintptr
		p = &Panic{Value: v, frames: pcs[:runtime.Callers(3, pcs[:])]}
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.first == nil {
		g.first = p
	}
}

// Wait waits until all functions have ended. If one panicked, Wait panics with
// a [*Panic].
func (g *Group) Wait() {
	g.all.Wait()
	if g.first != nil {
		panic(g.first)
	}
}

// Panic is a panic of one function of a group.
type Panic struct {
	Value  any
	frames []uintptr
}

// Frames is the stack at which it happened, as runtime.Callers gives it.
func (p *Panic) Frames() []uintptr { return p.frames }

// String is the value as text.
func (p *Panic) String() string { return fmt.Sprint(p.Value) }

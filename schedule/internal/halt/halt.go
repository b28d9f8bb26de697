// Package halt is the one way in which long loops ask whether to end.
package halt

import "context"

// every is how many steps go by between two questions: so few that an end comes within
// milliseconds, so many that asking costs nothing.
const every = 256

// Halt tells when a context is done and no grace is left. It asks every few steps; once it
// has said to end it says so at each. Its zero value never halts.
// Only one goroutine may use it at a time.
type Halt struct {
	ctx   context.Context
	steps int
	grace int // steps that may still follow once the context is done
	over  bool
}

// On is the halt of a context, which may be nil for one that is never done.
func On(ctx context.Context) Halt { return Halt{ctx: ctx} }

// After is the halt of a context that lets some more steps follow once that is done: what
// takes little is worth finishing.
func After(ctx context.Context, grace int) Halt { return Halt{ctx: ctx, grace: grace} }

// Step counts a step, and says whether to end.
func (h *Halt) Step() bool { return h.Steps(1) }

// Steps counts several steps at once, and says whether to end.
func (h *Halt) Steps(n int) bool {
	if h.steps += n; h.steps < every && !h.over {
		return false
	}
	return h.Now()
}

// Now asks at once, and says whether to end.
func (h *Halt) Now() bool {
	if h.ctx != nil && h.ctx.Err() != nil {
		h.grace -= h.steps
		h.over = h.over || h.grace <= 0
	}
	h.steps = 0
	return h.over
}

// Over says whether the last question was answered with the end.
func (h *Halt) Over() bool { return h.over }

// Package countdown makes contexts for tests that are done at a step of the work, not at a
// time, so that they end the same search at the same step on any machine.
package countdown

import (
	"context"
	"sync/atomic"
)

// Context is done once its error has been asked for a number of times. Nothing is told
// by its Done.
type Context struct {
	context.Context
	left, since atomic.Int64
}

// From is done after so many questions.
func From(questions int64) *Context {
	c := &Context{Context: context.Background()}
	c.left.Store(questions)
	return c
}

// Err counts a question; it is [context.Canceled] once there were enough.
func (c *Context) Err() error {
	if c.left.Add(-1) >= 0 {
		return nil
	}
	c.since.Add(1)
	return context.Canceled
}

// Since is how many questions have come since it is done.
func (c *Context) Since() int64 { return c.since.Load() }

package tui

import (
	"fmt"
	"runtime"
	"sync/atomic"

	tea "github.com/charmbracelet/bubbletea"
)

// Panic is a panic of the screen or of what runs beside it.
type Panic struct {
	Value  any
	frames []uintptr
}

// Error returns the value as text.
func (p *Panic) Error() string { return fmt.Sprint(p.Value) }

// Frames returns the stack at which it happened, as runtime.Callers gives it.
func (p *Panic) Frames() []uintptr {
	if v, ok := p.Value.(interface{ Frames() []uintptr }); ok {
		return v.Frames()
	}
	return p.frames
}

// guard is a model whose panics end the program in good order: the terminal is restored,
// and [Run] returns the panic.
type guard struct {
	tea.Model
	fault *atomic.Pointer[Panic]
	quit  func()
}

// keep remembers the first panic, while it is being recovered.
func (g guard) keep(v any) {
	var pcs [64]uintptr
	g.fault.CompareAndSwap(nil, &Panic{v, pcs[:runtime.Callers(3, pcs[:])]})
}

// Init begins the model.
func (g guard) Init() tea.Cmd { return g.run(g.Model.Init()) }

// Update handles a message.
func (g guard) Update(msg tea.Msg) (next tea.Model, cmd tea.Cmd) {
	defer func() {
		if v := recover(); v != nil {
			g.keep(v)
			next, cmd = g, tea.Quit
		}
	}()
	m, c := g.Model.Update(msg)
	return guard{m, g.fault, g.quit}, g.run(c)
}

// View draws.
func (g guard) View() (frame string) {
	defer func() {
		if v := recover(); v != nil {
			g.keep(v)
			go g.quit() // in a goroutine, since it waits for the update after this frame
		}
	}()
	return g.Model.View()
}

// run returns a command whose panics end the program, and so do those of the commands
// that it brings.
func (g guard) run(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() (msg tea.Msg) {
		defer func() {
			if v := recover(); v != nil {
				g.keep(v)
				msg = tea.Quit()
			}
		}()
		msg = cmd()
		if batch, ok := msg.(tea.BatchMsg); ok {
			for i := range batch {
				batch[i] = g.run(batch[i])
			}
		}
		return msg
	}
}

package tui

import (
	"sync/atomic"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"

	"build.example/turflast/tui/draw"
)

// Run shows the UI until the user quits it. Its error is the terminal's, or a
// [*Panic].
func Run(opts Options) error {
	return run(newApp(opts), tea.WithAltScreen())
}

// run shows a model until it quits or panics.
func run(m tea.Model, options ...tea.ProgramOption) error {
	g := guard{Model: m, fault: new(atomic.Pointer[Panic])}
	var p *tea.Program
	g.quit = func() { p.Quit() }
	p = tea.NewProgram(g, options...)
	_, err := p.Run()
	if fault := g.fault.Load(); fault != nil {
		return fault
	}
	return err
}

// Theme returns the theme for the terminal that the environment describes, on a light or
// dark background; the zero Theme where it has no colours or asks for none (NO_COLOR).
func Theme(light bool) draw.Theme {
	depth := map[termenv.Profile]draw.Depth{
		termenv.Ascii: draw.Mono, termenv.ANSI: draw.Sixteen,
		termenv.ANSI256: draw.Indexed, termenv.TrueColor: draw.True,
	}[termenv.EnvColorProfile()]
	return draw.NewTheme(depth, light)
}

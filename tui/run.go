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
	return run(newApp(opts), tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFilter(dropAnswers()))
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
// dark background. Bold, underlined and reversed characters stay where it has no colours,
// or none are wanted (plain, or NO_COLOR in the environment).
func Theme(light, plain bool) draw.Theme {
	if plain {
		return draw.NewTheme(draw.Mono, light)
	}
	depth := map[termenv.Profile]draw.Depth{
		termenv.Ascii: draw.Mono, termenv.ANSI: draw.Sixteen,
		termenv.ANSI256: draw.Indexed, termenv.TrueColor: draw.True,
	}[termenv.EnvColorProfile()]
	return draw.NewTheme(depth, light)
}

package tui

import (
	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"

	"turflast/tui/draw"
)

// Run shows the UI until the user quits it. Its error is the terminal's.
func Run(opts Options) error {
	_, err := tea.NewProgram(newApp(opts), tea.WithAltScreen()).Run()
	return err
}

// Theme is the theme for the terminal that the environment describes, on a
// light or dark background; the zero Theme where it has no colours or asks for
// none (NO_COLOR).
func Theme(light bool) draw.Theme {
	depth := map[termenv.Profile]draw.Depth{
		termenv.Ascii: draw.Mono, termenv.ANSI: draw.Sixteen,
		termenv.ANSI256: draw.Indexed, termenv.TrueColor: draw.True,
	}[termenv.EnvColorProfile()]
	return draw.NewTheme(depth, light)
}

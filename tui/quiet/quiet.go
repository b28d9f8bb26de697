// Package quiet keeps every command from asking the terminal for its
// background colour at start-up.
//
// The terminal UI library asks in its package initialiser, and a terminal that
// doesn't answer then stalls even `turflast check` for seconds. The library doesn't
// ask for a background that is already set. Go initialises packages in the order of
// their import paths as soon as their imports are ready, so the module's path begins
// with a name that sorts before the library's.
package quiet

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }

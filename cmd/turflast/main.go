// Command turflast plans the build of a garden against a fixed window.
package main

import (
	_ "a.turflast/quiet"
	_ "github.com/charmbracelet/bubbletea"
)

func main() {}

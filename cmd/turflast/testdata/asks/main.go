// Command asks links the terminal UI library and nothing that keeps it quiet. A
// test runs it to see that its terminal is one that is asked questions.
package main

import _ "github.com/charmbracelet/bubbletea"

func main() {}

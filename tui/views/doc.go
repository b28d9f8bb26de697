// Package views holds the three views of the terminal UI, each in a file of its
// own: the whole window, one day, and the deliveries. A view keeps what is chosen
// and how far it is scrolled; package draw draws it.
package views

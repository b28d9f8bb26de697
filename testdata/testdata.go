// Package testdata holds the gardens that ship with the program: the built-in
// one, a deliberately broken one, and the starter for a plan of one's own. All
// are invented.
package testdata

import _ "embed"

// Demo is the plan file of Tidewall Court, the built-in garden.
//
//go:embed tidewall.yaml
var Demo string

// Broken is Tidewall Court cut down and spoiled in a dozen ways, to show what
// a check finds.
//
//go:embed tidewall-broken.yaml
var Broken string

// Starter is a commented plan to begin one's own from.
//
//go:embed starter.yaml
var Starter string

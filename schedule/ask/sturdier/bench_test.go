package sturdier_test

import (
	"testing"

	"build.example/turflast/testdata"
)

// BenchmarkGarden looks for the choices of the built-in garden, with the usual
// builds.
func BenchmarkGarden(b *testing.B) {
	of := solved(b, testdata.Demo)
	for b.Loop() {
		find(b, of, options(10_000))
	}
}

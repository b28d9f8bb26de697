package report

// Shapes and Kinds give the tests of the documentation what is documented.
var (
	Shapes = shapes
	Kinds  = kinds
)

package report

// Shapes and Kinds are told to the tests of what is documented.
var (
	Shapes = shapes
	Kinds  = kinds
)

package schedule

import "fmt"

// NewerFormat says that a file, or a part of one, is of a newer format than is read here, and
// what to do.
func NewerFormat(what string, format, read int) string {
	return fmt.Sprintf("this %s is of format %d, and this turflast reads up to %d: a newer one wrote it; use that one",
		what, format, read)
}

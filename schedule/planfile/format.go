package planfile

import (
	"strconv"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
)

// Format is the newest form of what-if and price files that is read, and the one that is
// written. Files without the key format are of form 1. Plan files have no such key.
const Format = 1

// readable says whether a file is of a format that is read. One of a newer format has that as
// its only fault: what else it has nobody knows here.
func (r *reader) readable(root *yaml.Node, what string) bool {
	for i := 0; root.Kind == yaml.MappingNode && i+1 < len(root.Content); i += 2 {
		key, value := root.Content[i], root.Content[i+1]
		n, err := strconv.Atoi(value.Value)
		if key.Value == "format" && value.Kind == yaml.ScalarNode && err == nil && n > Format {
			r.fault(posOf(value), "", "%s", schedule.NewerFormat(what, n, Format))
			return false
		}
	}
	return true
}

// format reads the key of a format that is read.
func (it *item) format() {
	if it.has("format") {
		it.count("format", 1)
	}
}

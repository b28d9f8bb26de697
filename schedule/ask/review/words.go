package review

import (
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/schedule"
)

// tokens are the words of names and ids, in lower case.
func tokens(texts ...string) []string {
	return strings.FieldsFunc(strings.ToLower(strings.Join(texts, " ")),
		func(r rune) bool { return !unicode.IsLetter(r) })
}

// says says whether one of the words is among the tokens, as it is or with a usual ending.
func says(tokens []string, words ...string) bool {
	return slices.ContainsFunc(tokens, func(t string) bool {
		return slices.ContainsFunc(words, func(w string) bool {
			end, ok := strings.CutPrefix(t, w)
			return ok && slices.Contains([]string{"", "s", "es", "ed", "ing"}, end)
		})
	})
}

// taskWords are the words of a task's name and id.
func taskWords(t *schedule.Task) []string { return tokens(t.Name, t.ID) }

// Words by which a plan tells what its stages and keys don't.
var (
	trackWords  = []string{"trackway", "track", "mat", "matting", "board", "plate", "plywood"}
	mixWords    = []string{"concrete", "pour", "mortar", "screed"}
	coatWords   = []string{"render", "plaster", "grout", "adhesive", "oil", "stain", "paint", "varnish", "lime"}
	dryWords    = []string{"gravel", "hoggin", "dry", "sand", "loose", "bark"}
	walkWords   = []string{"snag", "snagging", "handover", "walk"}
	livingWords = []string{"plant", "shrub", "hedge", "hedging", "bulb", "perennial", "fern", "rose", "climber",
		"sedum", "wildflower", "rootball", "heather", "grasses"}
	craneWords = []string{"crane", "hoist", "hiab"}
)

package page

import "strings"

// Words splits a text into the pieces that a line may not break: words, and figures with
// their units, such as "7 h 30" or "2 d".
func Words(s string) []string {
	words := strings.Fields(s)
	out := words[:0]
	last, bare := "", false // the previous word, and whether it is a unit that a number may follow
	for _, word := range words {
		unit := number(last) && isUnit(word)
		if unit || bare && number(word) {
			out[len(out)-1] += " " + word
		} else {
			out = append(out, word)
		}
		last, bare = word, unit && (word == "h" || word == "d")
	}
	return out
}

const punctuation = ".,;:()"

func number(s string) bool {
	s = strings.Trim(s, punctuation+"-")
	return s != "" && strings.Trim(s, "0123456789") == ""
}

func isUnit(s string) bool {
	switch strings.TrimRight(s, punctuation) {
	case "d", "h", "m", "w", "%":
		return true
	}
	return false
}

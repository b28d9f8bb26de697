// Package ground finds out whether a terminal's background is light or dark.
package ground

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Ground is what a terminal's background is.
type Ground uint8

// The grounds.
const (
	Unknown Ground = iota
	Dark
	Light
)

// String returns the ground as a word.
func (g Ground) String() string { return [...]string{"unknown", "dark", "light"}[g] }

// FromColours reads the COLORFGBG variable that some terminals set: numbers of the sixteen
// colours, of words first and of the background last.
func FromColours(v string) Ground {
	fields := strings.Split(v, ";")
	n, err := strconv.Atoi(fields[len(fields)-1])
	switch {
	case err != nil || n < 0 || n > 15 || len(fields) < 2:
		return Unknown
	case n == 7 || n > 8:
		return Light
	}
	return Dark
}

// question asks for the background colour and then for what the terminal is, which nearly
// every terminal answers: after that answer no other comes. Both are of xterm's control
// sequences (OSC 11 and primary device attributes).
const question = "\x1b]11;?\x1b\\\x1b[c"

var (
	colourAnswer = regexp.MustCompile(`\x1b\]11;rgba?:([0-9a-fA-F]{1,4})/([0-9a-fA-F]{1,4})/([0-9a-fA-F]{1,4})`)
	kindAnswer   = regexp.MustCompile(`\x1b\[\?[0-9;]*c`)
)

// answered reads what a terminal has answered so far, and says whether no more will come.
func answered(text []byte) (g Ground, all bool) {
	all = kindAnswer.Match(text)
	m := colourAnswer.FindSubmatch(text)
	if m == nil {
		return Unknown, all
	}
	if luminance(m[1:]) > middle {
		return Light, all
	}
	return Dark, all
}

// middle is the luminance at which black and white words have the same contrast.
var middle = math.Sqrt(1.05*0.05) - 0.05

// luminance is the relative luminance of a colour in one to four hexadecimal digits a
// channel, from 0 to 1, as the Web Content Accessibility Guidelines 2.1 define it.
func luminance(channels [][]byte) float64 {
	sum := 0.0
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		n, _ := strconv.ParseUint(string(channels[i]), 16, 16)
		v := float64(n) / float64(uint(1)<<(4*len(channels[i]))-1)
		if v <= 0.03928 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

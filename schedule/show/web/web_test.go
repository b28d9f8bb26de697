package web

import (
	"math"
	"regexp"
	"strconv"
	"testing"
)

var (
	theme  = regexp.MustCompile(`:root \{([^}]*)\}`)
	colour = regexp.MustCompile(`--(\w+): #([0-9a-f]{6});`)
)

// light is the relative luminance of a colour (WCAG 2.1, from memory).
func light(hex string) float64 {
	n, _ := strconv.ParseUint(hex, 16, 32)
	part := func(v uint64) float64 {
		c := float64(v&255) / 255
		if c <= 0.03928 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(n>>16) + 0.7152*part(n>>8) + 0.0722*part(n)
}

// Words stand out from their ground at least 4.5 to 1, by day, by night and on paper.
func TestContrasts(t *testing.T) {
	themes := theme.FindAllStringSubmatch(style, -1)
	if len(themes) != 3 {
		t.Fatalf("%d sets of colours instead of 3", len(themes))
	}
	for _, set := range themes {
		of := map[string]string{}
		for _, c := range colour.FindAllStringSubmatch(set[1], -1) {
			of[c[1]] = c[2]
		}
		for _, words := range []string{"ink", "soft", "work", "living", "warm"} {
			for _, ground := range []string{"ground", "box"} {
				a, b := light(of[words]), light(of[ground])
				if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 4.5 {
					t.Errorf("%s #%s on %s #%s: %.2f", words, of[words], ground, of[ground], ratio)
				}
			}
		}
	}
}

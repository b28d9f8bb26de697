package draw

import (
	"fmt"
	"math"
	"testing"
)

// luminance is the relative luminance of a colour, and contrast the ratio of two, as the Web
// Content Accessibility Guidelines (W3C, version 2.1) define them.
func luminance(c [3]uint8) float64 {
	var sum float64
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		v := float64(c[i]) / 255
		if v <= 0.03928 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

func contrast(a, b [3]uint8) float64 {
	light, darker := luminance(a), luminance(b)
	if light < darker {
		light, darker = darker, light
	}
	return (light + 0.05) / (darker + 0.05)
}

// shade is the colour that a terminal shows for one of 256: a cube of six steps, then 24
// greys (xterm's, from memory).
func shade(n uint8) [3]uint8 {
	if n >= 232 {
		v := 8 + 10*(n-232)
		return [3]uint8{v, v, v}
	}
	step := func(k uint8) uint8 {
		if k == 0 {
			return 0
		}
		return 55 + 40*k
	}
	n -= 16
	return [3]uint8{step(n / 36), step(n / 6 % 6), step(n % 6)}
}

// screens are backgrounds that terminals have: dark ones and light ones.
var screens = [2][][3]uint8{
	{{0, 0, 0}, {30, 30, 30}, {24, 26, 36}},
	{{255, 255, 255}, {253, 246, 227}, {246, 246, 246}},
}

// Words need 4.5 to 1 and what isn't text 3 to 1 (the same guidelines, 1.4.3 and 1.4.11);
// that two bars side by side can be told apart takes 1.8 to 1 here. A seam is a ruler under
// the work and a finished bar is past: they may be fainter.
const (
	leastWords  = 4.5
	leastGround = 3
	leastApart  = 1.8
)

func TestContrast(t *testing.T) {
	for i, looks := range byGround {
		for _, depth := range []Depth{Indexed, True} {
			at := func(c *colour) [3]uint8 {
				if depth == Indexed {
					return shade(c.indexed)
				}
				return c.full
			}
			name := fmt.Sprintf("background %d, depth %d", i, depth)
			need := func(what string, a, b [3]uint8, least float64) {
				t.Helper()
				if got := contrast(a, b); got < least {
					t.Errorf("%s: %s have %.2f to 1, want %.1f", name, what, got, least)
				}
			}
			for s, l := range looks {
				for _, screen := range screens[i] {
					switch {
					case s == Seam:
					case l.ground == nil:
						need(fmt.Sprintf("words of style %d on %v", s, screen), at(l.words), screen, leastWords)
					case s != OnDone:
						need(fmt.Sprintf("the ground of style %d on %v", s, screen), at(l.ground), screen, leastGround)
					}
				}
				if l.ground != nil {
					need(fmt.Sprintf("words on the ground of style %d", s), at(l.words), at(l.ground), leastWords)
				}
			}
			for _, pair := range [][2]Style{{OnChain, OnTight}, {OnTight, OnFree}, {OnFree, OnDone}} {
				need(fmt.Sprintf("the grounds %v", pair), at(looks[pair[0]].ground), at(looks[pair[1]].ground), leastApart)
			}
		}
	}
}

// Bars differ from each other at every depth, and from plain text.
func TestBarsDiffer(t *testing.T) {
	for _, light := range []bool{false, true} {
		for _, depth := range []Depth{Mono, Sixteen, Indexed, True} {
			th, seen := NewTheme(depth, light), map[string]Style{"": Plain}
			for _, s := range []Style{OnChain, OnTight, OnFree, OnDone, OnLate} {
				if other, twice := seen[th.begin[s]]; twice {
					t.Errorf("depth %d, light %v: styles %d and %d look the same", depth, light, s, other)
				}
				seen[th.begin[s]] = s
			}
		}
	}
}
